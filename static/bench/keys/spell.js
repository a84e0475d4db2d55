/** Letters and digits go to screws; with the keyboard on a part they also go to parts by name. */

import { letterOf } from "../job/acts.js";
import { partHere, screwsOf } from "./move.js";

const MORE_MS = 700;

let typed = "";
let typedAt = 0;

/** @param {import("../bench.js").Bench} bench @param {string} key @returns {boolean} whether something was meant */
export function spell(bench, key) {
  if (bench.surface.things.looking) return false;
  const now = performance.now();
  const longer = now - typedAt < MORE_MS ? typed + key.toUpperCase() : "";
  typedAt = now;
  const part = partHere(bench);
  const screws = part ? screwsOf(bench, part) : [];
  for (const wanted of [longer, key.toUpperCase()]) {
    if (!wanted) continue;
    const hits = screws.filter((screw) => letterOf(screw.name).toUpperCase().startsWith(wanted));
    if (hits.length === 0) continue;
    typed = wanted;
    go(bench, next(hits, wanted.length > 1 ? null : bench.focus.key));
    return true;
  }
  typed = key.toUpperCase();
  return toPart(bench, typed);
}

/**
 * The first, or the one after where one stands.
 * @param {import("../sheet/things.js").Thing[]} things @param {string|null} key
 */
function next(things, key) {
  return things[(things.findIndex((thing) => thing.key === key) + 1) % things.length];
}

/** @param {import("../bench.js").Bench} bench @param {string} wanted */
function toPart(bench, wanted) {
  const { parts } = bench.shown.words;
  if (!bench.focus.key?.startsWith("part:") && bench.focus.key) return false;
  const hits = bench.surface.things.parts.filter((part) => parts[part.name]?.label.toUpperCase().startsWith(wanted));
  if (hits.length > 0) go(bench, next(hits, bench.focus.key));
  return hits.length > 0;
}

/** @param {import("../bench.js").Bench} bench @param {import("../sheet/things.js").Thing} thing */
function go(bench, thing) {
  bench.focus.to(thing.key);
  bench.targeted();
}
