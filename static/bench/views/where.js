/** Where a thing that was picked on another view stands: the way back to the connection diagram. */

import { byId } from "../shared/dom.js";
import { calledIn, nameOf } from "../job/acts.js";
import { EDITED } from "./names.js";

/** @param {import("../bench.js").Bench} bench */
export function installWhere(bench) {
  const { picks, views, inHand } = bench;
  const bar = byId("where");
  const show = () => {
    const key = picks.last;
    bar.hidden = views.name === EDITED || views.name === "words" || !key || inHand.held !== null;
    if (!bar.hidden && key) byId("where-words").textContent = pickedWords(bench.shown.words, key);
  };
  byId("where-go").addEventListener("click", () => {
    bench.regions.turnTo("sheet");
    if (picks.last) views.turnTo(EDITED, [picks.last], true);
  });
  for (const source of [picks, inHand]) source.on("changed", show);
  views.on("turned", show);
  bench.shown.on("shown", show);
}

/** @param {import("../job/types.js").Words} words @param {string} key */
function pickedWords(words, key) {
  const [sort, name] = [key.slice(0, key.indexOf(":")), key.slice(key.indexOf(":") + 1)];
  if (sort === "part") return words.parts[name]?.label ?? name;
  if (sort === "conductor") return `${calledIn(words, name)}: ${words.conductors[name]?.between ?? ""}`;
  return nameOf(words, name);
}
