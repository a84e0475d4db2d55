/** Mouse on paper: pick every part that the box takes in. With Shift they are added to the picks. */

import { draw } from "../../shared/dom.js";

/** @type {import("../press/press.js").Gesture} */
export const boxPick = {
  name: "box-pick",
  suits: (press) => press.button === 0 && press.pointer === "mouse" && (press.hit.sort === "paper" || press.shift),
  begin(press, bench) {
    const clear = () => {
      bench.boxed = null;
      bench.surface.hand.refresh("boxed");
    };
    return {
      move(where) {
        bench.boxed = boxBetween(press.at, where.at);
        bench.surface.hand.refresh("boxed");
      },
      drop(where) {
        const box = boxBetween(press.at, where.at);
        const keys = bench.surface.things.parts.filter((part) => part.box && meets(part.box, box)).map((part) => part.key);
        clear();
        bench.picks.only(...(press.shift ? bench.picks.keys : []), ...keys);
        bench.speech.say(keys.length === 1 ? "1 part picked." : `${keys.length} parts picked.`);
      },
      cancel: clear,
    };
  },
};

/** @param {import("../../bench.js").Bench} bench */
export function installBoxPick(bench) {
  bench.surface.hand.add("boxed", (group, view) => {
    if (!bench.boxed) return;
    const { x, y, w, h } = bench.boxed;
    const at = view.toScreen({ x, y });
    group.append(draw("rect", { x: at.x, y: at.y, width: w * view.scale, height: h * view.scale, class: "mark-outline" }));
  }, "held");
}

/** @typedef {import("../../job/types.js").Point} Point @typedef {import("../../sheet/view.js").Box} Box */

/** @param {Point} a @param {Point} b @returns {Box} */
function boxBetween(a, b) {
  return { x: Math.min(a.x, b.x), y: Math.min(a.y, b.y), w: Math.abs(a.x - b.x), h: Math.abs(a.y - b.y) };
}

/** @param {Box} a @param {Box} b */
function meets(a, b) {
  return a.x < b.x + b.w && b.x < a.x + a.w && a.y < b.y + b.h && b.y < a.y + a.h;
}
