/** Drag a part, or all picked parts, in steps of the grid. A finger must have picked the part first; else it pans. */

import { moveParts } from "../../job/acts.js";
import { showOutlines } from "./outline.js";

export const GRID = 12;
const snap = (/** @type {number} */ value) => Math.round(value / GRID) * GRID;

/** @type {import("../press/press.js").Gesture} */
export const movePart = {
  name: "move-part",
  suits(press, bench) {
    if (press.button !== 0 || press.hit.sort !== "part" || press.shift || bench.glove) return false;
    return press.pointer === "mouse" || bench.picks.has(press.hit.key);
  },
  begin(press, bench) {
    if (!bench.picks.has(press.hit.key)) bench.picks.only(press.hit.key);
    const parts = bench.picks.names("part").flatMap((name) => bench.surface.things.get(`part:${name}`) ?? []);
    let by = { x: 0, y: 0 };
    const outlines = showOutlines(bench, parts, () => by);
    return {
      scrolls: true,
      move(where) {
        const now = { x: snap(where.at.x - press.at.x), y: snap(where.at.y - press.at.y) };
        if (now.x === by.x && now.y === by.y) return;
        by = now;
        outlines.refresh();
      },
      drop() {
        outlines.clear();
        if (by.x === 0 && by.y === 0) return;
        bench.submit(moveParts(bench.shown.words, placesAfter(parts, by)));
      },
      cancel: () => outlines.clear(),
    };
  },
};

/** @param {import("../../sheet/things.js").Thing[]} parts @param {{x: number, y: number}} by
 *  @returns {Record<string, [number, number]>} */
export function placesAfter(parts, by) {
  return Object.fromEntries(parts.map(({ name, box, at }) => [name, [Math.round((box ?? at).x + by.x), Math.round((box ?? at).y + by.y)]]));
}
