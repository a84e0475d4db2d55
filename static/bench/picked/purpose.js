/**
 * What a conductor is for: its role, the calls that make it hot, what is lost without it. Asked of the server when a
 * conductor is picked, once for each revision.
 */

import { Emitter } from "../shared/emitter.js";
import { make } from "../shared/dom.js";
import { ask } from "../job/requests.js";

const MOST_KEPT = 50;
const NOT_SAID = ["Not known now: the server does not say."];

/** Emits `known` when an answer has come. */
export class Purposes extends Emitter {
  /** @param {import("../bench.js").Bench} bench */
  constructor(bench) {
    super();
    this.bench = bench;
    /** @type {Map<string, string[]|null>} sentences; null while the answer is on its way */
    this.known = new Map();
    bench.shown.on("shown", () => this.forgetFailed());
  }

  /** @param {string} conductor @returns {string[]|null} */
  of(conductor) {
    const { shown, outbox } = this.bench;
    if (outbox.entries.length > 0) return ["What it is for is not known until your edits are checked."];
    const key = `${shown.revision} ${shown.layout} ${conductor}`;
    if (!this.known.has(key)) this.ask(key, conductor);
    return this.known.get(key) ?? null;
  }

  /** @param {string} key @param {string} conductor */
  async ask(key, conductor) {
    const { shown } = this.bench;
    if (this.known.size >= MOST_KEPT) this.known.clear();
    this.known.set(key, null);
    const query = new URLSearchParams([["layout", shown.layout], ["subject", `conductor:${conductor}`]]);
    const outcome = await ask(`${shown.address}/explain?${query}`);
    this.known.set(key, outcome.sort === "answer" ? sentencesOf(outcome.body.words) : NOT_SAID);
    this.emit("known");
  }

  forgetFailed() {
    for (const [key, said] of this.known) if (said === NOT_SAID) this.known.delete(key);
  }
}

/**
 * The heading names the conductor and its ends already.
 * @param {string[]} words
 */
function sentencesOf([first, ...rest]) {
  const role = first.slice(first.indexOf(": ") + 2);
  return [role.slice(0, 1).toUpperCase() + role.slice(1), ...rest];
}

/** @param {string[]|null} sentences */
export function purposeSection(sentences) {
  const lines = sentences === null ? [make("p", { class: "quiet" }, "Asking what it is for…")] : sentences.map((one) => make("p", {}, one));
  return make("section", { class: "what-for", "data-what-for": sentences === null ? "asked" : "known" }, make("h3", {}, "What it is for"), ...lines);
}
