/** The time line under the sheet: a slider over the run, steps from event to event, and what has happened until then. */

import { byId, make } from "../shared/dom.js";
import { refill } from "../rows/index.js";

const NO_CALL = "Nothing is asked for: choose a call, and the run begins with it at 0:00.";

export class TimePanel {
  /** @param {import("./timeline.js").Timeline} timeline */
  constructor(timeline) {
    this.timeline = timeline;
    this.title = make("p", { class: "panel-title", id: "time-words" });
    this.slider = /** @type {HTMLInputElement} */ (make("input", { type: "range", id: "time-at", min: 0, step: 1, value: 0, "aria-label": "Time in the run, in seconds" }));
    this.slider.addEventListener("input", () => timeline.go(this.slider.valueAsNumber));
    this.last = make("p", { id: "time-last" });
    this.list = make("ol", { class: "plain", id: "time-events" });
    this.summary = make("summary", {});
    this.ends = make("p", { class: "quiet" });
    this.node = make(
      "section",
      { class: "panel time-panel", id: "time-panel", "aria-label": "Time line", hidden: true },
      this.title,
      make(
        "div",
        { class: "time-row" },
        make("button", { type: "button", id: "time-back", onclick: () => timeline.step(-1) }, "Event before"),
        this.slider,
        make("button", { type: "button", id: "time-on", onclick: () => timeline.step(1) }, "Next event"),
      ),
      this.last,
      make("details", { class: "path-steps" }, this.summary, this.list, this.ends),
    );
    byId("panels").append(this.node);
  }

  fill() {
    const { timeline } = this;
    this.node.hidden = !timeline.isOn;
    if (!timeline.isOn) return;
    const { shown } = timeline.bench;
    const { past } = timeline;
    const at = past.at(-1)?.at_s;
    const now = past.filter((event) => event.at_s === at).map((event) => event.words);
    this.slider.max = String(timeline.lasts);
    this.slider.value = String(timeline.time);
    this.title.textContent = timeline.isAway ? "The time line needs the server." : `At ${timeline.clock}. ${shown.words.runs}`;
    this.slider.setAttribute("aria-valuetext", `${timeline.clock}. ${shown.words.runs}`);
    this.last.textContent = timeline.events.length === 0 ? NO_CALL : now.join(" ");
    this.summary.textContent = `What happened until then (${past.length} of ${timeline.events.length})`;
    this.ends.textContent = timeline.ends;
    refill(this.list, past.map((event) => make("li", {}, event.words)));
  }
}
