/**
 * How many pixels of two places in a picture differ much in lightness, which is all that is left of a colour in grey.
 * Returns one number for each pair of places.
 */
async ([picture, pairs]) => {
  const MUCH = 60;
  const bytes = Uint8Array.from(atob(picture), (one) => one.charCodeAt(0));
  const image = await createImageBitmap(new Blob([bytes], { type: "image/png" }));
  const canvas = new OffscreenCanvas(image.width, image.height).getContext("2d", { willReadFrequently: true });
  canvas.drawImage(image, 0, 0);
  const greys = ([x, y, width, height]) => {
    const { data } = canvas.getImageData(Math.round(x), Math.round(y), Math.round(width), Math.round(height));
    return Array.from({ length: data.length / 4 }, (_, at) => 0.2126 * data[4 * at] + 0.7152 * data[4 * at + 1] + 0.0722 * data[4 * at + 2]);
  };
  return pairs.map(([one, other]) => {
    const [a, b] = [greys(one), greys(other)];
    return a.filter((grey, at) => Math.abs(grey - b[at]) > MUCH).length;
  });
}
