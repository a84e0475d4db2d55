/**
 * What can be done with a thing, in the order in which one mostly wants it. Every deed is one that hand, keyboard or
 * rows have too; the menu only names them.
 */

import { calledIn, conductorOf, indexOf, nameOf, partOf, remove, takeOff } from "../job/acts.js";
import { NOT_LOOKED, placeEnd, removeCable } from "../job/cable-acts.js";
import { swapRivals } from "../job/landing.js";
import { openName, openPicked } from "../picked/index.js";
import { EDITED } from "../views/names.js";

/** @typedef {import("../bench.js").Bench} Bench */
/** @typedef {{name: string, words: string, does: () => unknown}} Deed */

/** @param {Bench} bench @param {string} key @returns {{title: string, deeds: Deed[]}|null} */
export function deedsFor(bench, key) {
  const [sort, name] = [key.slice(0, key.indexOf(":")), key.slice(key.indexOf(":") + 1).replace(/#\d+$/, "")];
  const find = OF_SORT[sort];
  const found = find?.(bench, name) ?? null;
  if (!found) return null;
  const deeds = bench.views.edits || bench.views.name === "words" ? found.deeds : [];
  return { title: found.title, deeds: [...deeds, ...looking(bench, `${sort}:${name}`)] };
}

/** @type {Record<string, (bench: Bench, name: string) => {title: string, deeds: Deed[]}|null>} */
const OF_SORT = { part: ofPart, terminal: ofScrew, conductor: ofConductor, end: ofEnd, cable: ofCable };

/** @param {string} name @param {string} words @param {() => unknown} does @returns {Deed} */
const deed = (name, words, does) => ({ name, words, does });

/** @param {Bench} bench @param {string} key @returns {Deed[]} */
function looking(bench, key) {
  const found = bench.picks.has(key) || key.startsWith("end:") ? [] : [deed("pick", "Pick it", () => bench.picks.only(key))];
  if (found.length > 0 && bench.picks.keys.size > 0) found.push(deed("pick-too", "Pick it as well", () => bench.picks.toggle(key)));
  if (!bench.views.edits) found.push(deed("where", "Show where it is", () => bench.views.turnTo(EDITED, [key], true)));
  return found;
}

/** @param {Bench} bench @param {string} name */
function ofPart(bench, name) {
  const part = bench.shown.words.parts[name];
  if (!part) return null;
  const deeds = [
    deed("screws", "Show its screws as rows", () => openPicked(bench, `part:${name}`, ".row.screw")),
    deed("rename", "Rename", () => openName(bench, name)),
    deed("cable", "Add a cable from here", () => {
      bench.picks.only(`part:${name}`);
      bench.askForCable();
    }),
    deed("remove", "Remove this part", () => bench.submit(remove(bench.shown.words, [name], []))),
  ];
  return { title: part.label, deeds };
}

/** @param {Bench} bench @param {string} name */
function ofScrew(bench, name) {
  const { words } = bench.shown;
  const row = words.parts[partOf(name)]?.terminals.find((one) => one.terminal === name);
  if (!row) return null;
  const { held } = bench.inHand;
  const first = held
    ? [
        deed("land", "Land here what is in hand", () => bench.inHand.land(name)),
        ...swapRivals(words, held, name).map((end) => deed(`swap:${end}`, `Swap with ${calledIn(words, conductorOf(end))}`, () => bench.inHand.swap(end))),
        deed("put-back", "Put back what is in hand", () => bench.inHand.putBack()),
      ]
    : [deed("pull", "Pull a new conductor from here", () => bench.inHand.take({ sort: "start", terminal: name }, "keys"))];
  const wires = row.landed.flatMap(({ end, conductor }) => {
    const called = calledIn(words, conductor);
    return [
      ...(held ? [] : [deed(`move:${end}`, `Move ${called}`, () => bench.inHand.take({ sort: "end", end }, "keys"))]),
      deed(`off:${end}`, `Take ${called} off`, () => bench.submit({ ...takeOff(bench.shown.words, end), focus: `terminal:${name}` })),
      deed(`go:${end}`, `Pick ${called}`, () => bench.picks.only(`conductor:${conductor}`)),
    ];
  });
  return { title: row.name, deeds: [...first, ...wires] };
}

/** @param {Bench} bench @param {string} name */
function ofConductor(bench, name) {
  const conductor = bench.shown.words.conductors[name];
  if (!conductor) return null;
  const { cable } = conductor;
  const deeds = [
    ...conductor.ends.flatMap((end) => endDeeds(bench, end)),
    ...(cable ? [deed("cable", `Pick its cable, ${conductor.cable_label}`, () => bench.pickCable(cable))] : []),
    deed("remove", `Remove ${conductor.name}`, () => bench.submit(remove(bench.shown.words, [], [name]))),
  ];
  return { title: conductor.title, deeds };
}

/** @param {Bench} bench @param {string} name */
function ofEnd(bench, name) {
  const conductor = bench.shown.words.conductors[conductorOf(name)];
  if (!conductor) return null;
  const end = conductor.ends[indexOf(name)];
  const drop = deed("remove", `Remove ${conductor.name}`, () => bench.submit(remove(bench.shown.words, [], [conductor.id])));
  return { title: `${conductor.title}, end ${indexOf(name) + 1}`, deeds: [...endDeeds(bench, end), drop] };
}

/** @param {Bench} bench @param {import("../job/types.js").EndWords} end @returns {Deed[]} */
function endDeeds(bench, { end, terminal, unseen }) {
  const { words } = bench.shown;
  const where = terminal ? nameOf(words, terminal) : `end ${indexOf(end) + 1}`;
  const take = deed(`move:${end}`, terminal ? `Move the end on ${where}` : `Land ${where}`, () => bench.inHand.take({ sort: "end", end }, "keys"));
  if (terminal) return [take, deed(`off:${end}`, `Take off the end on ${where}`, () => bench.submit(takeOff(bench.shown.words, end)))];
  const other = unseen
    ? deed(`loose:${end}`, `Mark ${where} as not landed`, () => bench.submit(placeEnd(bench.shown.words, end, null)))
    : deed(`unseen:${end}`, `Mark ${where} as not looked at`, () => bench.submit(placeEnd(bench.shown.words, end, { unknown: NOT_LOOKED })));
  return [take, other];
}

/** @param {Bench} bench @param {string} name */
function ofCable(bench, name) {
  const cable = bench.shown.words.cables[name];
  if (!cable) return null;
  const strips = cable.sides.map((side, index) =>
    deed(`strip:${index}`, `Type the strip at end ${index + 1}, ${side.words}`, () =>
      /** @type {HTMLElement|null} */ (document.querySelector(`[data-strip="${index}"]`))?.focus(),
    ),
  );
  return { title: `Cable ${cable.label}`, deeds: [...strips, deed("remove", "Remove with all its conductors", () => bench.submit(removeCable(bench.shown.words, name)))] };
}
