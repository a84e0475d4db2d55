/** Undo and redo, to the beginning and across a reload. Each step is named on its button. */

import { byId, make } from "../shared/dom.js";
import { ask } from "../job/requests.js";
import { Steps } from "../job/steps.js";

const WORDS = { undo: "Undo", redo: "Redo" };

/** @param {import("../bench.js").Bench} bench */
export function installUndo(bench) {
  const { outbox, shown } = bench;
  let steps = new Steps();
  const buttons = { undo: byId("undo"), redo: byId("redo") };
  const fill = () => {
    for (const does of /** @type {const} */ (["undo", "redo"])) {
      const step = steps.next(does);
      const button = /** @type {HTMLButtonElement} */ (buttons[does]);
      button.setAttribute("aria-disabled", String(!step));
      const words = step ? `${WORDS[does]}: ${step.step}` : WORDS[does];
      button.replaceChildren(make("span", { class: "step-words" }, words));
      button.title = words;
    }
  };
  bench.step = (does) => {
    const step = steps.next(does);
    if (!step) return bench.speech.say(does === "undo" ? "Nothing to undo." : "Nothing to redo.");
    if (outbox.entries.length > 0) return bench.speech.say("Still sending. Try again in a moment.");
    const { step: words, gesture, inverse } = step;
    return bench.submit({ operations: inverse, step: words, gesture, does, spoken: `${WORDS[does]}: ${words}.` });
  };
  for (const does of /** @type {const} */ (["undo", "redo"])) buttons[does].addEventListener("click", () => bench.step(does));
  outbox.on("saved", ({ entry, inverse }) => {
    steps.record({ does: entry.does, step: entry.step, gesture: entry.gesture, inverse });
    fill();
  });
  outbox.on("refused", ({ entry }) => {
    if (entry.does !== "do") steps.drop(entry.does);
    fill();
  });
  bench.loadSteps = async () => {
    const outcome = await ask(`${shown.address}/history?after=0`);
    if (outcome.sort === "answer") steps = Steps.from(outcome.body.changes, outbox.editor);
    fill();
  };
  fill();
}
