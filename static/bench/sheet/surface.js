/**
 * The sheet: one stable host with the server's drawing between two layers of our own, the index of what lies on it,
 * and the view. Emits `swapped` after the drawing has changed.
 *
 * Rules of the file: a new drawing never lands under a gesture; it waits for the pointer to be lifted, two seconds at
 * most. Pan, zoom, focus and picks are kept.
 */

import { Emitter } from "../shared/emitter.js";
import { Hand } from "./hand.js";
import { Drawing } from "./swap.js";
import { Things } from "./things.js";
import { View } from "./view.js";

const LONGEST_WAIT_MS = 2000;
/** Around what lies on the sheet, in sheet units. */
const ROOM = 36;
/** The whole sheet is shown where it comes out nearly as large as its parts and wires alone. */
const NEARLY = 0.9;

export class Surface extends Emitter {
  /** @param {HTMLElement} host */
  constructor(host) {
    super();
    this.host = host;
    this.view = new View();
    this.drawing = new Drawing(host);
    this.hand = new Hand(host, this.view);
    this.things = new Things();
    /** @type {string|null} */
    this.queued = null;
    this.held = false;
    /** @type {number|undefined} */
    this.timer = undefined;
    this.fitted = false;
    this.view.on("changed", () => this.showView());
    new ResizeObserver(() => this.measure()).observe(host);
  }

  /** @param {string} text */
  put(text) {
    if (!this.held) return this.swap(text);
    if (this.queued === null) this.timer = setTimeout(() => this.flush(), LONGEST_WAIT_MS);
    this.queued = text;
  }

  /** While `held`, a gesture is under way. @param {boolean} held */
  hold(held) {
    this.held = held;
    if (!held) this.flush();
  }

  flush() {
    clearTimeout(this.timer);
    const text = this.queued;
    this.queued = null;
    if (text !== null) this.swap(text);
  }

  /** @param {string} text */
  swap(text) {
    if (!this.drawing.put(text)) return;
    if (this.drawing.svg && this.drawing.svg.previousSibling !== this.hand.under) this.hand.under.after(this.drawing.svg);
    this.things.read(this.drawing.svg);
    this.measure();
    this.showView();
    this.emit("swapped");
    this.hand.refresh();
  }

  measure() {
    const { width, height } = this.host.getBoundingClientRect();
    if (width < 2 || height < 2) return;
    const changed = width !== this.view.width || height !== this.view.height;
    if (changed) this.view.resize(width, height);
    if (!this.drawing.svg) return;
    if (!this.fitted || (changed && this.view.fitted)) this.fit();
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

  showView() {
    const { x, y, width, height, scale } = this.view;
    this.drawing.svg?.setAttribute("viewBox", `${x} ${y} ${width / scale} ${height / scale}`);
    this.host.style.setProperty("--scale", String(scale));
    if (this.host.dataset.detail !== this.view.detail) this.host.dataset.detail = this.view.detail;
  }

  /** @param {PointerEvent|WheelEvent} event @returns {import("../job/types.js").Point} px in the host */
  screenPoint(event) {
    const box = this.host.getBoundingClientRect();
    return { x: event.clientX - box.left, y: event.clientY - box.top };
  }
}
