/** A conductor: its two ends, what it carries now, its insulation and note. */

import { make } from "../shared/dom.js";
import { endButtons } from "../rows/index.js";
import { fieldRow } from "./field.js";

/** @param {import("../bench.js").Bench} bench @param {import("../job/types.js").ConductorWords} conductor */
export function conductorContent(bench, conductor) {
  const ends = conductor.ends.map((end, index) =>
    make(
      "li",
      {},
      make("span", { class: "end-words" }, make("b", {}, `End ${index + 1}`), ` ${end.words}`),
      ...endButtons(bench, end.end, end.terminal !== null, "picked"),
    ),
  );
  return {
    title: `Conductor ${conductor.title}`,
    content: [
      conductor.live ? make("p", { class: "quiet live-words" }, conductor.live) : "",
      make("ul", { class: "ends" }, ...ends),
      conductor.cable ? make("p", { class: "quiet" }, `In cable ${conductor.cable_label}.`) : "",
      make(
        "div",
        { class: "fields" },
        fieldRow(bench, "conductors", conductor.id, "insulation", "Insulation (code such as RD)", conductor.insulation),
        fieldRow(bench, "conductors", conductor.id, "note", "Note", conductor.note),
      ),
    ],
  };
}
