/** The bar across the sheet's lower edge: what is in hand, what landing here would mean, and the way back. */

import { byId } from "../shared/dom.js";
import { heldWords, homeOf, swapping, swapRivals } from "../job/landing.js";
import { calledIn, conductorOf, letterOf, nameOf, partOf } from "../job/acts.js";

/** @param {import("../bench.js").Bench} bench */
export function installBar(bench) {
  const { inHand } = bench;
  const bar = byId("in-hand");
  const edge = byId("edge-line");
  byId("put-back").addEventListener("click", () => {
    inHand.putBack();
    bench.focus.to(bench.focus.key);
  });
  byId("leave-open").addEventListener("click", () => inHand.leaveOpen());
  const show = () => {
    const { held } = inHand;
    bar.hidden = !held || inHand.by === "drag";
    if (held) {
      byId("in-hand-words").textContent = `In hand: ${heldWords(bench.shown.words, held)}`;
      const open = held.sort === "end" && homeOf(bench.shown.words, held) === null;
      byId("leave-open").hidden = open;
      byId("leave-open").textContent = held.sort === "start" ? "Leave it open" : "Take off";
    }
    edge.textContent = edgeWords(bench);
  };
  inHand.on("changed", show);
  inHand.on("target", show);
  bench.advice.on("changed", show);
  bench.shown.on("shown", show);
  byId("glove").addEventListener("change", show);
}

/**
 * Parts stand there and nobody has pulled a conductor yet.
 * @param {import("../bench.js").Bench["shown"]} shown
 */
function isBare({ words }) {
  return words && Object.keys(words.parts).length > 1 && Object.keys(words.conductors).length === 0;
}

/**
 * With a glove a drag pans, and rows are easier to hit than screws.
 * @param {boolean} glove
 */
function firstWords(glove) {
  if (glove) return "Tap a part, then the row of its screw below; then the other part, and the row where it lands.";
  return "Drag from screw to screw to pull a conductor, or tap one screw and then the other.";
}

/** @param {import("../bench.js").Bench} bench @returns {string} */
function edgeWords({ inHand, advice, shown, glove }) {
  const { held, target, by, shift } = inHand;
  if (!held) return isBare(shown) ? firstWords(glove) : "";
  const rivals = swapRivals(shown.words, held, target);
  if (target && rivals.length > 0 && by === "drag") return swapWords(shown.words, held, rivals, shift, targetWords(shown.words, advice, target));
  if (target) return targetWords(shown.words, advice, target);
  if (by !== "drag") return `Now the screw where it goes: on the sheet, or as a row of its part.${advice.missing ? " Advice not available; you can still land." : ""}`;
  if (held.sort === "start") {
    const row = shown.words.parts[partOf(held.terminal)]?.terminals.find((one) => one.terminal === held.terminal);
    const there = row?.landed[0]?.conductor;
    const hint = there ? ` To move ${there}, drag the wire, not the screw.` : " Dropped on paper it stays open there.";
    return `New conductor from ${letterOf(held.terminal)}.${hint}`;
  }
  return "Dropped on paper it is taken off.";
}

/**
 * Over a screw on which another conductor is landed: swapping is offered, and with Shift it is what the drop does.
 * @param {import("../job/types.js").Words} words @param {import("../job/types.js").Held} held @param {string[]} rivals
 * @param {boolean} shift @param {string} otherwise what a drop without Shift means
 */
function swapWords(words, held, rivals, shift, otherwise) {
  const names = rivals.map((end) => calledIn(words, conductorOf(end))).join(" or ");
  if (!shift) return `${otherwise} With Shift: swap with ${names}.`;
  const answer = swapping(words, held, rivals[0]);
  if (rivals.length === 1 && !answer.may) return answer.words;
  return `Swap with ${names}${rivals.length > 1 ? ": you will be asked which" : ""}.`;
}

/** @param {import("../job/types.js").Words} words @param {any} advice @param {string} target */
export function targetWords(words, advice, target) {
  const [letter, ...part] = nameOf(words, target).split(", ");
  const said = advice.of(target);
  const verdict = said ? `${said.verdict}. ${said.why}` : advice.missing ? "advice not available; you can still land." : "…";
  return `Land on ${letter} of ${part.join(", ")}: ${verdict}`;
}
