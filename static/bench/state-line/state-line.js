/** The state line: whether the job is saved and checked, in exact words, with a mark and never by colour alone. */

import { byId } from "../shared/dom.js";
import { because } from "./because.js";
import { download, keepAsNote, offer, showWhatIsNamed } from "./offers.js";
import * as words from "./words.js";

const SLOW_MS = 400;
const MARKS = { saved: "✓", pending: "…", offline: "–", refused: "!" };

export class StateLine {
  /** @param {import("../bench.js").Bench} bench */
  constructor(bench) {
    this.bench = bench;
    this.main = bench.shown.main;
    /**
     * When the server was last found to be away.
     * @type {Date|null}
     */
    this.since = null;
    /** How many edits waited for it. */
    this.waited = 0;
    /**
     * What parts and conductors are called, also those that are gone.
     * @type {Map<string, string>}
     */
    this.names = new Map();
    /** @type {number|undefined} */
    this.slow = undefined;
    this.listen();
    this.saved();
    byId("show-checked").addEventListener("click", () => this.showChecked(!this.main.hasAttribute("data-checked")));
  }

  /**
   * @param {"saved"|"pending"|"offline"} state @param {keyof MARKS} mark @param {string} said
   * @param {...Node} acts
   */
  say(state, mark, said, ...acts) {
    clearTimeout(this.slow);
    this.turn(state);
    byId("state-mark").textContent = MARKS[mark];
    byId("state-words").textContent = said;
    byId("state-line").title = said;
    byId("state-acts").replaceChildren(...acts);
    byId("not-known").hidden = state !== "offline";
    if (state !== "offline") this.showChecked(false);
  }

  /** @param {"saved"|"pending"|"offline"} state */
  turn(state) {
    this.main.dataset.state = state;
    this.markUnknown();
  }

  /**
   * While edits wait to be checked it is not known what the circuit does. The styles hang on that alone: to style
   * everything that tells it anew whenever an edit goes out would take longer than the edit.
   */
  markUnknown() {
    const { main } = this;
    main.toggleAttribute("data-unknown", main.dataset.state === "offline" && !main.hasAttribute("data-checked"));
  }

  saved() {
    this.say("saved", "saved", words.SAVED);
  }

  /**
   * The state before the edits that wait, with what then ran.
   * @param {boolean} checked
   */
  showChecked(checked) {
    if (checked === this.main.hasAttribute("data-checked")) return;
    this.main.toggleAttribute("data-checked", checked);
    this.markUnknown();
    byId("show-checked").textContent = checked ? "Show your edits" : "Show the last checked state";
    this.bench.showChecked(checked);
  }

  listen() {
    const { outbox, shown } = this.bench;
    shown.on("shown", () => this.learnNames());
    outbox.on("sending", ({ again, count }) => {
      if (again && this.since !== null) return;
      this.turn("pending");
      clearTimeout(this.slow);
      this.slow = setTimeout(() => this.say("pending", "pending", count > 0 ? words.SENDING : words.SAVED), SLOW_MS);
    });
    outbox.on("away", ({ count }) => this.away(count));
    outbox.on("locked", ({ count }) => this.locked(count));
    outbox.on("failed", ({ outcome, count }) => {
      this.left(count);
      const said = `${words.failedWords(outcome)} Your edit is kept on this device and will be sent again.`;
      this.say("offline", "refused", said, offer("Leave it out", () => outbox.leaveOut()));
    });
    outbox.on("saved", () => {
      clearTimeout(this.slow);
      if (this.since !== null && outbox.count > 0) this.say("pending", "pending", words.sendingWords(outbox.count));
    });
    outbox.on("changed", () => this.since !== null && outbox.away && this.main.dataset.state === "offline" && this.waits());
    outbox.on("idle", (outcome) => this.idle(outcome));
    outbox.on("gone", () => this.say("offline", "refused", words.GONE));
    outbox.on("full", () => {
      this.left(outbox.count);
      this.say("offline", "refused", words.FULL, offer("Download", () => download(this.bench)));
      this.bench.speech.say(words.FULL);
    });
  }

  /** @param {number} count @returns {Date} since when the server is away */
  left(count) {
    if (this.since === null) this.bench.speech.say("Server away. Edits are kept on this device.");
    this.since ??= new Date();
    this.waited = count;
    return this.since;
  }

