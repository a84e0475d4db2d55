/**
 * The hand layer: what the bench itself draws over (or under) the server's drawing. In screen pixels, so that marks
 * keep their size at any zoom; each painter has its own group and is asked again when something it shows may have
 * changed.
 */

import { draw } from "../shared/dom.js";
import { Emitter } from "../shared/emitter.js";

/** @typedef {(group: SVGElement, view: import("./view.js").View) => void} Painter */

/** Emits `painted`. */
export class Hand extends Emitter {
  /** @param {HTMLElement} host @param {import("./view.js").View} view */
  constructor(host, view) {
    super();
    this.view = view;
    this.over = draw("svg", { class: "hand over", "aria-hidden": "true" });
    this.under = draw("svg", { class: "hand under", "aria-hidden": "true" });
    /** What moves with the pointer: nothing else is painted anew for it. */
    this.held = draw("svg", { class: "hand held", "aria-hidden": "true" });
    host.prepend(this.under);
    host.append(this.over, this.held);
    /** @type {Map<string, {group: SVGElement, paint: Painter}>} */
    this.painters = new Map();
    /** @type {Set<string>} */
    this.stale = new Set();
    view.on("changed", () => this.refresh());
  }

  /** @param {string} name @param {Painter} paint @param {"held"|"over"|"under"} [layer] */
  add(name, paint, layer = "over") {
    const group = draw("g", { "data-hand": name });
    this[layer].append(group);
    this.painters.set(name, { group, paint });
  }

  /** @param {...string} names all when none is given */
  refresh(...names) {
    if (this.stale.size === 0) requestAnimationFrame(() => this.paint());
    for (const name of names.length > 0 ? names : this.painters.keys()) this.stale.add(name);
  }

  paint() {
    const names = [...this.stale];
    this.stale.clear();
    for (const name of names) {
      const painter = this.painters.get(name);
      if (!painter) continue;
      painter.group.replaceChildren();
      painter.paint(painter.group, this.view);
    }
    this.emit("painted");
  }
}
