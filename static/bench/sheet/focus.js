/**
 * Keyboard position on the sheet: one tab stop that roves over the real groups of the drawing, kept by key over
 * every swap. What vanished hands its focus to its part, else to the sheet.
 */

import { Emitter } from "../shared/emitter.js";
import { partOf } from "../job/acts.js";
import { withoutPlace } from "./spots.js";

export class Focus extends Emitter {
  /** @param {import("./surface.js").Surface} surface */
  constructor(surface) {
    super();
    this.surface = surface;
    /** @type {string|null} */
    this.key = null;
    this.visible = false;
    surface.host.addEventListener("focusin", (event) => this.entered(/** @type {Element} */ (event.target)));
    surface.host.addEventListener("focusout", () => this.show(false));
    addEventListener("keydown", () => (this.byKeys = true), true);
    addEventListener("pointerdown", () => (this.byKeys = false), true);
    this.byKeys = false;
  }

  /** @param {Element} target */
  entered(target) {
    const key = keyOfNode(target.closest("[data-key]"));
    if (key) this.key = key;
    this.show(this.byKeys);
  }

  /** @param {boolean} visible */
  show(visible) {
    this.visible = visible;
    this.emit("changed");
  }

  /** @param {string|null} key @param {boolean} [reveal] bring it into view */
  to(key, reveal = true) {
    const thing = this.surface.things.get(key);
    if (!thing) return this.toHost();
    this.rove(thing.key);
    thing.node.focus({ preventScroll: true });
    if (reveal) this.surface.view.reveal(nearPoint(thing, this.surface.view));
    this.show(this.byKeys);
  }

  /**
   * The keyboard goes on from what was dragged.
   * @param {string} key
   */
  grabbed(key) {
    if (this.surface.things.get(key)?.node.hasAttribute("tabindex")) this.to(key, false);
  }

  toHost() {
    this.surface.host.focus({ preventScroll: true });
    this.show(false);
  }

  /**
   * Make one thing the tab stop.
   * @param {string|null} key
   */
  rove(key) {
    const { things, host } = this.surface;
    const before = things.get(this.key);
    before?.node.setAttribute("tabindex", "-1");
    const thing = things.get(key);
    this.key = thing?.key ?? null;
    thing?.node.setAttribute("tabindex", "0");
    host.setAttribute("tabindex", thing ? "-1" : "0");
  }

  /** Whether the keyboard is on the sheet. */
  get within() {
    return this.surface.host.contains(document.activeElement);
  }

  /**
   * After a swap: the same thing again, or what is nearest to it.
   * @param {boolean} wasWithin
   */
  restore(wasWithin) {
    const { things } = this.surface;
    const key = things.get(this.key) ? this.key : fallback(this.key && withoutPlace(this.key), things);
    this.rove(key ?? things.first?.key ?? null);
    if (!wasWithin) return;
    const thing = things.get(this.key);
    if (thing) {
      if (document.activeElement !== thing.node) thing.node.focus({ preventScroll: true });
    } else this.toHost();
  }
}

/** @param {Element|null} node */
const keyOfNode = (node) => /** @type {SVGElement|null} */ (node)?.dataset.key ?? null;

/** @param {string|null} key @param {import("./things.js").Things} things @returns {string|null} */
function fallback(key, things) {
  if (!key) return null;
  if (things.get(key)) return key;
  const [sort, name] = [key.slice(0, key.indexOf(":")), key.slice(key.indexOf(":") + 1)];
  if (sort === "terminal" && things.get(`part:${partOf(name)}`)) return `part:${partOf(name)}`;
  return things.first?.key ?? null;
}

/**
 * Long wires are revealed by their first end.
 * @param {import("./things.js").Thing} thing @param {import("./view.js").View} view
 */
function nearPoint(thing, view) {
  if (thing.path && !view.sees(thing.at)) return thing.path[0] ?? thing.at;
  return thing.at;
}
