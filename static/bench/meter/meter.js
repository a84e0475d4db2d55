/**
 * The meter: two probes on two screws, and what it should read there.
 *
 * Rules of the file: probes go to P1, then P2, then P1 again. What should be read is the server's word for the situation
 * that is shown, asked for anew whenever that changes. Emits `changed`.
 */

import { Emitter } from "../shared/emitter.js";
import { nameOf } from "../job/acts.js";
import { ask } from "../job/requests.js";

const AWAY = "Prediction needs the server.";
const LIVE = "Not read: resistance is measured with the power off. Press Power off, prove it dead, and lift one end where ways lie beside each other.";

export class Meter extends Emitter {
  /** @param {import("../bench.js").Bench} bench */
  constructor(bench) {
    super();
    this.bench = bench;
    this.isOn = false;
    /**
     * Screws, P1 and P2.
     * @type {(string|null)[]}
     */
    this.probes = [null, null];
    this.next = 0;
    this.sort = "ideal";
    /** What should be read, in words. */
    this.words = "";
    /** Whether the words are those of the server. */
    this.known = false;
    this.number = 0;
  }

  /** @param {boolean} on */
  turn(on) {
    this.isOn = on;
    if (!on) this.lift();
    this.emit("changed");
  }

  lift() {
    this.probes = [null, null];
    this.next = 0;
    this.words = "";
    this.known = false;
    this.number += 1;
    this.emit("changed");
  }

  /**
   * Hold the next probe on a screw.
   * @param {string} terminal
   */
  probe(terminal) {
    this.isOn = true;
    this.probes[this.next] = terminal;
    this.next = 1 - this.next;
    return this.read(true);
  }

  /** @param {string} sort `ideal`, `high`, `low` or `ohms` */
  choose(sort) {
    this.sort = sort;
    return this.read(true);
  }

  /** @param {boolean} spoken */
  async read(spoken) {
    const { shown, speech } = this.bench;
    const [a, b] = this.probes;
    const mine = (this.number += 1);
    this.known = false;
    if (!a || !b) {
      this.words = "";
      this.emit("changed");
      if (spoken && a) speech.say(`P1 on ${nameOf(shown.words, a)}.`);
      return;
    }
    const query = new URLSearchParams([...shown.situationQuery, ...this.bench.timeline.query, ["a", a], ["b", b], ["meter", this.sort]]);
    const outcome = await ask(`${shown.address}/read?${query}`);
    if (mine !== this.number) return;
    this.known = outcome.sort === "answer";
    if (outcome.sort === "answer") this.words = outcome.body.words;
    else if (outcome.sort === "refused") this.words = outcome.problem.code === "power-on" ? LIVE : `Not read: ${outcome.problem.detail}`;
    else this.words = AWAY;
    this.emit("changed");
    if (spoken) speech.say(this.sentence);
  }

  /** `P1 R, furnace board, to P2 C, furnace board: 26.1 V should read.` */
  get sentence() {
    const { words } = this.bench.shown;
    const [a, b] = this.probes;
    if (!a || !b) return a ? `P1 ${nameOf(words, a)}. Now P2.` : "";
    return `P1 ${nameOf(words, a)}, to P2 ${nameOf(words, b)}: ${this.words}`;
  }

  /** What is probed may be gone, or stand otherwise. */
  renew() {
    const there = (/** @type {string|null} */ terminal) => terminal !== null && nameOf(this.bench.shown.words, terminal) !== terminal;
    if (this.probes.some((terminal) => terminal !== null && !there(terminal))) return this.lift();
    return this.read(false);
  }
}
