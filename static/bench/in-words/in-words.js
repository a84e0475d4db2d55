/** *Wiring in words*: every part, its screws and what is landed, as plain lists. The equal path without the sheet. */

import { byId, make } from "../shared/dom.js";
import { cablesSection } from "../cables/index.js";
import { endButtons, refill, screwRow } from "../rows/index.js";

/** @param {import("../bench.js").Bench} bench */
export function installInWords(bench) {
  const region = byId("words-content");
  const show = () => {
    if (!bench.shown.said || bench.shown.main.dataset.view !== "words") return;
    const { parts, conductors } = bench.shown.words;
    const open = Object.values(conductors).filter((one) => one.ends.some((end) => end.terminal === null));
    const content = Object.values(parts).map((part) => partSection(bench, part));
    if (open.length > 0) content.push(openSection(bench, open));
    if (content.length > 0) content.push(cablesSection(bench, "words"));
    refill(region, content.length > 0 ? content : [make("p", {}, "Empty layout. Add a part to begin.")]);
  };
  bench.shown.on("shown", show);
  bench.inHand.on("changed", show);
  bench.advice.on("changed", show);
  bench.views.on("turned", show);
}

/** @param {import("../bench.js").Bench} bench @param {import("../job/types.js").PartWords} part */
function partSection(bench, part) {
  const pick = make("button", { type: "button", class: "small", "data-f": `words:${part.id}`, onclick: () => bench.picks.only(`part:${part.id}`) }, "Pick", make("span", { class: "unseen" }, ` ${part.label}`));
  return make(
    "section",
    { class: "words-part" },
    make("h3", {}, part.label, " ", pick),
    make("p", { class: "quiet" }, part.aria),
    make("ul", { class: "screws" }, ...part.terminals.map((row) => screwRow(bench, row, "words"))),
  );
}

/** @param {import("../bench.js").Bench} bench @param {import("../job/types.js").ConductorWords[]} conductors */
function openSection(bench, conductors) {
  const rows = conductors.flatMap((conductor) =>
    conductor.ends
      .filter((end) => end.terminal === null)
      .map((end) => make("li", {}, make("span", { class: "end-words" }, end.aria), ...endButtons(bench, end.end, false, "words"))),
  );
  return make("section", { class: "words-part" }, make("h3", {}, "Ends that are not landed"), make("ul", { class: "ends" }, ...rows));
}
