/** Undo and redo, to the beginning and across a reload. Each step is named on its button. */

import { byId, make } from "../shared/dom.js";
import { ask } from "../job/requests.js";
import { Steps } from "../job/steps.js";

const WORDS = { undo: "Undo", redo: "Redo" };
/** How much of the log is asked for at a time. */
const PAGE = 100;

/** @param {import("../bench.js").Bench} bench */
export function installUndo(bench) {
  const { outbox } = bench;
  const undo = new Undo(bench);
  for (const does of /** @type {const} */ (["undo", "redo"])) undo.buttons[does].addEventListener("click", () => bench.step(does));
  bench.step = (does) => undo.step(does);
  bench.loadSteps = () => undo.load();
  outbox.on("saved", ({ entry, inverse, revision }) => undo.record({ revision, does: entry.does, step: entry.step, gesture: entry.gesture, inverse }));
  outbox.on("refused", ({ entry }) => {
    if (entry.does !== "do") undo.steps.drop(entry.does);
    undo.fill();
  });
  outbox.on("changed", () => undo.fill());
  undo.fill();
}

class Undo {
  /** @param {import("../bench.js").Bench} bench */
  constructor(bench) {
    this.bench = bench;
    this.steps = new Steps();
    this.buttons = { undo: byId("undo"), redo: byId("redo") };
    /** @type {Promise<void>|null} */
    this.reaching = null;
  }

  /**
   * What would be undone or redone now; while the server is away, the last edit that waits for it.
   * @param {"undo"|"redo"} does
   */
  next(does) {
    const { outbox } = this.bench;
    if (!outbox.away || outbox.count === 0) return this.steps.next(does);
    return does === "undo" ? outbox.entries.findLast((one) => !one.takenBack && one.does === "do") : undefined;
  }

  fill() {
    for (const does of /** @type {const} */ (["undo", "redo"])) {
      const step = this.next(does);
      const button = this.buttons[does];
      button.setAttribute("aria-disabled", String(!step));
      const words = step ? `${WORDS[does]}: ${step.step}` : WORDS[does];
      if (button.title === words) continue;
      button.replaceChildren(make("span", { class: "step-words" }, words));
      button.title = words;
    }
  }

  /** @param {"undo"|"redo"} does */
  async step(does) {
    const { outbox, speech } = this.bench;
    // A step of which only the end is here must not be undone by halves.
    if (this.steps.isShort) await this.reach();
    if (this.steps.isShort && !outbox.away) return speech.say("The steps before this one did not come. Try again in a moment.");
    const step = this.next(does);
    if (!step) return speech.say(does === "undo" ? "Nothing to undo." : "Nothing to redo.");
    if (outbox.count > 0) {
      const taken = outbox.away && does === "undo" ? outbox.takeBack() : undefined;
      return speech.say(taken ? `Undo: ${taken.step}.` : "Still sending. Try again in a moment.");
    }
    const { step: words, gesture, inverse } = /** @type {import("../job/steps.js").Step} */ (step);
    return this.bench.submit({ operations: inverse, step: words, gesture: gesture || undefined, does, spoken: `${WORDS[does]}: ${words}.` });
  }

  /** @param {import("../job/steps.js").Change} change */
  record(change) {
    this.steps.record(change);
    this.fill();
    this.reach();
  }

  /** Begin anew from the log. Where it does not come, what is shown is from before. */
  async load() {
    const steps = new Steps();
    if (await this.prepend(steps)) this.steps = steps;
    else this.bench.stateLine.openedKept();
    this.fill();
    return this.reach();
  }

  /** Go back in the log until the next step is here whole. @returns {Promise<void>} */
  reach() {
    this.reaching ??= this.fetchEarlier().finally(() => (this.reaching = null));
    return this.reaching;
  }

  async fetchEarlier() {
    while (this.steps.isShort && (await this.prepend(this.steps))) this.fill();
  }

  /** @param {Steps} steps @returns {Promise<boolean>} whether the server answered */
  async prepend(steps) {
    const { shown, outbox } = this.bench;
    const query = new URLSearchParams({ editor: outbox.editor, most: String(PAGE) });
    if (steps.earlier !== null) query.set("before", String(steps.earlier));
    const outcome = await ask(`${shown.address}/history?${query}`);
    if (outcome.sort === "answer") steps.prepend(outcome.body);
    return outcome.sort === "answer";
  }
}
