/** Grab a screw: a new conductor, even where one is landed already. */

import { distance } from "../../sheet/geometry.js";
import { carry } from "../carry.js";
import { pull as pullAct } from "../../job/acts.js";

const SHORTEST_PX = 24;

/** @type {import("../press/press.js").Gesture} */
export const pull = {
  name: "pull",
  suits: (press, bench) => press.button === 0 && press.hit.sort === "terminal" && !bench.glove,
  begin(press, bench) {
    const start = bench.surface.things.get(press.hit.key)?.at ?? press.at;
    return carry(bench, press, { sort: "start", terminal: press.hit.name }, start, (where) => {
      if (distance(start, where.at) * bench.surface.view.scale < SHORTEST_PX) return null;
      return pullAct(bench.shown.words, press.hit.name, null);
    });
  },
};
