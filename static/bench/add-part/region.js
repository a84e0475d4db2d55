/** When the *Add a part* region is open: while there is hardly anything yet, and when somebody opened it. */

import { byId } from "../shared/dom.js";

const FEW_PARTS = 2;

export class AddRegion {
  /** @param {import("../bench.js").Bench} bench */
  constructor(bench) {
    this.bench = bench;
    this.main = bench.shown.main;
    this.button = byId("add-toggle");
    this.opener = byId("add-open");
    /** @type {boolean|null} what the person said, null while the layout decides */
    this.wanted = null;
    for (const button of [this.button, this.opener]) button.addEventListener("click", () => this.want(!this.open));
    byId("add-close").addEventListener("click", () => this.want(false));
    byId("start-add").addEventListener("click", () => this.show("add-kinds"));
    byId("start-system").addEventListener("click", () => this.show("common-systems"));
    bench.shown.on("shown", () => this.fill());
  }

  get over() {
    return matchMedia("(max-width: 999px)").matches;
  }

  get open() {
    if (this.wanted !== null) return this.wanted;
    return !this.over && Object.keys(this.bench.shown.words.parts).length < FEW_PARTS;
  }

  /** @param {boolean} wanted */
  want(wanted) {
    this.wanted = wanted;
    this.fill();
    if (!wanted) (this.over ? this.opener : this.button).focus();
    else if (this.over) byId("add-close").focus();
    else this.button.focus();
  }

  /** @param {string} id what is wanted of it */
  show(id) {
    if (!this.open) this.want(true);
    const target = byId(id);
    target.scrollIntoView({ block: "start" });
    target.querySelector("button")?.focus();
  }

  fill() {
    this.main.dataset.add = this.open ? "open" : "closed";
    for (const button of [this.button, this.opener]) button.setAttribute("aria-expanded", String(this.open));
  }

  /** On a tablet it lies over the sheet and goes away after one part, unless it is to stay. */
  placed() {
    const stay = /** @type {HTMLInputElement} */ (byId("add-stay")).checked;
    if (this.over && this.open && !stay) {
      this.wanted = false;
      this.fill();
      this.bench.focus.to(this.bench.picks.last ?? null);
    }
  }
}
