/** The standing caution, in the page and not over it: once per job and day. */

import { byId } from "../shared/dom.js";
import { keep, recall } from "../shared/remember.js";

/** @param {import("../bench.js").Bench} bench */
export function installCaution(bench) {
  const line = byId("caution");
  const name = `caution:${bench.shown.job}`;
  const today = new Date().toDateString();
  line.hidden = recall(name) === today;
  byId("caution-read").addEventListener("click", () => {
    keep(name, today);
    line.hidden = true;
    bench.focus.toHost();
  });
}
