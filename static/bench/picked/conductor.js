/** A conductor: its two ends, what it carries now, what it is for, its run, insulation and note. */

import { make } from "../shared/dom.js";
import { endButtons } from "../rows/index.js";
import { fieldRow, gaugeRow, lengthRow } from "./field.js";
import { purposeSection } from "./purpose.js";

/** @typedef {import("../bench.js").Bench} Bench @typedef {import("../job/types.js").ConductorWords} ConductorWords */

/** @param {Bench} bench @param {ConductorWords} conductor @param {import("./purpose.js").Purposes} purposes */
export function conductorContent(bench, conductor, purposes) {
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
      purposeSection(purposes.of(conductor.id)),
      runWords(bench, conductor),
      make(
        "div",
        { class: "fields" },
        fieldRow(bench, "conductors", conductor.id, "insulation", "Insulation (code such as RD)", conductor.insulation),
        ...runFields(bench, conductor),
        fieldRow(bench, "conductors", conductor.id, "note", "Note", conductor.note),
      ),
    ],
  };
}

/** @param {Bench} bench @param {ConductorWords} conductor */
function runWords(bench, conductor) {
  const { cable, run } = conductor;
  if (!cable) return make("p", { class: "quiet run-words" }, run ? `Run: ${run}.` : "A join without length: no volts are lost in it.");
  const pick = make("button", { type: "button", class: "link", "data-f": `of:${cable}`, onclick: () => bench.picks.only(`cable:${cable}`) }, conductor.cable_label);
  return make("p", { class: "quiet run-words" }, "In cable ", pick, run ? `: ${run}.` : ". Its length is not said.");
}

/**
 * What its cable says is said there.
 * @param {Bench} bench @param {ConductorWords} conductor
 */
function runFields(bench, conductor) {
  const own = conductor.length_m !== null || conductor.size_awg !== null;
  if (conductor.cable && !own) return [];
  return [lengthRow(bench, "conductors", conductor.id, conductor.length_m), gaugeRow(bench, "conductors", conductor.id, conductor.size_awg)];
}
