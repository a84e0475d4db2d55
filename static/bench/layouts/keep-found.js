/**
 * *Keep this wiring as found*: a copy of the layout as it stands, so that whatever is changed from here on can be told
 * from what was there. One step, undone like any other.
 */

import { byId } from "../shared/dom.js";

const FOUND = "as-found";
const LEFT = "as-left";

/** @param {import("../bench.js").Bench} bench */
export function installKeepFound(bench) {
  const { shown } = bench;
  const button = byId("keep-found");
  const row = /** @type {HTMLElement} */ (button.parentElement);
  shown.on("shown", () => {
    const { layout, layouts, parts } = shown.words;
    row.hidden = layout !== LEFT || layouts.some(({ id }) => id === FOUND) || Object.keys(parts).length === 0;
  });
  button.addEventListener("click", async () => {
    byId("more").removeAttribute("open");
    const copy = { op: "copy", from: `/layouts/${LEFT}`, path: `/layouts/${FOUND}` };
    await bench.submit({
      operations: [copy],
      step: "keep this wiring as found",
      spoken: "Kept as found. What is changed now is as left; Changes shows both.",
    });
  });
}
