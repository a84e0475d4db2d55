/** What can be taken away always shows the layout and the situation that are on the sheet. */

import { byId } from "../shared/dom.js";

/** @param {import("../bench.js").Bench} bench */
export function installTakeAway(bench) {
  const { shown } = bench;
  const point = () => {
    const layout = encodeURIComponent(shown.layout);
    const live = shown.calls.size > 0 || shown.sets.size > 0;
    byId("export").setAttribute("href", `${shown.address}/drawing.svg?${shown.query}${live ? "" : "&live=no"}`);
    byId("take-wires").setAttribute("href", `${shown.address}/wires.csv?layout=${layout}`);
    byId("take-job").setAttribute("href", shown.address);
  };
  shown.on("shown", point);
  shown.on("asked", point);
}
