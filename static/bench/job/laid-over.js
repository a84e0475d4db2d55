/**
 * Edits that wait, laid over what the server said last, so that the next gesture starts from what the person sees.
 *
 * Rules of the file: only what the edits themselves say is shown: which end is on which screw, what is gone, where a
 * part stands. Nothing is worked out of it; what runs, reads or is found waits for the server.
 */

import { nameOf } from "./acts.js";
import { stepsOf } from "./pointers.js";

/** @typedef {import("./types.js").Words} Words @typedef {import("./types.js").Changes} Changes
 *  @typedef {import("./types.js").End} End @typedef {import("./types.js").Entry} Entry */

/** @param {Words} said @param {Entry[]} entries @returns {Changes} */
export function changesOf(said, entries) {
  const changes = { conductors: new Map(), parts: new Map() };
  for (const entry of entries) if (!entry.takenBack) for (const one of entry.operations) take(changes, said, one);
  return changes;
}

/** @param {Changes} changes @param {Words} said @param {import("./types.js").Operation} operation */
function take(changes, said, { op, path, value }) {
  const [layouts, layout, among, id, ...rest] = stepsOf(path);
  if (op === "test" || layouts !== "layouts" || layout !== said.layout || id === undefined) return;
  if (among === "parts") {
    if (rest.length === 0 && op === "remove") changes.parts.set(id, null);
    if (rest.length === 1 && rest[0] === "at" && op !== "remove") changes.parts.set(id, value);
  }
  if (among === "conductors") takeConductor(changes, said, id, rest, op, value);
}

/** @param {Changes} changes @param {Words} said @param {string} id @param {string[]} rest @param {string} op @param {any} value */
function takeConductor({ conductors }, said, id, rest, op, value) {
  const was = endsOf(said, id);
  const before = conductors.has(id) ? (conductors.get(id)?.ends ?? null) : was;
  if (rest.length === 0) conductors.set(id, { was, ends: op === "remove" ? null : value.ends });
  if (rest[0] !== "ends" || !before) return;
  const ends = /** @type {[End, End]} */ ([...before]);
  if (rest.length === 1) conductors.set(id, { was, ends: value });
  else conductors.set(id, { was, ends: Object.assign(ends, { [rest[1]]: value }) });
}

/** @param {Words} said @param {string} id @returns {[End, End]|null} */
function endsOf(said, id) {
  const ends = said.conductors[id]?.ends;
  return ends ? [ends[0].terminal, ends[1].terminal] : null;
}

/** @param {Words} said @param {Changes} changes @returns {Words} the words as the edits make them */
export function laidOver(said, changes) {
  if (changes.conductors.size === 0 && changes.parts.size === 0) return said;
  const conductors = { ...said.conductors };
  for (const [id, { ends }] of changes.conductors) {
    if (ends === null) delete conductors[id];
    else conductors[id] = conductorWords(said, id, ends);
  }
  const parts = Object.fromEntries(
    Object.entries(said.parts)
      .filter(([id]) => changes.parts.get(id) !== null)
      .map(([id, part]) => [id, { ...part, terminals: part.terminals.map((row) => rowWords(row, conductors, changes)) }]),
  );
  return { ...said, parts, conductors };
}

/** @param {Words} said @param {string} id @param {[End, End]} ends @returns {import("./types.js").ConductorWords} */
function conductorWords(said, id, ends) {
  const name = id.replace(/-[a-z0-9]{5}$/, "");
  const known = said.conductors[id] ?? { id, name, title: name, insulation: "", cable: null, cable_label: "", note: "" };
  const words = ends.map((end) => wordsOf(said, end));
  const between = `${words[0]}, to ${words[1]}`;
  const both = ends.map((end, index) => ({
    end: `${id}.${index}`,
    terminal: typeof end === "string" ? end : null,
    words: words[index],
    aria: `${known.name}, end ${index + 1}, ${words[index]}. Other end ${words[1 - index]}. Not checked yet.`,
  }));
  const said2 = /** @type {[any, any]} */ (both);
  return { ...known, between, ends: said2, live: "", aria: `${known.title}. ${between}. Not checked yet.` };
}

/** @param {Words} said @param {End} end */
function wordsOf(said, end) {
  return end !== null && typeof end === "object" ? `not seen: ${end.unknown}` : nameOf(said, end);
}

/**
 * What is landed on a screw, where edits have changed that.
 * @param {import("./types.js").TerminalWords} row
 *  @param {Record<string, import("./types.js").ConductorWords>} conductors @param {Changes} changes */
function rowWords(row, conductors, changes) {
  const landed = row.landed.filter((one) => !changes.conductors.has(one.conductor));
  for (const id of changes.conductors.keys()) {
    const wire = conductors[id];
    wire?.ends.forEach((end, index) => {
      const far = wire.ends[1 - index];
      if (end.terminal === row.terminal) landed.push({ end: end.end, conductor: id, far: far.terminal, words: `${wire.name} to ${far.words}` });
    });
  }
  return landed.length === row.landed.length && landed.every((one, at) => one === row.landed[at]) ? row : { ...row, landed };
}
