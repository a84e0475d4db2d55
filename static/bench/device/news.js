/**
 * What was changed elsewhere is shown here too: at once where another page of this browser changed it, and when one
 * comes back to the page where it was another device. A page that was opened from what the device has kept looks for
 * the server until it is there.
 */

import { ask } from "../job/requests.js";

const AGAIN_MS = 5000;

/** @param {import("../bench.js").Bench} bench */
export function installNews(bench) {
  const { outbox, shown, stateLine } = bench;
  setInterval(async () => {
    if (!stateLine.isKept || !(await bench.look()) || !stateLine.isKept) return;
    stateLine.saved();
    await bench.loadSteps();
  }, AGAIN_MS);
  /** Another page of this browser has saved something, which is its to undo here too. */
  let behind = false;
  const renew = async (/** @type {number} */ revision) => {
    behind = outbox.entries.length > 0;
    if (behind || revision <= shown.revision) return;
    if (await bench.look()) await bench.loadSteps();
  };
  outbox.rollCall.on("news", renew);
  outbox.on("behind", () => (behind = true));
  outbox.on("idle", async () => {
    if (!behind) return;
    behind = false;
    if (await bench.look()) await bench.loadSteps();
  });
  document.addEventListener("visibilitychange", async () => {
    if (document.visibilityState !== "visible" || outbox.away) return;
    const outcome = await ask(`${shown.address}/history?after=${shown.revision}&most=1`);
    if (outcome.sort === "answer") await renew(outcome.body.revision);
  });
}
