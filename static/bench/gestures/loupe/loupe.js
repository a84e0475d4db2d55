/**
 * What lies under the finger, larger and beside it: a finger hides the screw that it is about.
 *
 * The copy of the drawing stands in a tree of its own, so that whoever looks for a part or a screw finds the one on the
 * sheet alone. It is made when a drag begins, and only its window moves.
 */

import { draw, make } from "../../shared/dom.js";
import { PITCH } from "../../sheet/view.js";

/** px across. */
const SIZE = 128;
const TIMES = 2.5;
/** Where screws are at least so far apart on the screen, nobody needs it. */
const CROWDED_PX = 24;
/** px between the finger and the loupe. */
const AWAY = 40;

/** @typedef {import("../press/press.js").Where} Where */

export class Loupe {
  /** @param {import("../../sheet/surface.js").Surface} surface */
  constructor(surface) {
    this.surface = surface;
    this.name = make("p", { class: "loupe-name" });
    this.glass = make("div", { class: "loupe-glass" });
    this.root = this.glass.attachShadow({ mode: "closed" });
    this.node = make("div", { class: "loupe", "aria-hidden": "true", hidden: true }, this.glass, this.name);
    /** @type {SVGSVGElement|null} */
    this.copy = null;
    surface.host.append(this.node);
  }

  /** @param {string} pointer @param {Where} where @param {string} name of what is there, empty for paper */
  show(pointer, where, name) {
    const { view, drawing } = this.surface;
    if (pointer === "mouse" || PITCH * view.scale >= CROWDED_PX || !drawing.svg) return this.hide();
    if (!this.copy) this.look(drawing.svg);
    const across = SIZE / (TIMES * view.scale);
    this.copy?.setAttribute("viewBox", `${where.at.x - across / 2} ${where.at.y - across / 2} ${across} ${across}`);
    this.name.textContent = name;
    this.node.hidden = false;
    const { x, y } = this.place(where.screen);
    this.node.style.transform = `translate(${x}px, ${y}px)`;
    return undefined;
  }

  hide() {
    this.node.hidden = true;
    this.copy = null;
    this.root.replaceChildren();
  }

  /** @param {SVGSVGElement} svg */
  look(svg) {
    this.copy = /** @type {SVGSVGElement} */ (svg.cloneNode(true));
    this.copy.removeAttribute("style");
    for (const name of ["width", "height"]) this.copy.setAttribute(name, String(SIZE));
    const middle = draw("svg", { width: SIZE, height: SIZE });
    middle.append(draw("circle", { cx: SIZE / 2, cy: SIZE / 2, r: 14, fill: "none", stroke: "currentColor", "stroke-width": 1, "stroke-dasharray": "3 3" }));
    Object.assign(middle.style, { position: "absolute", inset: "0" });
    this.root.replaceChildren(this.copy, middle);
  }

  /**
   * Above the finger; beside it where there is no room above.
   * @param {import("../../job/types.js").Point} screen
   */
  place({ x, y }) {
    const { width } = this.surface.view;
    const high = this.node.offsetHeight;
    const left = Math.max(0, Math.min(x - SIZE / 2, width - SIZE));
    if (y - AWAY - high >= 0) return { x: left, y: y - AWAY - high };
    return { x: x > width / 2 ? x - AWAY - SIZE : x + AWAY, y: 0 };
  }
}
