/**
 * What lies under a pointer, by geometry and never by element, so that crowded screws share their space fairly.
 *
 * Order: end handle of a picked conductor, screw or open end, wire beside its screw, wire, part, paper.
 * Distances are screen pixels.
 */

import { distance, inside, nearestOn, pointAlong, reversed } from "./geometry.js";
import { LETTERED_PITCH, PITCH } from "./view.js";

/** @typedef {import("./things.js").Thing} Thing @typedef {import("./things.js").Things} Things */
/** @typedef {import("../job/types.js").Point} Point */
/** @typedef {{sort: "terminal"|"end"|"conductor"|"part"|"paper", name: string, key: string, rivals: Thing[]}} Hit */
/** @typedef {{screw: number, wire: number, doubt: number}} Reach */

const END_FROM = 8;
const END_TO = 32;
export const HANDLE = 24;

/**
 * Where screws are too close for their letters to be written nobody aims at one of them: reach shrinks with the drawing,
 * so that the middle of a part is the part.
 * @param {string} pointer @param {boolean} glove @param {number} scale @returns {Reach}
 */
export function reachOn(pointer, glove, scale) {
  const { screw, wire, doubt } = reachOf(pointer, glove);
  const share = Math.min(1, (PITCH * scale) / LETTERED_PITCH);
  return { screw: share * screw, wire: share * wire, doubt };
}

/** @param {string} pointer @param {boolean} glove @returns {Reach} */
export function reachOf(pointer, glove) {
  if (glove) return { screw: 28, wire: 16, doubt: 12 };
  if (pointer === "touch") return { screw: 22, wire: 16, doubt: 6 };
  if (pointer === "pen") return { screw: 14, wire: 8, doubt: 0 };
  return { screw: 12, wire: 6, doubt: 0 };
}

/**
 * @param {import("./things.js").Things} things @param {import("../job/types.js").Point} at in sheet units
 * @param {number} scale @param {Reach} reach @param {Set<string>} picked
 * @returns {Hit}
 */
export function hitTest(things, at, scale, reach, picked) {
  const handle = pickedHandle(things, at, scale, reach, picked);
  if (handle) return hit(handle);
  const screws = [...things.terminals, ...things.openEnds]
    .map((thing) => ({ thing, away: distance(thing.at, at) * scale }))
    .filter(({ away }) => away <= reach.screw)
    .sort((a, b) => a.away - b.away);
  if (screws.length > 0) {
    const rivals = screws.filter(({ away }) => away - screws[0].away < reach.doubt).map(({ thing }) => thing);
    return hit(screws[0].thing, rivals.slice(0, 4));
  }
  return wireAt(things, at, scale, reach, picked) ?? hitOf(partAt(things, at));
}

/** @param {Thing|undefined} thing @returns {Hit} that thing, or paper */
export const hitOf = (thing) => (thing ? hit(thing) : { sort: "paper", name: "", key: "", rivals: [] });

/** @param {Thing} thing @param {Thing[]} [rivals] @returns {Hit} */
function hit(thing, rivals = [thing]) {
  return { sort: thing.sort, name: thing.name, key: thing.key, rivals };
}

/**
 * The two handles of each picked conductor, `HANDLE` pixels from its screws.
 * @param {Things} things @param {Thing} conductor @param {number} scale
 */
export function handlesOf(things, conductor, scale) {
  const path = conductor.path ?? [];
  const length = nearestOn(path, path[path.length - 1] ?? { x: 0, y: 0 }).length;
  const along = Math.min(HANDLE / scale, length / 3);
  return [0, 1].map((index) => ({
    key: `end:${conductor.name}.${index}`,
    at: pointAlong(index === 0 ? path : reversed(path), along),
  }));
}

/** @param {Things} things @param {Point} at @param {number} scale @param {Reach} reach @param {Set<string>} picked */
function pickedHandle(things, at, scale, reach, picked) {
  for (const conductor of things.conductors) {
    if (!picked.has(conductor.key) || !conductor.path?.length) continue;
    const near = handlesOf(things, conductor, scale).find((one) => distance(one.at, at) * scale <= reach.screw * 0.75);
    const end = near && things.get(near.key);
    if (end) return end;
  }
  return undefined;
}

/**
 * @param {Things} things @param {Point} at @param {number} scale @param {Reach} reach @param {Set<string>} picked
 * @returns {Hit|undefined}
 */
function wireAt(things, at, scale, reach, picked) {
  const near = things.conductors
    .map((thing) => ({ thing, ...nearestOn(thing.path ?? [], at) }))
    .filter(({ away }) => away * scale <= reach.wire)
    .sort((a, b) => a.away - b.away || Number(picked.has(b.thing.key)) - Number(picked.has(a.thing.key)));
  if (near.length === 0) return undefined;
  const { thing, along, length } = near[0];
  const fromEnd = Math.min(along, length - along) * scale;
  if (fromEnd >= END_FROM && fromEnd <= END_TO) {
    const end = things.get(`end:${thing.name}.${along <= length / 2 ? 0 : 1}`);
    if (end) return hit(end);
  }
  return hit(thing);
}

/** @param {Things} things @param {Point} at @returns {Thing|undefined} */
function partAt(things, at) {
  return things.parts.findLast((one) => one.box && inside(one.box, at));
}
