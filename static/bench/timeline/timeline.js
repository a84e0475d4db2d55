/**
 * The time line: the sheet shows one moment of what happens in a run, and the time is dragged or stepped through.
 *
 * Rules of the file: the server works out the run, which is that of the timing chart, and the moment. One question is
 * under way at a time; of those that come meanwhile the last one counts. Emits `changed`.
 */

import { Emitter } from "../shared/emitter.js";
import { ask } from "../job/requests.js";
import { EDITED } from "../views/index.js";

/** @typedef {{at_s: number, words: string}} Happened */

const SHOWN_IN = new Set([EDITED, "ladder"]);

export class Timeline extends Emitter {
  /** @param {import("../bench.js").Bench} bench */
  constructor(bench) {
    super();
    this.bench = bench;
    this.isOn = false;
    /** Seconds from the beginning. */
    this.time = 0;
    this.clock = "0:00";
    /** @type {Happened[]} all that happens in the run */
    this.events = [];
    this.ends = "";
    this.isAway = false;
    this.isTaking = false;
    this.asking = false;
    this.again = false;
  }

  /**
   * Whether a view shows a moment.
   * @param {string} view
   */
  shows(view) {
    return SHOWN_IN.has(view);
  }

  /** How long the run is looked at, in seconds. */
  get lasts() {
    return this.bench.shown.run.lasts;
  }

  /**
   * What a question about this moment says beside the situation; nothing while the time line is away.
   * @returns {string[][]}
   */
  get query() {
    return this.isOn ? [...this.bench.shown.runQuery, ["time", String(this.time)]] : [];
  }

  /** What has happened until now. */
  get past() {
    return this.events.filter((event) => event.at_s <= this.time);
  }

  /** @param {boolean} on */
  turn(on) {
    this.isOn = on;
    this.time = 0;
    this.emit("changed");
    const { shown, views } = this.bench;
    if (!on) return shown.emit("asked");
    if (!SHOWN_IN.has(shown.view)) return views.turnTo(EDITED);
    return this.show();
  }

  /** @param {number} time */
  go(time) {
    this.time = Math.min(this.lasts, Math.max(0, time));
    this.emit("changed");
    return this.show();
  }

  /**
   * To the next instant at which something happens, or the one before.
   * @param {1|-1} by
   */
  step(by) {
    const instants = [0, ...this.events.map((event) => event.at_s), this.lasts];
    const next = by > 0 ? instants.find((at) => at > this.time) : instants.filter((at) => at < this.time).pop();
    if (next !== undefined) this.go(next);
  }

  /** @returns {Promise<void>} */
  async show() {
    if (this.asking) return void (this.again = true);
    this.asking = true;
    const { shown } = this.bench;
    const view = [["view", SHOWN_IN.has(shown.view) ? shown.view : EDITED], ...(shown.insides && shown.view === EDITED ? [["insides", "yes"]] : [])];
    const query = new URLSearchParams([...shown.situationQuery, ...this.query, ...view]);
    const outcome = await ask(`${shown.address}/moment?${query}`);
    this.asking = false;
    if (!this.isOn) return;
    if (this.again) {
      this.again = false;
      return void this.show();
    }
    this.isAway = outcome.sort !== "answer";
    if (outcome.sort === "answer") this.take(outcome.body);
    this.emit("changed");
  }

  /** @param {any} moment */
  take(moment) {
    Object.assign(this, { clock: moment.clock, events: moment.events, ends: moment.ends });
    this.isTaking = true;
    this.bench.shown.take(moment);
    this.isTaking = false;
  }
}
