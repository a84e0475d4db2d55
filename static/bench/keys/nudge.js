/** Shift and an arrow move the picked parts (or the one in focus). Presses within a second are one undo step. */

import { moveParts } from "../job/acts.js";
import { placesAfter } from "../gestures/move-part/index.js";
import { newId } from "../shared/ids.js";

const JOINED_MS = 1000;

let gesture = "";
let last = -JOINED_MS;

/** @param {import("../bench.js").Bench} bench @param {number} dx @param {number} dy @param {number} step sheet units */
export async function nudge(bench, dx, dy, step) {
  const { things } = bench.surface;
  const focused = things.get(bench.focus.key);
  const names = bench.picks.names("part");
  const parts = names.flatMap((name) => things.get(`part:${name}`) ?? []);
  if (parts.length === 0 && focused?.sort === "part") parts.push(focused);
  if (parts.length === 0) return bench.speech.say("Pick a part to move it.");
  // Without the answer to the last press nobody knows from where this one would move.
  if (bench.outbox.entries.length > 0 && !bench.outbox.away) return undefined;
  const now = performance.now();
  if (now - last > JOINED_MS) gesture = newId("g");
  last = now;
  return bench.submit({ ...moveParts(bench.shown.words, placesAfter(parts, { x: dx * step, y: dy * step })), gesture });
}