  /** @param {number} count */
  away(count) {
    this.say("offline", "offline", words.awayWords(this.left(count), count));
  }

  /** @param {number} count */
  locked(count) {
    this.left(count);
    const ask = () => location.assign(`/key?to=${encodeURIComponent(location.pathname + location.search)}`);
    this.say("offline", "refused", words.lockedWords(count), offer("Enter the key", ask));
  }

  /** One more edit waits, or one fewer. */
  waits() {
    const { outbox, shown } = this.bench;
    this.waited = outbox.count;
    if (byId("state-words").textContent?.startsWith("Server away")) this.away(outbox.count);
    this.showChecked(false);
    shown.showEdits();
  }

  learnNames() {
    const { parts, conductors } = this.bench.shown.words;
    for (const part of Object.values(parts)) this.names.set(`part:${part.id}`, part.inner);
    for (const one of Object.values(conductors)) this.names.set(`conductor:${one.id}`, one.name);
  }

  /**
   * Everything is sent: say what came of it.
   * @param {{saved: boolean, batch: import("../job/batch.js").Batch}} outcome
   */
  idle({ saved, batch }) {
    const back = this.since !== null;
    this.since = null;
    if (batch.refused.length > 0) this.refused(batch);
    else if (!saved) return;
    else if (batch.missed.length > 0) this.changedElsewhere(batch.missed);
    else if (back) this.say("saved", "saved", words.backWords(this.waited));
    else this.saved();
    if (batch.missed.length > 0 && !saved) this.bench.look();
  }

  /** @param {import("../job/batch.js").Batch["missed"]} missed */
  changedElsewhere(missed) {
    this.elsewhere(Math.min(...missed.map((one) => one.revision)), words.elsewhereWords(missed.length));
  }

  /**
   * Another device has changed the job while nothing was under way here. What is said of an edit of one's own stays.
   * @param {number} before revision that was shown @param {number} now
   */
  news(before, now) {
    if (byId("state-mark").textContent === MARKS.saved) this.elsewhere(before + 1, words.newsWords(now - before));
  }

  /** @param {number} first revision that is news @param {string} said */
  elsewhere(first, said) {
    this.say("saved", "saved", said, offer("What changed", () => this.bench.showHistory(first)));
  }

  /** @param {import("../job/batch.js").Batch} batch */
  refused(batch) {
    if (batch.missed.length === 0 && !batch.away && batch.refused.length === 1) {
      const nameOf = (/** @type {string} */ part) => this.names.get(`part:${part}`) ?? part;
      const said = words.refusedWords(batch.refused[0].problem, nameOf);
      this.say("saved", "refused", said);
      return this.bench.speech.say(said);
    }
    const lost = batch.refused.map((one) => ({ step: one.entry.step, because: because(one, batch.missed, this.names) }));
    const said = words.lostWords(lost, batch.total);
    const notes = lost.map((one) => `Not done: ${one.step}, because ${one.because}.`);
    this.say(
      "saved", "refused", said,
      offer("Show", () => showWhatIsNamed(this.bench, batch.refused[0].entry.operations)),
      offer("Keep it as a note", () => keepAsNote(this.bench, notes)),
      offer("Leave it out", () => this.saved()),
    );
    return this.bench.speech.say(said);
  }

  /** The page and its job come from this device. */
  openedKept() {
    if (this.since === null && this.main.dataset.state !== "offline") this.say("offline", "offline", words.KEPT);
  }

  get isKept() {
    return byId("state-words").textContent === words.KEPT;
  }

  /**
   * A look at another call that did not come back.
   * @param {any} outcome
   */
  lookFailed(outcome) {
    if (this.since !== null || this.isKept) return this.bench.speech.say(words.OUT_OF_REACH);
    if (outcome.status === 401) return this.locked(this.bench.outbox.count);
    if (outcome.sort === "refused" && outcome.status === 404) return this.say("offline", "refused", words.GONE);
    if (outcome.sort === "refused") return this.say("saved", "refused", words.refusedWords(outcome.problem, (part) => part));
    if (outcome.sort === "failed") return this.say("saved", "refused", words.failedWords(outcome));
    return this.say("saved", "offline", words.OUT_OF_REACH);
  }
}
