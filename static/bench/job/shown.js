/**
 * What the server said last of this job, and the situation that is asked for. Nothing is worked out here.
 *
 * Emits `shown` when drawing and words have changed, `asked` when another call, switch or layout is chosen, and
 * `unanswered` when nothing came of that and what was shown still stands.
 * `words` are those with the edits that wait laid over; `said` is what the server has checked.
 */

import { Emitter } from "../shared/emitter.js";
import { CHANGES, EDITED } from "../views/names.js";
import { Run } from "../views/run.js";
import { Conditions } from "./conditions.js";
import { DocumentCopy } from "./document-copy.js";
import { changesOf, laidOver } from "./laid-over.js";

export class Shown extends Emitter {
  /** @param {HTMLElement} main */
  constructor(main) {
    super();
    this.main = main;
    this.job = main.dataset.job ?? "";
    this.layout = main.dataset.layout ?? "";
    this.revision = Number(main.dataset.revision);
    /** @type {import("./types.js").Words|null} */
    this.said = null;
    /**
     * Edits that wait; the outbox fills the list.
     * @type {import("./types.js").Entry[]}
     */
    this.edits = [];
    /** @type {import("./types.js").Changes} */
    this.changes = { conductors: new Map(), parts: new Map() };
    /** @type {import("./types.js").Words|null} */
    this.laid = null;
    /** The whole job, for whoever must take it away while the server is not there. */
    this.document = new DocumentCopy();
    this.drawing = "";
    /** The view that is asked for, and the one that the drawing is. */
    this.view = EDITED;
    this.drawn = EDITED;
    /** Whether a connection diagram shows what is inside the parts. */
    this.insides = false;
    /** The layout that was chosen to see changes from. */
    this.before = "";
    /** What happens in a timing chart. */
    this.run = new Run();
    /** @type {Map<string, string>} what each control asks for */
    this.calls = new Map();
    /** Weather and mains. */
    this.conditions = new Conditions();
    /** @type {Map<string, string>} switches that are not at rest */
    this.sets = new Map();
  }

  /** @returns {import("./types.js").Words} */
  get words() {
    if (!this.laid) throw new Error("nothing has been shown yet");
    return this.laid;
  }

  /** @returns {string} the query that asks for this layout in this situation, in the view that is looked at */
  get query() {
    const view = [["view", this.view], ...(this.view === "timing" ? this.runQuery : []), ...(this.view === CHANGES ? this.sinceQuery : [])];
    if (this.view === EDITED && this.insides) view.push(["insides", "yes"]);
    return new URLSearchParams([...this.situationQuery, ...view]).toString();
  }

  /** @returns {string[][]} */
  get situationQuery() {
    const calls = [...this.calls].filter(([part]) => this.mayAsk(part)).map(([part, call]) => ["call", `${part}=${call}`]);
    const sets = [...this.sets].filter(([name]) => this.mayAsk(name.split(".")[0])).map(([name, value]) => ["set", `${name}=${value}`]);
    return [["layout", this.layout], ...calls, ...sets, ...this.conditions.query];
  }

  /** @returns {string[][]} what happens in a timing chart */
  get runQuery() {
    return this.run.query([...this.calls.keys()].filter((part) => this.mayAsk(part)));
  }

  /** @returns {import("./types.js").Words["layouts"]} the layouts that changes can be seen from */
  get others() {
    return this.words.layouts.filter(({ id }) => id !== this.layout);
  }

  /** @returns {string} the layout that changes are seen from: the chosen one, else as found, else any; empty without others */
  get since() {
    const ids = this.others.map(({ id }) => id);
    return [this.before, "as-found", ...ids].find((id) => ids.includes(id)) ?? "";
  }

  /** @returns {string[][]} */
  get sinceQuery() {
    return this.since ? [["before", this.since]] : [];
  }

  /**
   * A control that was removed meanwhile cannot ask any more.
   * @param {string} part
   */
  mayAsk(part) {
    return !this.said || part in this.said.parts;
  }

  get address() {
    return `/api/jobs/${this.job}`;
  }

  /** Lay the edits that wait over what was said. */
  layOver() {
    if (!this.said) return;
    this.changes = changesOf(this.said, this.edits);
    this.laid = laidOver(this.said, this.changes);
  }

  /** Edits wait for a server that is away: show the job with them. */
  showEdits() {
    this.layOver();
    if (this.said) this.emit("shown", { words: this.words, before: this.said });
  }

  /**
   * What was changed elsewhere.
   * @param {number} revision @param {{revision: number, patch: import("./types.js").Operation[]}[]} changes
   */
  missed(revision, changes) {
    for (const change of changes) this.document.change(change.revision, change.patch);
    // A look at the job may have come first, and be of a newer one.
    this.revision = Math.max(revision, this.revision);
  }

  /** @param {import("./types.js").Shown} reply @param {import("./types.js").Operation[]} [operations] that led to it */
  take(reply, operations) {
    if (operations) this.document.change(reply.revision, operations);
    // The layout that is looked at was taken away: the page finds out by itself which one is meant now.
    if (!reply.drawing) return void location.reload();
    const before = this.said;
    this.revision = reply.revision;
    this.said = reply.words;
    this.layOver();
    this.drawing = reply.drawing;
    this.drawn = reply.view ?? EDITED;
    this.main.dataset.revision = String(reply.revision);
    this.main.dataset.layout = reply.words.layout;
    for (const part of this.calls.keys()) if (!(part in reply.words.parts)) this.calls.delete(part);
    this.emit("shown", { words: this.words, before });
  }

  /** @param {string} part @param {string} call empty for idle */
  ask(part, call) {
    if (call) this.calls.set(part, call);
    else this.calls.delete(part);
    this.emit("asked");
  }

  /** @param {string} name `part.switch` @param {string} value @param {string} rest */
  set(name, value, rest) {
    if (value === rest) this.sets.delete(name);
    else this.sets.set(name, value);
    this.emit("asked");
  }

  /** @param {string} layout */
  turnTo(layout) {
    this.layout = layout;
    this.calls.clear();
    this.sets.clear();
    this.conditions = new Conditions();
    this.emit("asked");
  }
}
