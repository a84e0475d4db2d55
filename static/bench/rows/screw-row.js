/**
 * One screw as a row: the same rows serve *Picked*, *Wiring in words*, the glove, the phone and the screen reader.
 * Tapping the row is tapping the screw.
 */

import { make } from "../shared/dom.js";
import { takeOff } from "../job/acts.js";
import { homeOf, swapRivals } from "../job/landing.js";

/** @typedef {import("../job/types.js").TerminalWords} TerminalWords @typedef {import("../bench.js").Bench} Bench */

/** @param {Bench} bench @param {TerminalWords} row @param {string} where tells two lists on one page apart */
export function screwRow(bench, row, where) {
  const button = make(
    "button",
    { type: "button", class: "row screw", "data-f": `${where}:${row.terminal}`, "data-row": row.terminal, onclick: () => pressed(bench, row.terminal) },
    make("b", { class: "letter" }, row.letter),
    make("span", { class: "use" }, row.use),
    make("span", { class: "volts-word" }, row.volts),
    make("span", { class: "does" }, ...doesWords(bench, row.terminal)),
  );
  const rivals = swapRivals(bench.shown.words, bench.inHand.held, row.terminal);
  const wires = row.landed.map((wire) => wireRow(bench, wire, where, rivals.includes(wire.end)));
  const lines = wires.length > 0 ? make("ul", { class: "landed" }, ...wires) : null;
  return make("li", { class: bench.picks.has(`terminal:${row.terminal}`) ? "is-picked" : "" }, button, lines);
}

/**
 * What tapping the row does, and before a landing what it would be.
 * @param {Bench} bench @param {string} terminal
 */
function doesWords({ inHand, advice, shown, meter }, terminal) {
  const { held } = inHand;
  if (!held) return [meter.isOn ? "Probe" : "Pull"];
  if (homeOf(shown.words, held) === terminal) return ["Put back"];
  const verdict = advice.of(terminal)?.verdict;
  return verdict === "danger" || verdict === "odd" ? ["Land here", make("span", { class: `verdict ${verdict}` }, verdict)] : ["Land here"];
}

/** @param {Bench} bench @param {string} terminal */
function pressed(bench, terminal) {
  if (bench.inHand.held) return bench.inHand.land(terminal);
  if (bench.meter.isOn) return bench.meter.probe(terminal);
  bench.picks.only(`terminal:${terminal}`);
  bench.focus.rove(`terminal:${terminal}`);
  return bench.inHand.take({ sort: "start", terminal }, "tap");
}

/** @param {Bench} bench @param {import("../job/types.js").LandedWire} wire @param {string} where
 *  @param {boolean} swaps whether what is in hand can change places with it */
function wireRow(bench, wire, where, swaps) {
  const pick = () => bench.picks.only(`conductor:${wire.conductor}`);
  const name = make("button", { type: "button", class: "link", "data-f": `${where}:${wire.end}:pick`, onclick: pick }, wire.words);
  return make("li", {}, name, ...(swaps ? [swapButton(bench, wire, where)] : endButtons(bench, wire.end, true, where)));
}

/** @param {Bench} bench @param {import("../job/types.js").LandedWire} wire @param {string} where */
function swapButton(bench, wire, where) {
  const what = make("span", { class: "unseen" }, ` what is in hand with ${wire.words}`);
  return make("button", { type: "button", class: "small", "data-f": `${where}:${wire.end}:swap`, "data-swap": wire.end, onclick: () => bench.inHand.swap(wire.end) }, "Swap", what);
}

/**
 * Take an end in hand, take it off.
 * @param {Bench} bench @param {string} end @param {boolean} landed @param {string} where
 */
export function endButtons(bench, end, landed, where) {
  const id = end.slice(0, end.lastIndexOf("."));
  const name = make("span", { class: "unseen" }, ` ${id}, end ${Number(end.at(-1)) + 1}`);
  const move = make(
    "button",
    { type: "button", class: "small", "data-f": `${where}:${end}:move`, onclick: () => bench.inHand.take({ sort: "end", end }, "tap") },
    landed ? "Move" : "Land",
    name,
  );
  if (!landed) return [move];
  const off = () => bench.submit(takeOff(bench.shown.words, end));
  const button = make("button", { type: "button", class: "small", "data-f": `${where}:${end}:off`, onclick: off }, "Take off", name.cloneNode(true));
  return [move, button];
}
