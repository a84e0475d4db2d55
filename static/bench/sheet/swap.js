/**
 * Putting a new drawing in the place of the old one without touching what has not changed.
 *
 * Rules of the file: groups with the same key keep their node, and with it focus and whatever else hangs on it; of what
 * is in them only what has changed is made anew. What the server sent before is compared with what it sends now, never
 * the live nodes, because the page adds roles and labels.
 */

import { change } from "./change.js";

/** @typedef {{sent: Element, node: Element}} Kept as it was sent, and the live node */

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
    const parsed = new DOMParser().parseFromString(text, "image/svg+xml");
    if (parsed.querySelector("parsererror")) return false;
    const fresh = /** @type {SVGSVGElement} */ (/** @type {unknown} */ (parsed.documentElement));
    this.bounds = boundsOf(fresh);
    const known = this.kept;
    this.kept = new Map();
    if (!this.svg) {
      const first = this.host.querySelector(":scope > .drawing");
      if (first && text === this.said) this.adopt(first, fresh, known, "");
      else first?.remove();
      this.svg = /** @type {SVGSVGElement} */ (first?.isConnected ? first : document.importNode(fresh, false));
      for (const name of ["width", "height", "viewBox"]) this.svg.removeAttribute(name);
      this.svg.classList.add("drawing");
      if (!this.svg.isConnected) this.host.prepend(this.svg);
    }
    this.weave(this.svg, fresh, known, "");
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
   * @param {Element} live @param {Element} sent @param {Map<string, Kept>} known @param {string} above
   */
  adopt(live, sent, known, above) {
    [...sent.children].forEach((child, number) => {
      const [key, node] = [`${above}/${keyOf(child, number)}`, live.children[number]];
      known.set(key, { sent: child, node });
      if (child.hasAttribute("data-layer")) this.adopt(node, child, known, key);
    });
  }

  /**
   * Make the children of `live` those of `fresh`. Layers are gone into, everything else is kept or replaced whole.
   * @param {Element} live @param {Element} fresh @param {Map<string, Kept>} known
   * @param {string} above
   */
  weave(live, fresh, known, above) {
    const wanted = [...fresh.children].map((child, number) => this.nodeFor(child, `${above}/${keyOf(child, number)}`, known));
    const staying = new Set(wanted);
    for (const child of [...live.childNodes]) if (!staying.has(/** @type {Element} */ (child))) child.remove();
    let place = live.firstChild;
    for (const node of wanted) {
      if (node === place) place = place.nextSibling;
      else live.insertBefore(node, place);
    }
  }

  /** @param {Element} child of the new drawing @param {string} key @param {Map<string, Kept>} known @returns {Element} */
  nodeFor(child, key, known) {
    const layer = child.hasAttribute("data-layer");
    const before = known.get(key);
    const stays = before?.sent.nodeName === child.nodeName;
    const node = stays ? before.node : document.importNode(child, !layer);
    known.delete(key);
    this.kept.set(key, { sent: child, node });
    if (stays) change(node, before.sent, child, !layer);
    if (layer) this.weave(node, child, known, key);
    return node;
  }
}

/** @param {Element} node @param {number} number */
function keyOf(node, number) {
  for (const name of ["layer", "part", "conductor", "end", "terminal", "volts"]) {
    const value = node.getAttribute(`data-${name}`);
    if (value !== null) return `${name}:${value.replaceAll("/", "~")}`;
  }
  return `${node.tagName}:${number}`;
}

/** @param {SVGSVGElement} svg */
function boundsOf(svg) {
  const [x, y, w, h] = (svg.getAttribute("viewBox") ?? "0 0 800 600").split(/[\s,]+/).map(Number);
  return { x, y, w, h };
}
