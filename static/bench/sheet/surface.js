/**
 * The sheet: one stable host with the server's drawing between two layers of our own, the index of what lies on it,
 * and the view. Emits `swapping` before the drawing changes, `swapped` after it has, and then `turned` where it is
 * another view; `laid-out` where it is laid out at another scale.
 *
 * Rules of the file: a new drawing never lands under a gesture; it waits for the pointer to be lifted, two seconds at
 * most. Pan, zoom, focus and picks are kept.
 */

import { make } from "../shared/dom.js";
import { Emitter } from "../shared/emitter.js";
import { EDITED } from "../views/names.js";
import { Glide } from "./glide.js";
import { Hand } from "./hand.js";
import { Drawing } from "./swap.js";
import { Things } from "./things.js";
import { View } from "./view.js";

const LONGEST_WAIT_MS = 2000;
/** Around what lies on the sheet, in sheet units. */
const ROOM = 36;
/** The whole sheet is shown where it comes out nearly as large as its parts and wires alone. */
const NEARLY = 0.9;
/** The least scale at which small lettering is read. */
const READABLE = 0.8;
/** From this scale on all lettering has its size on paper, so that styles need not know more. */
const WHOLE = 1.1;

export class Surface extends Emitter {
  /** @param {HTMLElement} host */
  constructor(host) {
    super();
    this.host = host;
    this.view = new View();
    const layer = /** @type {HTMLElement|null} */ (host.querySelector(":scope > .drawn")) ?? make("div", { class: "drawn" });
    if (!layer.isConnected) host.prepend(layer);
    this.drawing = new Drawing(layer);
    this.hand = new Hand(host, this.view);
    this.things = new Things();
    /** Show the whole sheet where something of it is out of sight. */
    this.seeAll = () => {};
    this.name = EDITED;
    /**
     * Where one was in each view that was left.
     * @type {Map<string, {x: number, y: number, scale: number, fitted: boolean, width: number, height: number}>}
     */
    this.places = new Map();
    /** @type {[string, string]|null} */
    this.queued = null;
    this.held = false;
    /** @type {number|undefined} */
    this.timer = undefined;
    this.fitted = false;
    this.isRead = true;
    /** The scale that the styles know. */
    this.lettered = 0;
    this.glide = new Glide(layer, this.view, () => this.layOut());
    this.view.on("changed", () => this.glide.move());
    new ResizeObserver(() => this.measure()).observe(host);
  }

  /** @param {string} text @param {string} name of the view that it is */
  put(text, name) {
    if (!this.held) return this.swap(text, name);
    if (this.queued === null) this.timer = setTimeout(() => this.flush(), LONGEST_WAIT_MS);
    this.queued = [text, name];
  }

  /**
   * While `held`, a gesture is under way.
   * @param {boolean} held
   */
  hold(held) {
    this.held = held;
    if (!held) this.flush();
  }

  flush() {
    clearTimeout(this.timer);
    const queued = this.queued;
    this.queued = null;
    if (queued !== null) this.swap(...queued);
  }

  /** @param {string} text @param {string} name */
  swap(text, name) {
    const turned = name !== this.name;
    if (turned) this.turn(name);
    this.emit("swapping");
    // What is laid out in one size and then another is laid out twice.
    this.letter(this.fitted ? this.view.scale : READABLE);
    if (!this.drawing.put(text)) return;
    this.read();
    // The host tells when its size changes; to ask for it now would lay out the page once more.
    if (this.view.width <= 1) this.measure();
    else if (this.isRead) this.settle();
    this.layOut();
    this.emit("swapped");
    if (turned) this.emit("turned");
    // Who listens may have gone elsewhere on the new sheet.
    this.layOut();
    this.hand.refresh();
  }

  /** Of what is only looked at the sizes are read: what is not on the screen has none, and is read again once it is. */
  read() {
    this.things.read(this.drawing.svg, this.name !== EDITED);
    this.isRead = this.name === EDITED || this.host.offsetWidth > 0;
  }

