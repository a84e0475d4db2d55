/**
 * The way from one place on the sheet to another. While the view moves, the drawing as it was last laid out is moved
 * and scaled whole, which costs a fraction of laying it out anew; where the view comes to rest it is laid out for that
 * place: lettering held at its size, strokes at their weight, what has no room left away.
 */

/** Long enough for the next turn of a wheel or press of a button. */
const RESTS_MS = 300;

/** @typedef {{x: number, y: number, scale: number, width: number, height: number}} Place */

export class Glide {
  /** @param {HTMLElement} layer of the drawing @param {Place} view @param {() => void} rest lays the drawing out for where the view is */
  constructor(layer, view, rest) {
    this.layer = layer;
    this.view = view;
    this.rest = rest;
    /**
     * For where the drawing was laid out; null before it was.
     * @type {Place|null}
     */
    this.from = null;
    /** @type {number|undefined} */
    this.timer = undefined;
  }

  /** Go on to where the view is now. */
  move() {
    const { from, view } = this;
    if (!from || from.width !== view.width || from.height !== view.height) return this.rest();
    const by = view.scale / from.scale;
    this.layer.style.transform = `matrix(${by}, 0, 0, ${by}, ${(from.x - view.x) * view.scale}, ${(from.y - view.y) * view.scale})`;
    clearTimeout(this.timer);
    this.timer = setTimeout(this.rest, RESTS_MS);
  }

  /** @param {boolean} isDrawn whether there is a drawing, laid out for where the view is */
  end(isDrawn) {
    clearTimeout(this.timer);
    const { x, y, scale, width, height } = this.view;
    this.from = isDrawn ? { x, y, scale, width, height } : null;
    if (this.layer.style.transform) this.layer.style.transform = "";
  }
}
