/**
 * *History*: every step by its name, a page at a time, and back to any of them. Going back is one change like any
 * other, which the server makes from its log, so nothing is lost by it.
 */

import { byId, make } from "../shared/dom.js";
import { ask } from "../job/requests.js";

const PAGE = 50;

/** @typedef {import("../job/steps.js").Change & {at: string}} Logged */

/** @param {import("../bench.js").Bench} bench */
export function installHistory(bench) {
  const history = new History(bench);
  byId("history-open").addEventListener("click", () => history.open());
  byId("history-more").addEventListener("click", () => history.more());
  byId("history-close").addEventListener("click", () => history.dialog.close());
  bench.showHistory = (first) => history.open(first);
}

class History {
  /** @param {import("../bench.js").Bench} bench */
  constructor(bench) {
    this.bench = bench;
    this.dialog = /** @type {HTMLDialogElement} */ (byId("history"));
    /**
     * Oldest first.
     * @type {Logged[]}
     */
    this.changes = [];
    /** @type {number|null} */
    this.earlier = null;
    /** Whether a page has come yet. */
    this.begun = false;
    /** Steps from this revision on are marked as new. */
    this.first = Infinity;
  }

  /** @param {number} [first] the revision from which changes are news */
  async open(first = Infinity) {
    this.first = first;
    byId("history-said").textContent = "";
    byId("more").removeAttribute("open");
    if (!this.dialog.open) this.dialog.showModal();
    await this.begin();
  }

  async begin() {
    Object.assign(this, { changes: [], earlier: null, begun: false });
    await this.more();
  }

  async more() {
    const query = new URLSearchParams({ most: String(PAGE) });
    if (this.earlier !== null) query.set("before", String(this.earlier));
    const outcome = await ask(`${this.bench.shown.address}/history?${query}`);
    if (outcome.sort !== "answer") return void (byId("history-said").textContent = "The server cannot be reached. Try again when connected.");
    this.changes = [...outcome.body.changes, ...this.changes];
    this.earlier = outcome.body.earlier;
    return this.fill();
  }

  fill() {
    const rows = stepsOf(this.changes).reverse().map((step, number) => this.row(step, number === 0));
    if (this.earlier === null) rows.push(this.beginning(rows.length === 0));
    byId("history-rows").replaceChildren(...rows);
    byId("history-more").hidden = this.earlier === null;
  }

  /** @param {Logged} change the last of its step @param {boolean} isNow */
  row(change, isNow) {
    const words = wordsOf(change);
    const who = change.editor === this.bench.outbox.editor ? "here" : "elsewhere";
    const isNews = change.revision >= this.first && who === "elsewhere";
    return make(
      "li",
      { "data-revision": change.revision, class: isNews ? "is-news" : "" },
      make("span", { class: "history-step" }, isNews && make("b", {}, "new: "), words),
      make("span", { class: "quiet" }, `${timeOf(change.at)}, ${who}`),
      isNow ? make("b", { class: "history-now" }, "now") : this.button(change.revision, words),
    );
  }

  /** @param {boolean} isNow */
  beginning(isNow) {
    const words = "as it was begun";
    return make("li", { "data-revision": 1 }, make("span", { class: "history-step" }, words), make("span", {}), isNow ? make("b", { class: "history-now" }, "now") : this.button(1, words));
  }

  /** @param {number} revision @param {string} words */
  button(revision, words) {
    return make(
      "button",
      { type: "button", class: "small", onclick: () => this.goBack(revision, words) },
      "Back to here",
      make("span", { class: "unseen" }, `: ${words}`),
    );
  }

  /** @param {number} revision @param {string} words */
  async goBack(revision, words) {
    const { shown, outbox, submit } = this.bench;
    const said = byId("history-said");
    if (outbox.count > 0) return void (said.textContent = "Edits still wait to be sent. Try again when they are saved.");
    const outcome = await ask(`${shown.address}/back?to=${revision}`);
    if (outcome.sort === "away") return void (said.textContent = "The server cannot be reached. Try again when connected.");
    if (outcome.sort !== "answer") return void (said.textContent = outcome.problem.detail ?? "The server could not answer.");
    if (outcome.body.patch.length === 0) return void (said.textContent = "The job is as it was then.");
    const saved = await submit.call(this.bench, { operations: outcome.body.patch, step: `go back to: ${words}`.slice(0, 200), spoken: `Went back to: ${words}.` });
    said.textContent = saved ? `Back to: ${words}. Undo takes you forth again.` : "Not done; the line above says why.";
    return this.begin();
  }
}

/**
 * Joined nudges are one step.
 * @param {Logged[]} changes @returns {Logged[]} the last of each step
 */
function stepsOf(changes) {
  return changes.filter((change, at) => {
    const next = changes[at + 1];
    return !(next && change.gesture && next.gesture === change.gesture && next.does === "do" && change.does === "do");
  });
}

/** @param {Logged} change */
function wordsOf({ does, step }) {
  const words = step || "a change without a name";
  return does === "do" ? words : `${does}: ${words}`;
}

/** @param {string} at */
function timeOf(at) {
  const time = new Date(at);
  return Number.isNaN(time.valueOf()) ? at : time.toLocaleString([], { month: "short", day: "numeric", hour: "2-digit", minute: "2-digit" });
}
