/**
 * What is done with cables and with ends one by one, each as one JSON Patch and the words for its step.
 *
 * Rules of the file: as in `acts.js`, nothing here touches the page or sends anything.
 */

import { newId } from "../shared/ids.js";
import { calledIn, conductorOf, indexOf, land, letterOf, mostNumber, takeOff } from "./acts.js";
import { pointer } from "./pointers.js";
import { roomFor } from "./room.js";

/** @typedef {import("./types.js").Act} Act @typedef {import("./types.js").Words} Words */
/** @typedef {null|{unknown: string}} LooseEnd */

/** An end of which nobody knows yet where it lands. */
export const NOT_LOOKED = "not looked at yet";

/**
 * @param {Words} words
 * @param {{codes: string[], label: string, size_awg: number, length_m: number|null, ends: [LooseEnd, LooseEnd]}} cable
 * @returns {Act & {cable: string}}
 */
export function addCable(words, { codes, label, size_awg, length_m, ends }) {
  const id = newId(`cb${1 + mostCable(words)}`);
  const first = 1 + mostNumber(words);
  const conductors = codes.map((insulation, index) => ({
    op: "add",
    path: pointer("layouts", words.layout, "conductors", newId(`w${first + index}`)),
    value: { ends, cable: id, insulation },
  }));
  const value = { label, size_awg, ...(length_m === null ? {} : { length_m }) };
  const operations = [
    ...roomFor(words, "cables", "conductors"),
    { op: "add", path: pointer("layouts", words.layout, "cables", id), value },
    ...conductors,
  ];
  return { operations, cable: id, step: `add cable ${label}`, spoken: `Added a cable of ${codes.length}: ${codes.join(", ")}.` };
}

/** @param {Words} words */
function mostCable(words) {
  return Math.max(0, ...Object.keys(words.cables).map((id) => Number(/^cb(\d{1,4})\b/.exec(id)?.[1] ?? 0)));
}

/**
 * A cable goes with all its conductors.
 * @param {Words} words @param {string} cable @returns {Act}
 */
export function removeCable(words, cable) {
  const { label, cores } = words.cables[cable];
  const operations = [
    ...cores.map((core) => ({ op: "remove", path: pointer("layouts", words.layout, "conductors", core.conductor) })),
    { op: "remove", path: pointer("layouts", words.layout, "cables", cable) },
  ];
  return { operations, step: `remove cable ${label}`, spoken: `Removed cable ${label}.` };
}

/**
 * Say where an end is: a screw, landed nowhere, or not looked at yet.
 * @param {Words} words @param {string} end @param {string|LooseEnd} place @returns {Act}
 */
export function placeEnd(words, end, place) {
  if (typeof place === "string") return land(words, end, place);
  const id = conductorOf(end);
  if (place === null) return { ...takeOff(words, end), ...spareWords(words, end) };
  return {
    operations: [{ op: "replace", path: pointer("layouts", words.layout, "conductors", id, "ends", indexOf(end)), value: place }],
    step: `mark an end of ${calledIn(words, id)} as not looked at`,
    spoken: `End ${indexOf(end) + 1} of ${calledIn(words, id)}: not looked at yet.`,
  };
}

/**
 * An end that was not landed before is not taken off anything.
 * @param {Words} words @param {string} end
 */
function spareWords(words, end) {
  const conductor = words.conductors[conductorOf(end)];
  if (conductor.ends[indexOf(end)].terminal) return {};
  return { step: `mark an end of ${conductor.name} as not landed`, spoken: `End ${indexOf(end) + 1} of ${conductor.name}: not landed.` };
}

/**
 * The first end goes where the second is, and the second where the first was.
 * @param {Words} words @param {string} first @param {string} second @returns {Act}
 */
export function swapEnds(words, first, second) {
  const [a, b] = [first, second].map((end) => words.conductors[conductorOf(end)]);
  const place = (/** @type {string} */ end) => words.conductors[conductorOf(end)].ends[indexOf(end)];
  const to = (/** @type {string} */ end, /** @type {string|null} */ value) => ({
    op: "replace",
    path: pointer("layouts", words.layout, "conductors", conductorOf(end), "ends", indexOf(end)),
    value,
  });
  const [home, there] = [place(first).terminal, place(second).terminal];
  const went = home ? `${b.name} on ${letterOf(home)}` : `${b.name} not landed`;
  return {
    operations: [to(first, there), to(second, home)],
    step: `swap ${a.name} and ${b.name}`,
    spoken: `Swapped: ${a.name} on ${there ? letterOf(there) : "nothing"}, ${went}.`,
  };
}

/**
 * @param {Words} words @param {"cables"|"conductors"} among @param {string} id @param {string} field
 * @param {string|number|null} value @param {string} said what the field is called @returns {Act}
 */
export function setFigure(words, among, id, field, value, said) {
  const name = among === "cables" ? `cable ${words.cables[id].label}` : calledIn(words, id);
  const path = pointer("layouts", words.layout, among, id, field);
  return { operations: [{ op: "add", path, value }], step: `change ${said} of ${name}`, spoken: `Changed ${said} of ${name}.` };
}
