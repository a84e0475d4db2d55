/** What can be done about what the state line says: buttons beside its words. */

import { make } from "../shared/dom.js";
import { bring, cornersOf } from "../sheet/bring.js";
import { namedIn } from "./because.js";

/** @typedef {import("../bench.js").Bench} Bench */

/** @param {string} words @param {() => unknown} onclick */
export const offer = (words, onclick) => make("button", { type: "button", class: "small", onclick }, words);

/** @param {Bench} bench @param {import("../job/types.js").Operation[]} operations */
export function showWhatIsNamed(bench, operations) {
  bench.regions.turnTo("sheet");
  const thing = namedIn(operations).map((key) => bench.surface.things.get(key)).find(Boolean);
  if (!thing) return bench.speech.say("It is not on the sheet any more.");
  bring(bench.surface.view, cornersOf(thing));
  bench.picks.only(thing.key);
  return bench.focus.rove(thing.key);
}

/**
 * Write what was not done into the notes of the job.
 * @param {Bench} bench @param {string[]} lines
 */
export async function keepAsNote(bench, lines) {
  const { shown } = bench;
  await shown.document.fetch(shown.address);
  const notes = String(shown.document.document?.notes ?? "");
  const value = [notes, ...lines].filter(Boolean).join("\n");
  return bench.submit({ operations: [{ op: "add", path: "/notes", value }], step: "keep a note of what was not done", spoken: "Kept as a note." });
}

/**
 * The whole job with the edits that wait, or those alone where the job itself never came.
 * @param {Bench} bench
 */
export function download({ shown, outbox }) {
  const { document } = shown;
  const job = document.document ? document.with(outbox.entries) : { job: shown.job, edits: outbox.entries };
  const text = JSON.stringify(job, null, 2);
  const address = URL.createObjectURL(new Blob([text], { type: "application/json" }));
  const name = `${(shown.said?.title ?? "job").toLowerCase().replace(/[^a-z0-9]+/g, "-").replace(/^-+|-+$/g, "").slice(0, 80) || "job"}.json`;
  make("a", { href: address, download: name }).click();
  // The browser reads it in its own time.
  setTimeout(() => URL.revokeObjectURL(address), 60_000);
}
