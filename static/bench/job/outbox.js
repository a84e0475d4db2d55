/**
 * The one way by which edits leave the page: one at a time, in order, each with a key by which it is applied once.
 *
 * Rules of the file: an edit that could not be sent is kept on the device and sent again; one that is refused is
 * dropped and said. What has been changed elsewhere meanwhile stays, and ours goes on top of it if it still fits.
 * Emits `queued`, `sending`, `saved`, `refused`, `away`, `failed`, `locked`, `idle` (with what came of all edits since
 * the one before), `full`, `gone`, `behind` where what is shown is old, and `changed` whenever something else waits.
 */

import { Emitter } from "../shared/emitter.js";
import { newId, randomLetters } from "../shared/ids.js";
import { keep, recall } from "../shared/remember.js";
import { Batch } from "./batch.js";
import { Boxes } from "./boxes.js";
import { sendPatch } from "./requests.js";
import { fitRoom, touchesRoom } from "./room.js";
import { RollCall } from "./roll-call.js";

const AGAIN_MS = 3000;
const DOUBT_MS = 500;
const LOCKED = new Set([401, 429]);

/** @typedef {import("./types.js").Act} Act @typedef {import("./types.js").Entry} Entry */
/** @typedef {import("./requests.js").Outcome} Outcome */

export class Outbox extends Emitter {
  /** @param {import("./shown.js").Shown} shown */
  constructor(shown) {
    super();
    this.shown = shown;
    this.editor = recall("editor") ?? newId("e");
    keep("editor", this.editor);
    this.boxes = new Boxes(shown.job, newId("b"));
    this.rollCall = new RollCall(shown.job, this.boxes);
    this.rollCall.on("orphans", (boxes) => this.adopt(boxes));
    this.rollCall.on("taken", (boxes) => this.handOver(boxes));
    /** @type {Entry[]} */
    this.entries = [];
    shown.edits = this.entries;
    /** @type {Map<string, (done: boolean) => void>} */
    this.waiting = new Map();
    this.sending = false;
    /** Whether the server gave no answer when it was asked last. */
    this.away = false;
    this.batch = new Batch();
    /** @type {number|undefined} */
    this.timer = undefined;
    addEventListener("online", () => this.sendNext());
    addEventListener("beforeunload", (event) => this.entries.some((one) => !one.kept) && event.preventDefault());
  }

  /** What waits, without what is taken back. */
  get count() {
    return this.entries.filter((one) => !one.takenBack).length;
  }

  /** @param {Act} act @returns {Promise<boolean>} whether it was saved */
  submit(act) {
    const entry = this.entryOf(act);
    this.entries.push(entry);
    if (!this.keepAll(entry.box) && this.away) {
      this.entries.pop();
      this.emit("full");
      return Promise.resolve(false);
    }
    const settled = new Promise((resolve) => this.waiting.set(entry.key, resolve));
    this.batch.total += 1;
    this.emit("queued", entry);
    this.emit("changed");
    this.sendNext();
    return settled;
  }

  /** @param {Act} act @returns {Entry} */
  entryOf(act) {
    const at = Date.now();
    return {
      operations: act.operations,
      key: `${this.editor}-${at.toString(36)}-${randomLetters(8)}`,
      step: act.step,
      gesture: act.gesture ?? newId("g"),
      does: act.does ?? "do",
      spoken: act.spoken ?? "",
      at,
      box: this.boxes.own,
      kept: false,
    };
  }

  /** @param {string} box @returns {boolean} whether everything in it is kept */
  keepAll(box) {
    const done = this.boxes.write(box, this.entries);
    if (done) for (const one of this.entries) if (one.box === box) one.kept = true;
    return done;
  }

  /** Undo an edit that waits. Nobody knows whether one that was sent has arrived, so that one is taken back afterwards.
   *  @returns {Entry|undefined} */
  takeBack() {
    const entry = this.entries.findLast((one) => !one.takenBack);
    if (!entry || entry.does !== "do") return undefined;
    if (entry.tried) entry.takenBack = true;
    else this.entries.splice(this.entries.indexOf(entry), 1);
    this.batch.total -= 1;
    this.keepAll(entry.box);
    this.emit("changed");
    if (!entry.tried) this.answer(entry, false);
    return entry;
  }

  /**
   * Edits of pages that are gone.
   * @param {string[]} boxes
   */
  adopt(boxes) {
    const found = boxes.filter((box) => !this.boxes.held.has(box));
    if (found.length === 0) return;
    for (const box of found) this.boxes.held.add(box);
    this.rollCall.say({ taken: found });
    const others = found.flatMap((box) => this.boxes.read(box));
    const first = this.sending ? this.entries.splice(0, 1) : [];
    const rest = [...this.entries.splice(0), ...others].sort((a, b) => a.at - b.at);
    this.entries.push(...first, ...rest);
    this.batch.total += others.filter((one) => !one.takenBack).length;
    this.emit("changed");
    this.sendNext();
  }

  /**
   * Another page thought that this one was gone, and has its edits now.
   * @param {string[]} boxes
   */
  handOver(boxes) {
    for (const entry of this.entries.filter((one) => boxes.includes(one.box))) this.drop(entry);
    for (const box of boxes) this.boxes.held.delete(box);
    if (boxes.includes(this.boxes.own)) this.boxes.renew(newId("b"));
  }

