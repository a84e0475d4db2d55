/**
 * Putting a new drawing in the place of the old one without touching what has not changed.
 *
 * Rules of the file: groups with the same key keep their node, and with it focus and whatever else hangs on it; of what
 * is in them only what has changed is made anew. What the server sent before is compared with what it sends now, never
 * the live nodes, because the page adds roles and labels.
 */

import { change } from "./change.js";
import { readPieces } from "./pieces.js";

/** @typedef {import("./pieces.js").Piece} Piece @typedef {{line: string, sent: Element, node: Element}} Kept as it was sent, and the live node */

export class Drawing {
  /** @param {HTMLElement} host where the drawing's svg goes */
  constructor(host) {
    this.host = host;
    /** @type {SVGSVGElement|null} */
    this.svg = null;
    /** @type {Map<string, Kept>} */
    this.kept = new Map();
    this.bounds = { x: 0, y: 0, w: 800, h: 600 };
    /** What `first` gave. */
    this.said = "";
  }

  /** Another view comes, which has nothing of this one. */
  clear() {
    this.svg?.remove();
    this.svg = null;
    this.kept.clear();
  }

  /** @param {string} text of the server's SVG @returns {boolean} whether it could be read */
  put(text) {
    const known = this.kept;
    const sheet = readPieces(text, (key) => known.get(key)?.line);
    if (!sheet) return false;
    const { svg: fresh, pieces } = sheet;
    this.bounds = boundsOf(fresh);
    this.kept = new Map();
    if (!this.svg) {
      const first = this.host.querySelector(":scope > .drawing");
      if (first && text === this.said) this.adopt(first, pieces, known);
      else first?.remove();
      this.svg = /** @type {SVGSVGElement} */ (first?.isConnected ? first : document.importNode(fresh, false));
      for (const name of ["width", "height", "viewBox"]) this.svg.removeAttribute(name);
      this.svg.classList.add("drawing");
      if (!this.svg.isConnected) this.host.prepend(this.svg);
    }
    this.weave(this.svg, pieces, known);
    return true;
  }

  /**
   * The drawing that the page came with, as the server's text; empty where it has given way to another.
   * @returns {string}
   */
  get first() {
    const svg = this.svg ? null : this.host.querySelector(":scope > .drawing");
    this.said = svg ? new XMLSerializer().serializeToString(svg).replace(' class="drawing"', "") : "";
    return this.said;
  }

  /**
   * Take what stands there already for what was sent.
   * @param {Element} live @param {Piece[]} pieces @param {Map<string, Kept>} known
   */
  adopt(live, pieces, known) {
    pieces.forEach(({ key, line, sent, pieces: within }, number) => {
      const node = live.children[number];
      if (sent) known.set(key, { line, sent, node });
      if (within) this.adopt(node, within, known);
    });
  }

  /**
   * Make the children of `live` those that were sent. Layers are gone into, everything else is kept or replaced whole.
   * @param {Element} live @param {Piece[]} pieces @param {Map<string, Kept>} known
   */
  weave(live, pieces, known) {
    const wanted = pieces.map((piece) => this.nodeFor(piece, known));
    const staying = new Set(wanted);
    for (const child of [...live.childNodes]) if (!staying.has(/** @type {Element} */ (child))) child.remove();
    let place = live.firstChild;
    for (const node of wanted) {
      if (node === place) place = place.nextSibling;
      else live.insertBefore(node, place);
    }
  }

  /** @param {Piece} piece of the new drawing @param {Map<string, Kept>} known @returns {Element} */
  nodeFor({ key, line, sent, pieces }, known) {
    const before = known.get(key);
    const stays = before !== undefined && (!sent || before.sent.nodeName === sent.nodeName);
    const now = sent ?? /** @type {Kept} */ (before).sent;
    const node = stays ? before.node : document.importNode(now, true);
    known.delete(key);
    this.kept.set(key, { line, sent: now, node });
    if (stays && sent) change(node, before.sent, sent, pieces === null);
    if (pieces) this.weave(node, pieces, known);
    return node;
  }
}

/** @param {SVGSVGElement} svg */
function boundsOf(svg) {
  const [x, y, w, h] = (svg.getAttribute("viewBox") ?? "0 0 800 600").split(/[\s,]+/).map(Number);
  return { x, y, w, h };
}
