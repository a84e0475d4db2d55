/**
 * May what is in hand go to this screw? The same answer serves the words before the drop and the drop itself.
 */

import { calledIn, conductorOf, indexOf, land, letterOf, nameOf, partOf, pull } from "./acts.js";
import { swapEnds } from "./cable-acts.js";

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

/**
 * Ends of other conductors on a screw, with which an end in hand could change places.
 * @param {Words} words @param {Held|null} held @param {string|null} terminal @returns {string[]}
 */
export function swapRivals(words, held, terminal) {
  if (held?.sort !== "end" || terminal === null || homeOf(words, held) === terminal) return [];
  const row = words.parts[partOf(terminal)]?.terminals.find((one) => one.terminal === terminal);
  return (row?.landed ?? []).map((wire) => wire.end).filter((end) => conductorOf(end) !== conductorOf(held.end));
}

/**
 * May what is in hand change places with an end that is landed? As `landing`, for words and drop alike.
 * @param {Words} words @param {Held} held @param {string} end
 * @returns {{may: true, act: import("./types.js").Act}|{may: false, words: string}}
 */
export function swapping(words, held, end) {
  if (held.sort === "start") return { may: false, words: "A new conductor has no place to change." };
  const [mine, other] = [words.conductors[conductorOf(held.end)], words.conductors[conductorOf(end)]];
  if (!mine || !other) return { may: false, words: `${calledIn(words, conductorOf(mine ? end : held.end))} is no longer there.` };
  const [home, there] = [mine.ends[indexOf(held.end)].terminal, other.ends[indexOf(end)].terminal];
  const farOf = (/** @type {import("./types.js").ConductorWords} */ conductor, /** @type {string} */ end) => conductor.ends[1 - indexOf(end)].terminal;
  if (there !== null && farOf(mine, held.end) === there) return { may: false, words: `The other end of ${mine.name} is on ${letterOf(there)} already.` };
  if (home !== null && farOf(other, end) === home) return { may: false, words: `The other end of ${other.name} is on ${letterOf(home)} already.` };
  return { may: true, act: swapEnds(words, held.end, end) };
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
