/** A line of text or a figure of a part, a conductor or a cable. Leaving it or Enter is the one edit. */

import { make } from "../shared/dom.js";
import { setField } from "../job/acts.js";
import { setFigure } from "../job/cable-acts.js";
import { fromMetres, toMetres } from "../shared/lengths.js";

const MOST_M = 1000;
const GAUGES = [12, 14, 16, 18, 20, 22, 24];

/**
 * @param {import("../bench.js").Bench} bench @param {"parts"|"conductors"|"cables"} among @param {string} id
 * @param {string} field @param {string} words @param {string} value
 */
export function fieldRow(bench, among, id, field, words, value) {
  const input = /** @type {HTMLInputElement} */ (
    make("input", { type: "text", value, maxlength: 200, "data-f": `${id}:${field}`, autocomplete: "off", onchange: changed })
  );
  async function changed() {
    const typed = input.value.trim();
    const said = field === "insulation" ? typed.toUpperCase() || null : typed;
    delete input.dataset.typed;
    if (said === (value || (field === "insulation" ? null : ""))) return;
    const act = among === "cables" ? setFigure(bench.shown.words, among, id, field, said, words.toLowerCase()) : setField(bench.shown.words, among, id, field, said);
    const saved = await bench.submit(act);
    if (!saved) input.value = value;
  }
  return make("label", { class: "field" }, make("span", {}, words), input);
}

/** Length in the unit of the job; empty where nobody knows it.
 *  @param {import("../bench.js").Bench} bench @param {"cables"|"conductors"} among @param {string} id @param {number|null} metres */
export function lengthRow(bench, among, id, metres) {
  const unit = bench.shown.words.length_unit;
  const shown = metres === null ? "" : String(fromMetres(metres, unit));
  const input = /** @type {HTMLInputElement} */ (
    make("input", { type: "number", value: shown, min: 0.1, max: fromMetres(MOST_M, unit), step: "any", inputmode: "decimal", "data-f": `${id}:length_m`, onchange: changed })
  );
  async function changed() {
    delete input.dataset.typed;
    if (input.value === shown || !input.checkValidity()) return;
    const value = input.value === "" ? null : toMetres(Number(input.value), unit);
    if (!(await bench.submit(setFigure(bench.shown.words, among, id, "length_m", value, "length")))) input.value = shown;
  }
  return make("label", { class: "field" }, make("span", {}, `Length (${unit})`), input);
}

/** @param {import("../bench.js").Bench} bench @param {"cables"|"conductors"} among @param {string} id @param {number|null} awg */
export function gaugeRow(bench, among, id, awg) {
  const sizes = awg === null || GAUGES.includes(awg) ? GAUGES : [...GAUGES, awg].sort((a, b) => a - b);
  const choices = among === "conductors" ? [null, ...sizes] : sizes;
  const select = /** @type {HTMLSelectElement} */ (
    make(
      "select",
      { "data-f": `${id}:size_awg`, onchange: () => bench.submit(setFigure(bench.shown.words, among, id, "size_awg", choices[select.selectedIndex], "gauge")) },
      ...choices.map((one) => make("option", { value: String(one ?? ""), selected: one === awg }, one === null ? "not said" : `${one} AWG`)),
    )
  );
  return make("label", { class: "field" }, make("span", {}, "Gauge"), select);
}
