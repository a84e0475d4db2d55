/** Joins the time line to its toggle in the calls strip and to what the sheet shows. */

import { byId } from "../shared/dom.js";
import { TimePanel } from "./panel.js";
import { Timeline } from "./timeline.js";

/** @param {import("../bench.js").Bench} bench */
export function installTimeline(bench) {
  const timeline = new Timeline(bench);
  const panel = new TimePanel(timeline);
  const toggle = byId("time-toggle");
  bench.timeline = timeline;
  toggle.addEventListener("click", () => timeline.turn(!timeline.isOn));
  timeline.on("changed", () => {
    toggle.setAttribute("aria-pressed", String(timeline.isOn));
    bench.shown.main.toggleAttribute("data-moment", timeline.isOn);
    panel.fill();
  });
  bench.shown.on("shown", () => {
    if (!timeline.isOn || timeline.isTaking) return;
    // A view that shows no moment was turned to: it has the whole run, or none.
    if (!timeline.shows(bench.shown.drawn)) leave(timeline);
    else timeline.show();
  });
  bench.layouts.on("turned", () => leave(timeline));
  bench.outbox.on("away", () => leave(timeline));
}

/** @param {Timeline} timeline */
function leave(timeline) {
  timeline.isOn = false;
  timeline.emit("changed");
}
