/**
 * May what is in hand go to this screw? The same answer serves the words before the drop and the drop itself.
 */

import { calledIn, conductorOf, indexOf, land, letterOf, nameOf, pull } from "./acts.js";

/** @typedef {import("./types.js").Held} Held @typedef {import("./types.js").Words} Words */

/**
 * @param {Words} words @param {Held} held @param {string} terminal
 * @returns {{may: true, act: import("./types.js").Act}|{may: false, words: string}}
 */
export function landing(words, held, terminal) {
  if (held.sort === "start") {
    if (held.terminal === terminal) return { may: false, words: "Put back where it came from: nothing changes." };
    return { may: true, act: pull(words, held.terminal, terminal) };
  }
  const conductor = words.conductors[conductorOf(held.end)];
  if (!conductor) return { may: false, words: `${calledIn(words, conductorOf(held.end))} is no longer there.` };
  const index = indexOf(held.end);
  if (conductor.ends[index].terminal === terminal) {
    return { may: false, words: `Put back on ${letterOf(terminal)}: nothing changes.` };
  }
  if (conductor.ends[1 - index].terminal === terminal) {
    return { may: false, words: `The other end of ${conductor.name} is on ${nameOf(words, terminal)} already.` };
  }
  return { may: true, act: land(words, held.end, terminal) };
}

/** @param {Words} words @param {Held} held @returns {string|null} the screw that it comes from */
export function homeOf(words, held) {
  if (held.sort === "start") return held.terminal;
  return words.conductors[conductorOf(held.end)]?.ends[indexOf(held.end)].terminal ?? null;
}

/** @param {Words} words @param {Held} held @returns {string} */
export function heldWords(words, held) {
  if (held.sort === "start") return `new conductor from ${nameOf(words, held.terminal)}`;
  const id = conductorOf(held.end);
  return `end of ${calledIn(words, id)}, ${words.conductors[id]?.ends[indexOf(held.end)].words ?? "gone"}`;
}
