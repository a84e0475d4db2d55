/**
 * What a gesture would do to the job, as one JSON Patch and the words for its step.
 *
 * Rules of the file: no act touches the page or sends anything. Nothing here knows what a kind or a circuit is; it
 * only writes down where which end goes. A part is unlanded in the patch that removes it.
 */

import { newId } from "../shared/ids.js";
import { pointer } from "./pointers.js";
import { roomFor } from "./room.js";

/** @typedef {import("./types.js").Act} Act @typedef {import("./types.js").Words} Words */

/** @param {Words} words @param {...string|number} steps */
function inLayout(words, ...steps) {
  return pointer("layouts", words.layout, ...steps);
}

/** @param {string} terminal */
export const letterOf = (terminal) => terminal.slice(terminal.indexOf(".") + 1);
/** @param {string} terminal */
export const partOf = (terminal) => terminal.slice(0, terminal.indexOf("."));
/** @param {string} end */
export const conductorOf = (end) => end.slice(0, end.lastIndexOf("."));
/** @param {string} end */
export const indexOf = (end) => Number(end.slice(end.lastIndexOf(".") + 1));

/** @param {Words} words @param {string|null} terminal */
export function nameOf(words, terminal) {
  if (terminal === null) return "not landed";
  const row = words.parts[partOf(terminal)]?.terminals.find((one) => one.terminal === terminal);
  return row ? row.name : terminal;
}

/**
 * What a conductor is called; its id once it is gone.
 * @param {Words} words @param {string} id
 */
export const calledIn = (words, id) => words.conductors[id]?.name ?? id;

/**
 * The greatest number that a conductor bears, so that the next one is counted on.
 * @param {Words} words
 */
export function mostNumber(words) {
  return Math.max(0, ...Object.values(words.conductors).map((one) => Number(/^w(\d{1,4})\b/.exec(one.id)?.[1] ?? 0)));
}

/** @param {Words} words @param {string} start @param {string|null} target @returns {Act} */
export function pull(words, start, target) {
  const called = `w${1 + mostNumber(words)}`;
  const id = newId(called);
  const operations = [...roomFor(words, "conductors"), { op: "add", path: inLayout(words, "conductors", id), value: { ends: [start, target] } }];
  const from = nameOf(words, start);
  if (target === null) {
    return { operations, step: `pull ${called} from ${from}`, spoken: `Pulled ${called} from ${from}, not landed.` };
  }
  const step = `pull ${called} from ${from} to ${nameOf(words, target)}`;
  return { operations, step, spoken: `Landed ${called} on ${letterOf(target)}.` };
}

/** @param {Words} words @param {string} end @param {string} terminal @returns {Act} */
export function land(words, end, terminal) {
  const id = conductorOf(end);
  return {
    operations: [{ op: "replace", path: inLayout(words, "conductors", id, "ends", indexOf(end)), value: terminal }],
    step: `land ${calledIn(words, id)} on ${letterOf(terminal)}`,
    spoken: `Landed ${calledIn(words, id)} on ${letterOf(terminal)}.`,
  };
}

/** @param {Words} words @param {string} end @returns {Act} */
export function takeOff(words, end) {
  const id = conductorOf(end);
  const was = words.conductors[id].ends[indexOf(end)].terminal;
  const from = was ? letterOf(was) : "there";
  return {
    operations: [{ op: "replace", path: inLayout(words, "conductors", id, "ends", indexOf(end)), value: null }],
    step: `take ${calledIn(words, id)} off ${from}`,
    spoken: `Took ${calledIn(words, id)} off ${from}.`,
  };
}

/**
 * Remove parts and conductors in one patch. A conductor that would be landed nowhere because a part goes, goes too.
 * @param {Words} words @param {string[]} parts @param {string[]} conductors @returns {Act}
 */
export function remove(words, parts, conductors) {
  const gone = new Set(parts);
  const operations = [];
  const removed = new Set(conductors);
  for (const conductor of Object.values(words.conductors)) {
    if (removed.has(conductor.id)) continue;
    const lost = conductor.ends.filter((end) => end.terminal && gone.has(partOf(end.terminal)));
    const kept = conductor.ends.some((end) => end.terminal && !gone.has(partOf(end.terminal)));
    if (lost.length > 0 && !kept) removed.add(conductor.id);
    else for (const end of lost) operations.push(...takeOff(words, end.end).operations);
  }
  for (const id of removed) operations.push({ op: "remove", path: inLayout(words, "conductors", id) });
  for (const part of parts) operations.push({ op: "remove", path: inLayout(words, "parts", part) });
  const names = [...parts.map((part) => words.parts[part].inner), ...conductors.map((id) => calledIn(words, id))].join(", ");
  return { operations, step: `remove ${names}`, spoken: `Removed ${names}.` };
}

/** @param {Words} words @param {Record<string, [number, number]>} places upper left corners @returns {Act} */
export function moveParts(words, places) {
  const names = Object.keys(places).map((part) => words.parts[part].inner).join(", ");
  return {
    operations: Object.entries(places).map(([part, at]) => ({
      op: "add",
      path: inLayout(words, "parts", part, "at"),
      value: at,
    })),
    step: `move ${names}`,
    spoken: `Moved ${names}.`,
  };
}

/**
 * @param {Words} words
 * @param {{kind: string, title: string, place: string, at: [number, number]|null}[]} additions
 * @param {string} [step] words for several parts at once
 * @returns {Act & {parts: string[]}}
 */
export function addParts(words, additions, step) {
  const taken = new Set(Object.values(words.parts).map((part) => part.label));
  const operations = additions.map(({ kind, title, place, at }) => {
    const label = freeLabel(title, taken);
    const value = { kind, label, place, ...(at ? { at } : {}) };
    return { op: "add", path: inLayout(words, "parts", newId(kind)), value };
  });
  const parts = operations.map((operation) => operation.path.slice(operation.path.lastIndexOf("/") + 1));
  const names = operations.map((operation) => operation.value.label.toLowerCase()).join(", ");
  return { operations: [...roomFor(words, "parts"), ...operations], parts, step: step ?? `add ${names}`, spoken: `Added ${names}.`, focus: `part:${parts[0]}` };
}

/**
 * What stands before the first comma of the kind's title is name enough.
 * @param {string} title @param {Set<string>} taken
 */
function freeLabel(title, taken) {
  const [short] = title.split(",");
  let label = short;
  for (let number = 2; taken.has(label); number += 1) label = `${short} ${number}`;
  taken.add(label);
  return label;
}

/** @param {Words} words @param {string} part @param {string} name @param {any} value @param {string} said @returns {Act} */
export function setSetting(words, part, name, value, said) {
  const operations = [{ op: "add", path: inLayout(words, "parts", part, "settings", name), value }];
  if (!words.parts[part].has_settings) {
    operations.unshift({ op: "add", path: inLayout(words, "parts", part, "settings"), value: {} });
  }
  return { operations, step: `set ${said} of ${words.parts[part].inner}`, spoken: `Set ${said}.` };
}

/** @param {Words} words @param {"parts"|"conductors"} among @param {string} id @param {string} field @param {any} value
 *  @returns {Act} */
export function setField(words, among, id, field, value) {
  const name = among === "parts" ? words.parts[id].inner : calledIn(words, id);
  const path = inLayout(words, among, id, field);
  const act = field === "label" ? `rename ${name} to ${value}` : `change ${field} of ${name}`;
  return { operations: [{ op: "add", path, value }], step: act, spoken: `Changed ${field} of ${name}.` };
}
