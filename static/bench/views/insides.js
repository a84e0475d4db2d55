/** What is inside the parts, shown on the connection diagram or not. */

import { byId } from "../shared/dom.js";

/** @param {import("../bench.js").Bench} bench */
export function installInsides(bench) {
  const button = byId("insides");
  button.addEventListener("click", () => {
    bench.shown.insides = !bench.shown.insides;
    button.setAttribute("aria-pressed", String(bench.shown.insides));
    bench.shown.emit("asked");
  });
}
