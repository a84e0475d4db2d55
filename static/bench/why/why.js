/**
 * Why something runs or does not: which path is followed, and what the server said of it.
 *
 * Rules of the file: the path is worked out by the server for the situation that is shown, and asked for anew whenever
 * that changes. Emits `changed`.
 */

import { Emitter } from "../shared/emitter.js";
import { ask } from "../job/requests.js";

/** @typedef {{subject: string, verdict: string, title: string, because: string[], legs: {on: string, from: string, to: string}[],
 *   stop: {place: string, words: string}|null, steps: string[]}} Followed */

export class Why extends Emitter {
  /** @param {import("../bench.js").Bench} bench */
  constructor(bench) {
    super();
    this.bench = bench;
    /** @type {string|null} the effect that is asked about, `ou:compressor` */
    this.key = null;
    /** @type {Followed|null} */
    this.followed = null;
    this.number = 0;
  }

  /**
   * A second press leaves.
   * @param {string} key
   */
  toggle(key) {
    if (this.key === key) return this.leave();
    this.key = key;
    this.followed = null;
    return this.follow(true);
  }

  leave() {
    if (this.key === null) return;
    this.key = null;
    this.followed = null;
    this.number += 1;
    this.emit("changed", false);
  }

  /** @param {boolean} isNew whether somebody has just asked */
  async follow(isNew) {
    const mine = (this.number += 1);
    const query = new URLSearchParams([...this.bench.shown.situationQuery, ...this.bench.timeline.query, ["subject", this.key ?? ""]]);
    const outcome = await ask(`${this.bench.shown.address}/follow?${query}`);
    if (mine !== this.number) return;
    if (outcome.sort === "answer") this.followed = outcome.body;
    else if (outcome.sort === "refused" && outcome.status !== 404) return this.leave();
    else this.followed = null;
    this.emit("changed", isNew);
  }

  /** Another situation, or another wiring. */
  renew() {
    if (this.key !== null) this.follow(false);
  }
}
