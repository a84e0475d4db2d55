/** Where the parts would stand: dotted outlines in the hand layer, apart from the drop that moves them. */

import { draw } from "../../shared/dom.js";
import { screenBox } from "../../sheet/pick-marks.js";

/** @param {import("../../bench.js").Bench} bench @param {import("../../sheet/things.js").Thing[]} parts
 *  @param {() => {x: number, y: number}} by */
export function showOutlines(bench, parts, by) {
  const { hand } = bench.surface;
  bench.outlines = { parts, by };
  return {
    refresh: () => hand.refresh("outlines"),
    clear() {
      bench.outlines = null;
      hand.refresh("outlines");
    },
  };
}

/** @param {import("../../bench.js").Bench} bench */
export function installOutlines(bench) {
  bench.surface.hand.add("outlines", (group, view) => {
    if (!bench.outlines) return;
    const by = bench.outlines.by();
    for (const part of bench.outlines.parts) {
      const { x, y, w, h } = screenBox(part, view);
      group.append(
        draw("rect", { x: x + by.x * view.scale, y: y + by.y * view.scale, width: w, height: h, class: "mark-outline" }),
      );
    }
  }, "held");
}