  /**
   * Each view is come back to where it was left; one that was fitted in is fitted in again where the host has another
   * size now.
   * @param {string} name
   */
  turn(name) {
    const { x, y, scale, fitted, width, height } = this.view;
    if (this.fitted) this.places.set(this.name, { x, y, scale, fitted, width, height });
    this.drawing.clear();
    this.glide.end(false);
    this.name = name;
    const place = this.places.get(name);
    this.fitted = place !== undefined && !(place.fitted && (place.width !== width || place.height !== height));
    Object.assign(this.view, { left: null, ...place, width, height });
    this.view.emit("left");
  }

  /** Another layout begins anew in every view. */
  forget() {
    this.places.clear();
    this.fitted = false;
  }

  measure() {
    const { width, height } = this.host.getBoundingClientRect();
    if (width < 2 || height < 2) return;
    const changed = width !== this.view.width || height !== this.view.height;
    if (changed) this.view.resize(width, height);
    this.settle(changed);
  }

  /** @param {boolean} [changed] whether the host has another size */
  settle(changed = false) {
    if (!this.drawing.svg) return;
    if (!this.isRead) {
      this.read();
      this.emit("swapped");
    }
    if (!this.fitted) this.begin();
    else if (changed && this.view.fitted) this.fit();
  }

  /** What is read begins at its beginning, at a size at which it can be read. */
  begin() {
    if (this.name === EDITED || this.view.scaleFor(this.drawing.bounds) >= READABLE) return this.fit();
    this.fitted = true;
    this.view.readFrom(this.content, READABLE);
  }

  fit() {
    this.fitted = true;
    const { content, view } = this;
    const { bounds } = this.drawing;
    view.fit(view.scaleFor(bounds) >= NEARLY * view.scaleFor(content) ? bounds : content);
    this.view.fitted = true;
  }

  /** Parts and wires with some room around them; the whole sheet while there are none. */
  get content() {
    if (this.things.looking) return contentOf(this.drawing);
    const points = [
      ...this.things.parts.flatMap(({ box }) => (box ? [box, { x: box.x + box.w, y: box.y + box.h }] : [])),
      ...this.things.conductors.flatMap(({ path }) => path ?? []),
    ];
    if (points.length === 0) return this.drawing.bounds;
    const xs = points.map((point) => point.x);
    const ys = points.map((point) => point.y);
    const [x, y] = [Math.min(...xs) - ROOM, Math.min(...ys) - ROOM];
    return { x, y, w: Math.max(...xs) + ROOM - x, h: Math.max(...ys) + ROOM - y };
  }

  /** Everything has its size for where the view is. */
  layOut() {
    const { x, y, width, height, scale } = this.view;
    const box = `${x} ${y} ${width / scale} ${height / scale}`;
    // What is set again, even to what it is, is laid out again.
    if (this.drawing.svg?.getAttribute("viewBox") !== box) this.drawing.svg?.setAttribute("viewBox", box);
    this.letter(scale);
    if (this.host.dataset.detail !== this.view.detail) this.host.dataset.detail = this.view.detail;
    const scaled = this.glide.from?.scale !== scale;
    this.glide.end(this.drawing.svg !== null);
    if (scaled) this.emit("laid-out");
  }

  /** @param {number} scale for which lettering has its size */
  letter(scale) {
    const lettered = Math.min(scale, WHOLE);
    if (this.lettered !== lettered) this.host.style.setProperty("--scale", String(lettered));
    this.lettered = lettered;
  }

  /** @param {PointerEvent|WheelEvent} event @returns {import("../job/types.js").Point} px in the host */
  screenPoint(event) {
    const box = this.host.getBoundingClientRect();
    return { x: event.clientX - box.left, y: event.clientY - box.top };
  }
}

/**
 * What is inside the frame of a sheet, with some room around it.
 * @param {Drawing} drawing
 */
function contentOf({ svg, bounds }) {
  const boxes = [...(svg?.querySelectorAll(":scope > g:not([data-layer=sheet])") ?? [])].map((one) => /** @type {SVGGElement} */ (one).getBBox());
  const shown = boxes.filter(({ width, height }) => width > 0 || height > 0);
  if (shown.length === 0) return bounds;
  const [x, y] = [Math.min(...shown.map((box) => box.x)) - ROOM, Math.min(...shown.map((box) => box.y)) - ROOM];
  const right = Math.max(...shown.map((box) => box.x + box.width)) + ROOM;
  const bottom = Math.max(...shown.map((box) => box.y + box.height)) + ROOM;
  return { x, y, w: right - x, h: bottom - y };
}
