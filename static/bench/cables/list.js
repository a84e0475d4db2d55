/** The cables of the layout, to pick, and the way to add one; in *Add a part* and in *Wiring in words*. */

import { byId, make } from "../shared/dom.js";
import { refill } from "../rows/index.js";

/** @param {import("../bench.js").Bench} bench */
export function installCableList(bench) {
  bench.pickCable = (cable) => pickCable(bench, cable);
  bench.shown.on("shown", () => {
    const { parts, cables } = bench.shown.words;
    // A cable lies between two parts: whoever has none of them yet looks for parts.
    const wanted = Object.keys(parts).length > 1 || Object.keys(cables).length > 0;
    refill(byId("add-cables"), wanted ? [cablesSection(bench, "add")] : []);
  });
}

/** @param {import("../bench.js").Bench} bench @param {string} where tells two lists on one page apart */
export function cablesSection(bench, where) {
  const open = /** @type {HTMLDetailsElement|null} */ (document.querySelector(`[data-f="${where}:cables"]`))?.parentElement?.hasAttribute("open");
  const rows = Object.values(bench.shown.words.cables).map((cable) =>
    make(
      "li",
      {},
      make(
        "button",
        { type: "button", class: "row kind cable-row", "data-pick-cable": cable.id, "data-f": `${where}:cable:${cable.id}`, onclick: () => pickCable(bench, cable.id) },
        make("span", {}, cable.label),
        make("span", { class: "quiet" }, cable.summary),
      ),
    ),
  );
  // Where parts are added, a long list of cables must not push them away.
  const list = where === "add" && rows.length > 0 ? make("details", { open }, make("summary", { "data-f": `${where}:cables` }, rows.length === 1 ? "1 cable" : `${rows.length} cables`), make("ul", { class: "plain" }, ...rows)) : make("ul", { class: "plain" }, ...rows);
  const add = make("button", { type: "button", "data-action": "add-cable", "data-f": `${where}:add-cable`, onclick: () => bench.askForCable() }, "Add a cable");
  return make("section", { class: "cables" }, make("h3", {}, "Cables"), make("p", { class: "add-cable" }, add), list);
}

/** @param {import("../bench.js").Bench} bench @param {string} cable */
export function pickCable(bench, cable) {
  bench.picks.only(`cable:${cable}`);
  bench.regions.turnTo("picked");
}
