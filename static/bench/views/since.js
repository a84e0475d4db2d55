/** The layout that changes are seen from: chosen over the sheet, wherever there is another layout. */

import { byId, make } from "../shared/dom.js";
import { CHANGES, EDITED } from "./names.js";

/** @param {import("../bench.js").Bench} bench */
export function installSince(bench) {
  const { shown, views } = bench;
  const button = views.buttons.find((one) => one.dataset.viewChoice === CHANGES);
  const select = /** @type {HTMLSelectElement} */ (byId("since-layout"));
  select.addEventListener("change", () => {
    shown.before = select.value;
    shown.emit("asked");
  });
  shown.on("shown", () => {
    const { others, since } = shown;
    if (button) button.hidden = others.length === 0;
    select.replaceChildren(...others.map(({ id, title }) => make("option", { value: id }, title)));
    select.value = since;
    // The other layout was taken away elsewhere; what is left is one layout, as it is.
    if (others.length === 0 && shown.view === CHANGES) views.turnTo(EDITED);
  });
}
