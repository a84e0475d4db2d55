/**
 * What was changed elsewhere is shown here too: at once where another page of this browser changed it, and soon, or when
 * one comes back to the page, where it was another device. A page that was opened from what the device has kept looks
 * for the server until it is there.
 */

import { ask } from "../job/requests.js";

const AGAIN_MS = 5000;
/** Another device is asked for as often; one question is less than a kilobyte. */
const NEWS_MS = 30_000;

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
  const askForNews = async () => {
    if (document.visibilityState !== "visible" || outbox.away || stateLine.isKept) return;
    const outcome = await ask(`${shown.address}/history?after=${shown.revision}&most=1`);
    if (outcome.sort !== "answer") return;
    const { revision } = shown;
    await renew(outcome.body.revision);
    if (!behind && shown.revision > revision) stateLine.news(revision, shown.revision);
  };
  document.addEventListener("visibilitychange", askForNews);
  setInterval(askForNews, NEWS_MS);
}
