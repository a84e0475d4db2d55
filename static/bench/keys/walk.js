/** Along the wires: `.` to the other end, `,` from one conductor on a screw to the next. */

import { conductorOf, indexOf } from "../job/acts.js";
import { distance } from "../sheet/geometry.js";

/** @typedef {import("../bench.js").Bench} Bench */

/** @param {Bench} bench */
export function otherEnd(bench) {
  const thing = bench.surface.things.get(bench.focus.key);
  if (!thing) return undefined;
  const from = thing.sort === "conductor" ? bench.walkedFrom : thing.name;
  const id = thing.sort === "conductor" ? thing.name : thing.sort === "end" ? conductorOf(thing.name) : landedOn(bench, thing.name)[0];
  const conductor = id ? bench.shown.words.conductors[id] : undefined;
  if (!conductor) return bench.speech.say("No conductor here.");
  const here = thing.sort === "end" ? indexOf(thing.name) : conductor.ends.findIndex((end) => end.terminal === from);
  const far = conductor.ends[here === 0 ? 1 : 0];
  bench.focus.to(far.terminal ? `terminal:${far.terminal}` : `end:${far.end}`);
  return bench.targeted();
}

/** @param {Bench} bench */
export function nextConductor(bench) {
  const thing = bench.surface.things.get(bench.focus.key);
  if (!thing) return undefined;
  if (thing.sort === "conductor" && bench.walkedFrom) {
    const ids = landedOn(bench, bench.walkedFrom);
    const next = ids[(ids.indexOf(thing.name) + 1) % ids.length];
    return bench.focus.to(next ? `conductor:${next}` : thing.key);
  }
  if (thing.sort !== "terminal") return undefined;
  const [first] = landedOn(bench, thing.name);
  if (!first) return bench.speech.say("No conductor on this screw.");
  bench.walkedFrom = thing.name;
  return bench.focus.to(`conductor:${first}`);
}

/** The end of a focused conductor that one came from, else the one nearer to the middle of the view.
 *  @param {Bench} bench @param {import("../sheet/things.js").Thing} thing @returns {string} */
export function nearEnd(bench, thing) {
  const { view, things } = bench.surface;
  const conductor = bench.shown.words.conductors[thing.name];
  const came = conductor?.ends.find((end) => end.terminal && end.terminal === bench.walkedFrom);
  if (came) return came.end;
  const middle = view.toSheet({ x: view.width / 2, y: view.height / 2 });
  const ends = [0, 1].flatMap((index) => things.get(`end:${thing.name}.${index}`) ?? []);
  ends.sort((a, b) => distance(a.at, middle) - distance(b.at, middle));
  return ends[0]?.name ?? `${thing.name}.0`;
}

/**
 * Conductors on a screw, each once.
 * @param {Bench} bench @param {string} terminal @returns {string[]}
 */
export function landedOn(bench, terminal) {
  const part = bench.shown.words.parts[terminal.slice(0, terminal.indexOf("."))];
  const row = part?.terminals.find((one) => one.terminal === terminal);
  return [...new Set((row?.landed ?? []).map((wire) => wire.conductor))];
}
