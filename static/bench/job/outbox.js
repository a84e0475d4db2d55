/**
 * The one way by which edits leave the page: one at a time, in order, each with a key by which it is applied once.
 *
 * Rules of the file: an edit that could not be sent is kept on the device and sent again; one that is refused is
 * dropped and said. What has been changed elsewhere meanwhile stays, and ours goes on top of it if it still fits.
 * Emits `sending`, `saved`, `refused`, `away`, `failed`, `idle`, `full`, `gone`.
 */

import { Emitter } from "../shared/emitter.js";
import { newId, randomLetters } from "../shared/ids.js";
import { keep, recall } from "../shared/remember.js";
import { sendPatch } from "./requests.js";

const AGAIN_MS = 3000;

/** @typedef {import("./types.js").Act} Act */
/** @typedef {{operations: object[], key: string, step: string, gesture: string, does: "do"|"undo"|"redo",
 *   preview: {from: string, to: string}|null, spoken: string}} Entry */

export class Outbox extends Emitter {
  /** @param {import("./shown.js").Shown} shown */
  constructor(shown) {
    super();
    this.shown = shown;
    this.editor = recall("editor") ?? newId("e");
    keep("editor", this.editor);
    this.name = `outbox:${shown.job}`;
    /** @type {Entry[]} */
    this.entries = recall(this.name) ?? [];
    /** @type {Map<string, (done: boolean) => void>} */
    this.waiting = new Map();
    this.sending = false;
    /** How many edits elsewhere ours were put on top of since the outbox was empty. */
    this.missed = 0;
    /** @type {number|undefined} */
    this.timer = undefined;
    addEventListener("online", () => this.sendNext());
  }

  /** @param {Act} act @returns {Promise<boolean>} whether it was saved */
  submit(act) {
    const entry = {
      operations: act.operations,
      key: `${this.editor}-${Date.now().toString(36)}-${randomLetters(8)}`,
      step: act.step,
      gesture: act.gesture ?? newId("g"),
      does: act.does ?? "do",
      preview: act.preview ?? null,
      spoken: act.spoken ?? "",
    };
    this.entries.push(entry);
    if (!keep(this.name, this.entries) && this.away) {
      this.entries.pop();
      this.emit("full");
      return Promise.resolve(false);
    }
    const settled = new Promise((resolve) => this.waiting.set(entry.key, resolve));
    this.emit("queued", entry);
    this.sendNext();
    return settled;
  }

  get away() {
    return this.timer !== undefined;
  }

  async sendNext() {
    if (this.sending || this.entries.length === 0) return;
    this.sending = true;
    clearTimeout(this.timer);
    const entry = this.entries[0];
    this.emit("sending", { entry, again: this.away, count: this.entries.length });
    const address = `${this.shown.address}?${this.shown.query}`;
    const outcome = await sendPatch(address, entry, this.shown.revision, this.editor);
    this.sending = false;
    this.heard(entry, outcome);
  }

  /** @param {Entry} entry @param {import("./requests.js").Outcome} outcome */
  heard(entry, outcome) {
    if (outcome.sort === "away" || outcome.sort === "failed") {
      this.timer = setTimeout(() => this.sendNext(), AGAIN_MS);
      this.emit(outcome.sort, { outcome, count: this.entries.length });
      return;
    }
    this.timer = undefined;
    if (outcome.sort === "refused" && outcome.status === 412) {
      const missed = outcome.problem.missed ?? [];
      this.missed += missed.length;
      this.shown.revision = Math.max(this.shown.revision, ...missed.map((one) => one.revision));
      if (missed.length > 0) return void this.sendNext();
    }
    this.settle(entry, outcome);
  }

  /** Give up the edit that the server cannot answer, so that those behind it go out. */
  leaveOut() {
    const [entry] = this.entries;
    if (!entry || this.sending) return;
    clearTimeout(this.timer);
    this.timer = undefined;
    this.settle(entry, { sort: "refused", status: 0, problem: { detail: "it was left out." } });
  }

  /** @param {Entry} entry @param {any} outcome */
  settle(entry, outcome) {
    this.entries.shift();
    keep(this.name, this.entries.length > 0 ? this.entries : null);
    const saved = outcome.sort === "answer";
    if (saved) {
      const before = this.shown.said;
      this.shown.take(outcome.body);
      this.emit("saved", { entry, inverse: outcome.body.inverse, before, missed: this.missed });
    } else if (outcome.status === 404) {
      this.emit("gone");
    } else {
      this.emit("refused", { entry, problem: outcome.problem, missed: this.missed });
    }
    this.waiting.get(entry.key)?.(saved);
    this.waiting.delete(entry.key);
    if (this.entries.length > 0) this.sendNext();
    else {
      this.emit("idle", { saved, missed: this.missed });
      this.missed = 0;
    }
  }
}
