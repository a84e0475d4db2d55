/** A cable as it is picked: where each of its conductors is at either end, both strips, what is spare. */

import { make } from "../shared/dom.js";
import { letterOf, nameOf, partOf } from "../job/acts.js";
import { NOT_LOOKED, placeEnd } from "../job/cable-acts.js";
import { fieldRow, gaugeRow, lengthRow } from "../picked/field.js";
import { partAt, stripForm } from "./strips.js";

/** @typedef {import("../bench.js").Bench} Bench @typedef {import("../job/types.js").CableWords} CableWords */

/** @param {Bench} bench @param {CableWords} cable @param {() => void} again fills the region anew */
export function cableContent(bench, cable, again) {
  return {
    title: `Cable ${cable.label}`,
    content: [
      make("p", { class: "quiet cable-summary" }, cable.summary, cable.run ? ` ${cable.run}.` : ""),
      make("h3", {}, "Conductors"),
      make("ul", { class: "cores" }, headRow(cable), ...cable.cores.map((core) => coreRow(bench, cable, core))),
      make("h3", {}, "A whole strip at once"),
      make("p", { class: "quiet" }, "Screw = insulation. A dash for the screw means not landed, ? not looked at. What is not mentioned stays."),
      ...[0, 1].map((side) => stripForm(bench, cable, side, again)),
      make("h3", {}, "Name and run"),
      make(
        "div",
        { class: "fields" },
        fieldRow(bench, "cables", cable.id, "label", "Name", cable.given_label),
        lengthRow(bench, "cables", cable.id, cable.length_m),
        gaugeRow(bench, "cables", cable.id, cable.size_awg),
        fieldRow(bench, "cables", cable.id, "note", "Note", cable.note),
      ),
    ],
  };
}

/**
 * Each field says by itself what it is, so readers need no heading.
 * @param {CableWords} cable
 */
function headRow(cable) {
  const heads = cable.sides.map((side, index) => make("span", {}, `End ${index + 1}: ${side.words}`));
  return make("li", { class: "core-head quiet", "aria-hidden": "true" }, make("span", {}, ""), ...heads);
}

/** @param {Bench} bench @param {CableWords} cable @param {import("../job/types.js").CoreWords} core */
function coreRow(bench, cable, core) {
  const pick = () => bench.picks.only(`conductor:${core.conductor}`);
  const conductor = bench.shown.words.conductors[core.conductor];
  return make(
    "li",
    { "data-core": core.conductor, "data-core-state": core.state },
    make("button", { type: "button", class: "core-code", "data-f": `core:${core.conductor}`, onclick: pick }, core.code, make("span", { class: "unseen" }, `, ${conductor.name}, ${core.state}. Pick it.`)),
    ...[0, 1].map((side) => endSelect(bench, cable, core, side)),
    make("span", { class: "core-state", "aria-hidden": "true" }, core.state),
  );
}

/**
 * Where one end is; choosing is the one edit.
 * @param {Bench} bench @param {CableWords} cable
 *  @param {import("../job/types.js").CoreWords} core @param {number} side */
function endSelect(bench, cable, core, side) {
  const { words } = bench.shown;
  const end = core.ends[side];
  const now = words.conductors[core.conductor].ends.find((one) => one.end === end);
  const part = partAt(bench, cable, side);
  const screws = words.parts[part]?.terminals ?? [];
  const elsewhere = now?.terminal && partOf(now.terminal) !== part ? now.terminal : null;
  const chosen = now?.terminal ?? (now?.unseen ? "?" : "-");
  const option = (/** @type {string} */ value, /** @type {string} */ said) => make("option", { value, selected: value === chosen }, said);
  const select = /** @type {HTMLSelectElement} */ (
    make(
      "select",
      { "data-f": `end:${end}`, "data-core-end": end, "aria-label": `${core.code}, end ${side + 1}`, onchange: () => bench.submit(placeEnd(bench.shown.words, end, placeOf(select.value))) },
      option("-", "not landed"),
      option("?", "? not looked at"),
      elsewhere && option(elsewhere, nameOf(words, elsewhere)),
      ...screws.map((row) => option(row.terminal, `${letterOf(row.terminal)}  ${row.use}`)),
    )
  );
  return select;
}

/** @param {string} value */
function placeOf(value) {
  if (value === "-") return null;
  return value === "?" ? { unknown: NOT_LOOKED } : value;
}
