/** Grab the wire beside its screw, or an open end: move that end. Dropped on paper it is taken off. */

import { conductorOf, indexOf, takeOff } from "../../job/acts.js";
import { carry } from "../carry.js";

/** @type {import("../press/press.js").Gesture} */
export const moveEnd = {
  name: "move-end",
  suits: (press, bench) => press.button === 0 && press.hit.sort === "end" && !bench.glove,
  begin(press, bench) {
    const end = press.hit.name;
    const id = conductorOf(end);
    const { things } = bench.surface;
    const far = things.get(`end:${id}.${1 - indexOf(end)}`) ?? things.get(press.hit.key);
    bench.picks.only(`conductor:${id}`);
    return carry(bench, press, { sort: "end", end }, far?.at ?? press.at, () => {
      const landed = bench.shown.words.conductors[id]?.ends[indexOf(end)].terminal;
      return landed ? takeOff(bench.shown.words, end) : null;
    });
  },
};
