/** The followed path in words: what it comes to, why, and all its steps as a list in the same order as the marks. */

import { byId, make } from "../shared/dom.js";
import { refill } from "../rows/index.js";

const NOT_KNOWN = "The path needs the server. It will be followed once the server answers.";

export class Panel {
  /** @param {import("./why.js").Why} why */
  constructor(why) {
    this.why = why;
    this.node = make("section", { class: "panel why-panel", id: "why-panel", "aria-label": "Path that is followed", hidden: true });
    byId("panels").append(this.node);
  }

  fill() {
    const { key, followed } = this.why;
    const open = this.node.querySelector("details")?.open ?? false;
    const held = this.node.contains(document.activeElement);
    this.node.hidden = key === null;
    if (key === null) {
      this.node.replaceChildren();
      // Whoever leaves from inside the panel comes back to what asked.
      if (held) this.bringBack();
      return;
    }
    const leave = make("button", { type: "button", class: "small", id: "why-leave", "data-f": "why-leave", onclick: () => this.leave(key) }, "Leave the path");
    refill(this.node, [make("div", { class: "panel-head" }, make("p", { class: "panel-title" }, followed?.title ?? NOT_KNOWN), leave), ...(followed ? told(followed, open) : [])]);
  }

  /** @param {string} key */
  leave(key) {
    this.asked = key;
    this.why.leave();
  }

  bringBack() {
    const button = /** @type {HTMLElement|null} */ (document.querySelector(`[data-why="${CSS.escape(this.asked ?? "")}"]`));
    (button ?? byId("sheet")).focus({ preventScroll: true });
  }
}

/** @param {import("./why.js").Followed} followed @param {boolean} open */
function told({ because, steps }, open) {
  const list = make(
    "details",
    { open, class: "path-steps" },
    make("summary", { "data-f": "why-steps" }, `Step by step (${steps.length})`),
    make("ol", { id: "path-steps" }, ...steps.map((words) => make("li", {}, words))),
  );
  return [...because.map((words) => make("p", {}, words)), ...(steps.length > 0 ? [list] : [])];
}
