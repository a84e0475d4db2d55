/** From thing to thing: the nearest of the same sort in the cone of an arrow, down into a part, and up again. */

import { partOf } from "../job/acts.js";

/** @typedef {import("../bench.js").Bench} Bench */

/** @type {Record<string, string>} */
const NAMES = { "-1,0": "left", "1,0": "right", "0,-1": "up", "0,1": "down" };

/** @param {Bench} bench @param {number} dx @param {number} dy */
export function go(bench, dx, dy) {
  const { things } = bench.surface;
  const from = things.get(bench.focus.key);
  if (!from) return bench.focus.to(things.first?.key ?? null);
  const next = nearestInCone(from, sameSort(things, from), dx, dy);
  if (!next) return bench.speech.say(`Nothing further ${NAMES[`${dx},${dy}`]}.`);
  bench.focus.to(next.key);
  return bench.targeted();
}

/** @param {import("../sheet/things.js").Things} things @param {import("../sheet/things.js").Thing} from */
function sameSort(things, from) {
  if (things.looking) return things.spots;
  if (from.sort === "part") return things.parts;
  if (from.sort === "conductor") return things.conductors;
  return [...things.terminals, ...things.openEnds];
}

/**
 * The nearest thing whose direction lies within 45 degrees of the arrow.
 * @param {import("../sheet/things.js").Thing} from @param {import("../sheet/things.js").Thing[]} among
 * @param {number} dx @param {number} dy
 */
export function nearestInCone(from, among, dx, dy) {
  let best;
  let least = Infinity;
  for (const thing of among) {
    const along = (thing.at.x - from.at.x) * dx + (thing.at.y - from.at.y) * dy;
    const across = Math.abs((thing.at.x - from.at.x) * dy) + Math.abs((thing.at.y - from.at.y) * dx);
    if (thing === from || along <= 0 || across > along) continue;
    const away = along + across;
    if (away < least) [best, least] = [thing, away];
  }
  return best;
}

/**
 * Screws of a part in their order.
 * @param {Bench} bench @param {string} part
 */
export function screwsOf(bench, part) {
  return bench.surface.things.terminals.filter((one) => partOf(one.name) === part);
}

/**
 * The part that the keyboard is on or in.
 * @param {Bench} bench @returns {string|null}
 */
export function partHere(bench) {
  const thing = bench.surface.things.get(bench.focus.key);
  if (thing?.sort === "part") return thing.name;
  return thing?.sort === "terminal" ? partOf(thing.name) : null;
}

/** @param {Bench} bench @param {number} index 0 for the first screw of the part, -1 for the last */
export function toSideScrew(bench, index) {
  const part = partHere(bench);
  const screw = part && screwsOf(bench, part).at(index);
  if (screw) bench.focus.to(screw.key);
  bench.targeted();
}

/**
 * Esc: put back, else one level up, else unpick.
 * @param {Bench} bench
 */
export function oneUp(bench) {
  if (bench.inHand.held) return bench.inHand.putBack();
  const thing = bench.surface.things.get(bench.focus.key);
  if (thing?.sort === "terminal") return bench.focus.to(`part:${partOf(thing.name)}`);
  if (thing && thing.sort !== "part") {
    const id = thing.sort === "end" ? thing.name.slice(0, thing.name.lastIndexOf(".")) : thing.name;
    const landed = bench.shown.words.conductors[id]?.ends.find((end) => end.terminal);
    return bench.focus.to(landed ? `terminal:${landed.terminal}` : (bench.surface.things.parts[0]?.key ?? null));
  }
  return bench.picks.only();
}
