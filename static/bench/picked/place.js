/** Where a part stands on the sheet, moved by single presses: the same as dragging it. */

import { make } from "../shared/dom.js";
import { nudge } from "../keys/nudge.js";

const STEP = 24;
const WAYS = /** @type {const} */ ([["Left", -1, 0], ["Right", 1, 0], ["Up", 0, -1], ["Down", 0, 1]]);

/** @param {import("../bench.js").Bench} bench @param {string} part */
export function placeButtons(bench, part) {
  const buttons = WAYS.map(([words, dx, dy]) =>
    make("button", { type: "button", class: "small", "data-f": `${part}:${words}`, "data-nudge": words.toLowerCase(), onclick: () => nudge(bench, dx, dy, STEP) }, words),
  );
  return make("div", { class: "bar-group place", role: "group", "aria-label": "Move this part on the sheet" }, ...buttons);
}
