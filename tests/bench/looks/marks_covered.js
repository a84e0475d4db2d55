/**
 * Of the ink in one place of a picture the share that is ink in another place too, where something may lie over it.
 * Returns one share for each pair of places.
 */
async ([picture, pairs]) => {
  const INK = 110;
  const bytes = Uint8Array.from(atob(picture), (one) => one.charCodeAt(0));
  const image = await createImageBitmap(new Blob([bytes], { type: "image/png" }));
  const canvas = new OffscreenCanvas(image.width, image.height).getContext("2d", { willReadFrequently: true });
  canvas.drawImage(image, 0, 0);
  const inked = ([x, y, width, height]) => {
    const { data } = canvas.getImageData(Math.round(x), Math.round(y), Math.ceil(width), Math.ceil(height));
    return Array.from({ length: data.length / 4 }, (_, at) => 0.2126 * data[4 * at] + 0.7152 * data[4 * at + 1] + 0.0722 * data[4 * at + 2] < INK);
  };
  return pairs.map(([one, other]) => {
    const [a, b] = [inked(one), inked(other)];
    const ink = a.filter(Boolean).length;
    return ink === 0 ? 1 : a.filter((is, at) => is && b[at]).length / ink;
  });
}
