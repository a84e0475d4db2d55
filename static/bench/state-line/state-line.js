/** The state line: whether the job is saved and checked, in exact words, with a mark and never by colour alone. */

import { byId, make } from "../shared/dom.js";

const SLOW_MS = 400;
const MARKS = { saved: "✓", pending: "…", offline: "–", refused: "!" };

export class StateLine {
  /** @param {import("../bench.js").Bench} bench */
  constructor(bench) {
    this.bench = bench;
    this.main = bench.shown.main;
    /** @type {Date|null} */
    this.since = null;
    /** @type {number|undefined} */
    this.slow = undefined;
    this.listen();
    if (bench.outbox.entries.length === 0) this.say("saved", "saved", "Saved and checked.");
  }

  /**
   * @param {"saved"|"pending"|"offline"} state @param {keyof MARKS} mark @param {string} words
   * @param {...Node} acts
   */
  say(state, mark, words, ...acts) {
    this.main.dataset.state = state;
    byId("state-mark").textContent = MARKS[mark];
    byId("state-words").textContent = words;
    byId("state-line").title = words;
    byId("state-acts").replaceChildren(...acts);
    byId("not-known").hidden = state !== "offline";
  }

  listen() {
    const { outbox } = this.bench;
    let wasAway = 0;
    outbox.on("sending", ({ again, count }) => {
      clearTimeout(this.slow);
      if (!again) this.main.dataset.state = "pending";
      else if (this.since === null) this.say("pending", "pending", "Sending...");
      this.slow = setTimeout(() => this.since === null && this.say("pending", "pending", "Sending..."), SLOW_MS);
      if (again) wasAway = Math.max(wasAway, count);
    });
    outbox.on("away", ({ count }) => {
      this.stop();
      if (this.since === null) this.bench.speech.say("Server away. Edits are kept on this device.");
      this.since ??= new Date();
      wasAway = count;
      this.say("offline", "offline", `Server away since ${clock(this.since)}. ${edits(count)} kept on this device, not checked yet.`);
    });
    outbox.on("failed", ({ outcome, count }) => {
      this.stop();
      this.since ??= new Date();
      wasAway = count;
      const leave = make("button", { type: "button", class: "small", onclick: () => outbox.leaveOut() }, "Leave it out");
      this.say("offline", "refused", failedWords(outcome), leave);
    });
    outbox.on("saved", () => {
      this.stop();
      if (this.since !== null && outbox.entries.length > 0) this.say("pending", "pending", `Back. Sending ${edits(outbox.entries.length)}...`);
    });
    outbox.on("idle", ({ saved, missed }) => {
      this.stop();
      const back = this.since !== null;
      this.since = null;
      if (!saved) return;
      if (missed > 0) this.say("saved", "saved", `This job was also changed elsewhere (${edits(missed)}). Yours were put on top.`);
      else if (back) this.say("saved", "saved", `Back. ${edits(wasAway)} saved and checked.`);
      else this.say("saved", "saved", "Saved and checked.");
      wasAway = 0;
    });
    outbox.on("refused", (refusal) => this.refused(refusal));
    outbox.on("gone", () => this.say("offline", "refused", "There is no job with this address. It may have been deleted."));
    outbox.on("full", () => {
      const job = make("a", { href: this.bench.shown.address, download: "job.json" }, "Download");
      this.say("offline", "refused", "This device cannot keep more edits. Download the job now so that nothing is lost.", job);
    });
  }

  stop() {
    clearTimeout(this.slow);
  }

  /** @param {{entry: {step: string}, problem: any, missed: number}} refusal */
  refused({ entry, problem, missed }) {
    this.stop();
    this.since = null;
    const detail = sentence(problem.detail ?? problem.title ?? "the server did not take it");
    const right = problem.would_be_right ? ` Right would be: ${sentence(problem.would_be_right)}` : "";
    const words =
      missed > 0
        ? `1 of your 1 edits no longer fits: ${entry.step}, because ${lower(detail)}`
        : `Not done: ${lower(detail)}${right}`;
    this.say("saved", "refused", words);
    this.bench.speech.say(words);
    if (missed > 0) this.bench.look();
  }

  /** A look at another call that did not come back. @param {any} outcome */
  lookFailed(outcome) {
    if (outcome.sort === "refused" && outcome.status === 404) return this.say("offline", "refused", "There is no job with this address. It may have been deleted.");
    if (outcome.sort === "refused") return this.say("saved", "refused", `Not done: ${lower(sentence(outcome.problem.detail ?? ""))}`);
    if (outcome.sort === "failed") return this.say("saved", "refused", failedWords(outcome).replace(/ Your edit.*/, ""));
    return this.say("saved", "offline", "The server cannot be reached. What is shown is from before.");
  }
}

/** @param {number} count */
const edits = (count) => (count === 1 ? "1 edit" : `${count} edits`);

/** @param {Date} time */
const clock = (time) => `${String(time.getHours()).padStart(2, "0")}:${String(time.getMinutes()).padStart(2, "0")}`;

/** @param {string} words */
const sentence = (words) => (/[.!?]$/.test(words) ? words : `${words}.`);

/** @param {string} words */
const lower = (words) => (/^[A-Z][a-z]/.test(words) ? words[0].toLowerCase() + words.slice(1) : words);

function failedWords({ status, problem }) {
  const ref = problem?.ref ? `, ref ${problem.ref}` : "";
  return `The server could not answer (error ${status}${ref}). Your edit is kept on this device and will be sent again.`;
}
