/** Which region a small screen shows, drawing or words, and how high the lower regions are on a tablet. */

import { Emitter } from "../shared/emitter.js";
import { byId } from "../shared/dom.js";

const PHONE = matchMedia("(max-width: 599px)");

export class Regions extends Emitter {
  /** @param {import("../bench.js").Bench} bench */
  constructor(bench) {
    super();
    this.main = bench.shown.main;
    for (const button of /** @type {NodeListOf<HTMLElement>} */ (document.querySelectorAll("[data-region]"))) {
      button.addEventListener("click", () => this.turnTo(button.dataset.region ?? "sheet"));
    }
    for (const button of /** @type {NodeListOf<HTMLElement>} */ (document.querySelectorAll("[data-view-choice]"))) {
      button.addEventListener("click", () => this.look(button.dataset.viewChoice ?? "sheet"));
    }
    for (const button of /** @type {NodeListOf<HTMLElement>} */ (document.querySelectorAll("[data-lower]"))) {
      button.addEventListener("click", () => this.lower(button.dataset.lower ?? "half"));
    }
    this.turnTo("sheet");
    this.look(PHONE.matches ? "words" : "sheet");
    this.lower("half");
  }

  /** @param {string} region */
  turnTo(region) {
    this.main.dataset.region = region;
    press("[data-region]", "region", region);
  }

  /** @param {string} view `sheet` or `words` */
  look(view) {
    this.main.dataset.view = view;
    press("[data-view-choice]", "viewChoice", view);
    byId("sheet-heading").textContent = view === "words" ? "Wiring in words" : "Sheet";
    this.emit("view");
  }

  /** @param {string} height `less`, `half` or `more` */
  lower(height) {
    this.main.dataset.lower = height;
    press("[data-lower]", "lower", height);
  }
}

/** @param {string} selector @param {string} name @param {string} value */
function press(selector, name, value) {
  for (const button of /** @type {NodeListOf<HTMLElement>} */ (document.querySelectorAll(`button${selector}`))) {
    button.setAttribute("aria-pressed", String(button.dataset[name] === value));
  }
}
