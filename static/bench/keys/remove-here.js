/** Delete and Backspace: take an end off its screw, or remove a conductor or a part. */

import { conductorOf, remove, takeOff } from "../job/acts.js";
import { removeCable } from "../job/cable-acts.js";
import { landedOn } from "./walk.js";

/** @typedef {import("../bench.js").Bench} Bench @typedef {import("../sheet/things.js").Thing} Thing */

/**
 * Several conductors on one screw: asks which.
 * @param {Bench} bench @param {Thing} thing
 */
export function takeOffHere(bench, thing) {
  const { words } = bench.shown;
  if (thing.sort === "end") return removeHere(bench, { ...thing, sort: "conductor", name: conductorOf(thing.name) });
  const ends = landedOn(bench, thing.name).flatMap((id) => words.conductors[id].ends.find((end) => end.terminal === thing.name)?.end ?? []);
  if (ends.length === 0) return bench.speech.say("No conductor on this screw.");
  if (ends.length === 1) return bench.submit({ ...takeOff(words, ends[0]), focus: thing.key });
  /** @type {Thing[]} */
  const rivals = ends.map((end) => ({ ...thing, key: `end:${end}`, sort: "end", name: end }));
  return bench.whichOne.ask(rivals, bench.surface.view.toScreen(thing.at), (key) =>
    bench.submit({ ...takeOff(bench.shown.words, key.slice(4)), focus: thing.key }),
  );
}

/**
 * Removing moves focus to the other end's screw.
 * @param {Bench} bench @param {Thing} thing
 */
export function removeHere(bench, thing) {
  const { words } = bench.shown;
  if (thing.sort === "part") return bench.submit(remove(words, [thing.name], []));
  const conductor = words.conductors[thing.name];
  const came = conductor.ends.findIndex((end) => end.terminal && end.terminal === bench.walkedFrom);
  const far = conductor.ends[came === 0 ? 1 : 0].terminal ?? conductor.ends[came === 0 ? 0 : 1].terminal;
  return bench.submit({ ...remove(words, [], [thing.name]), focus: far ? `terminal:${far}` : undefined });
}

/** @param {Bench} bench */
export function installRemove(bench) {
  bench.removePicked = () => {
    const parts = bench.picks.names("part");
    const conductors = bench.picks.names("conductor");
    const [cable] = bench.picks.names("cable");
    if (cable && parts.length + conductors.length === 0) return bench.submit(removeCable(bench.shown.words, cable));
    if (parts.length + conductors.length === 0) return undefined;
    return bench.submit(remove(bench.shown.words, parts, conductors));
  };
}