  /** @param {Entry} entry it is another page's now */
  drop(entry) {
    this.entries.splice(this.entries.indexOf(entry), 1);
    this.batch.total -= 1;
    this.answer(entry, false);
    this.emit("changed");
  }

  async sendNext() {
    const [entry] = this.entries;
    if (this.sending || !entry) return;
    if (entry.kept && !entry.doubted && !this.boxes.has(entry)) {
      // Another page may have taken the box while this one was asleep; its word of that is then on its way.
      entry.doubted = true;
      return void setTimeout(() => this.sendNext(), DOUBT_MS);
    }
    this.sending = true;
    clearTimeout(this.timer);
    entry.tried = true;
    entry.sent ??= await this.fitted(entry);
    this.keepAll(entry.box);
    this.emit("sending", { entry, again: this.away, count: this.count });
    const { outcome, over } = await this.send(entry);
    this.sending = false;
    this.heard(entry, outcome, over);
  }

  /**
   * What is looked at may have been taken away elsewhere, which must not keep an edit from being made: after changes
   * from elsewhere, one that is refused is sent once more without it.
   * @param {Entry} entry @returns {Promise<{outcome: Outcome, over: number}>} and the revision that it was put over
   */
  async send(entry) {
    const { shown } = this;
    const first = await this.sendOver(entry, shown.query);
    const inDoubt = first.outcome.sort === "refused" && first.outcome.status === 422 && this.batch.missed.length > 0;
    return inDoubt ? this.sendOver(entry, new URLSearchParams({ layout: shown.layout }).toString()) : first;
  }

  /**
   * What is shown may move on while the edit is under way, so the revision is kept that went with it.
   * @param {Entry} entry @param {string} query
   */
  async sendOver(entry, query) {
    const { address, revision: over } = this.shown;
    return { outcome: await sendPatch(`${address}?${query}`, { ...entry, operations: entry.sent ?? entry.operations }, over, this.editor), over };
  }

  /**
   * What of an edit that makes room for something, or takes room away, still may be done. Once sent it stays so until
   * the server says that it has not come in, because it may have.
   * @param {Entry} entry @returns {Promise<import("./types.js").Operation[]|undefined>} none where all of it may
   */
  async fitted({ operations }) {
    if (!touchesRoom(operations)) return undefined;
    const { document, address, revision } = this.shown;
    if (!document.isAt(revision)) await document.fetch(address);
    return document.document ? fitRoom(operations, document.document) : undefined;
  }

  /** @param {Entry} entry @param {Outcome} outcome @param {number} over the revision that it was put over */
  heard(entry, outcome, over) {
    const locked = outcome.sort === "refused" && LOCKED.has(outcome.status);
    if (outcome.sort === "away" || outcome.sort === "failed" || locked) {
      this.timer = setTimeout(() => this.sendNext(), AGAIN_MS);
      const first = !this.away;
      this.away = true;
      this.batch.away = true;
      const kept = this.entries.every((one) => one.kept);
      this.emit(kept ? (locked ? "locked" : outcome.sort) : "full", { outcome, count: this.count });
      if (first) this.emit("changed");
      return;
    }
    this.away = false;
    if (outcome.sort === "refused" && outcome.status === 412) {
      const { missed = [], revision } = outcome.problem;
      const news = revision !== over;
      this.batch.missed.push(...missed);
      this.shown.missed(revision, missed);
      delete entry.sent;
      if (news) return void this.sendNext();
    }
    this.settle(entry, outcome);
  }

  /** Give up the edit that the server cannot answer, so that those behind it go out. */
  leaveOut() {
    const [entry] = this.entries;
    if (!entry || this.sending) return;
    clearTimeout(this.timer);
    this.away = false;
    this.settle(entry, { sort: "refused", status: 0, problem: { detail: "it was left out." } });
  }

  /** @param {Entry} entry @param {any} outcome */
  settle(entry, outcome) {
    const at = this.entries.indexOf(entry);
    if (at >= 0) this.entries.splice(at, 1);
    const saved = outcome.sort === "answer";
    if (saved && entry.takenBack) this.entries.unshift(this.undoOf(entry, outcome.body.inverse));
    this.keepAll(entry.box);
    if (saved) {
      const before = this.shown.said;
      // An edit whose first answer was lost is answered as it was then; more may have come since.
      if (outcome.body.revision < this.shown.revision) this.emit("behind");
      else this.shown.take(outcome.body, entry.sent ?? entry.operations);
      this.emit("saved", { entry, inverse: outcome.body.inverse, revision: outcome.body.revision, before });
      this.rollCall.say({ revision: outcome.body.revision });
    } else if (outcome.status === 404) {
      this.emit("gone");
    } else if (!entry.takenBack) {
      this.batch.refused.push({ entry, problem: outcome.problem });
      this.emit("refused", { entry, problem: outcome.problem });
    }
    this.emit("changed");
    this.answer(entry, saved);
    if (this.entries.length > 0) return void this.sendNext();
    const { batch } = this;
    this.batch = new Batch();
    this.emit("idle", { saved, batch });
  }

  /** @param {Entry} entry @param {import("./types.js").Operation[]} inverse @returns {Entry} */
  undoOf(entry, inverse) {
    const { step, gesture, box } = entry;
    return { ...this.entryOf({ operations: inverse, step, gesture, does: "undo" }), at: entry.at, box };
  }

  /** @param {Entry} entry @param {boolean} saved */
  answer(entry, saved) {
    this.waiting.get(entry.key)?.(saved);
    this.waiting.delete(entry.key);
  }
}
