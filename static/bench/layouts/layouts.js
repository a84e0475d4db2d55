/** The layout switch: as found, as left. */

import { Emitter } from "../shared/emitter.js";
import { byId, make } from "../shared/dom.js";
import { refill } from "../rows/index.js";

export class Layouts extends Emitter {
  /** @param {import("../bench.js").Bench} bench */
  constructor(bench) {
    super();
    this.bench = bench;
    this.region = byId("layouts");
    bench.shown.on("shown", () => this.fill());
  }

  fill() {
    const { words } = this.bench.shown;
    const buttons = words.layouts.map(({ id, title, label }) =>
      make("button", { type: "button", "data-layout-choice": id, "data-f": id, title: label || title, "aria-pressed": String(id === words.layout), onclick: () => this.turnTo(id) }, title),
    );
    this.region.hidden = buttons.length < 2;
    refill(this.region, buttons);
  }

  /** @param {string} id */
  turnTo(id) {
    if (id === this.bench.shown.layout) return;
    this.bench.picks.only();
    this.bench.inHand.clear();
    this.bench.surface.forget();
    this.emit("turned");
    this.bench.shown.turnTo(id);
    history.replaceState(null, "", `?layout=${encodeURIComponent(id)}`);
  }
}
