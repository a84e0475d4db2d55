/**
 * What is in hand: the start of a new conductor, or an end of one that is there. It survives panning, zooming and
 * opening a part; landing, *Put back* and Esc end it.
 */

import { Emitter } from "../shared/emitter.js";
import { heldWords, landing, swapping } from "../job/landing.js";
import { conductorOf, indexOf, pull, takeOff } from "../job/acts.js";

/** @typedef {import("../job/types.js").Held} Held */

export class InHand extends Emitter {
  /** @param {import("../bench.js").Bench} bench */
  constructor(bench) {
    super();
    this.bench = bench;
    /** @type {Held|null} */
    this.held = null;
    /** @type {"tap"|"drag"|"keys"} */
    this.by = "tap";
    /** @type {string|null} the screw under the pointer or the keyboard */
    this.target = null;
    /** Whether Shift is held while an end is dragged: then it changes places with what is landed. */
    this.shift = false;
  }

  /** @param {Held} held @param {"tap"|"drag"|"keys"} by */
  take(held, by) {
    this.held = held;
    this.by = by;
    this.shift = false;
    this.target = null;
    const words = heldWords(this.bench.shown.words, held);
    if (by !== "drag") this.bench.speech.say(held.sort === "start" ? words.replace("new conductor", "Pulling") + "." : `In hand: ${words}.`);
    this.emit("changed");
  }

  /** @param {boolean} shift */
  withShift(shift) {
    if (shift === this.shift) return;
    this.shift = shift;
    this.emit("target");
  }

  /** @param {string|null} terminal */
  over(terminal) {
    if (terminal === this.target) return;
    this.target = terminal;
    this.emit("target");
  }

  /** @param {string} terminal */
  land(terminal) {
    if (!this.held) return;
    const answer = landing(this.bench.shown.words, this.held, terminal);
    const focus = `terminal:${terminal}`;
    this.clear();
    if (answer.may) this.bench.submit({ ...answer.act, focus });
    else this.bench.speech.say(answer.words);
  }

  /**
   * Change places with an end that is landed.
   * @param {string} end
   */
  swap(end) {
    if (!this.held) return;
    const { words } = this.bench.shown;
    const answer = swapping(words, this.held, end);
    const there = words.conductors[conductorOf(end)]?.ends[indexOf(end)].terminal;
    this.clear();
    if (answer.may) this.bench.submit({ ...answer.act, focus: there ? `terminal:${there}` : undefined });
    else this.bench.speech.say(answer.words);
  }

  /** Leave the end where it hangs: a new conductor with an open end, or an end taken off its screw. */
  leaveOpen() {
    if (!this.held) return;
    const { words } = this.bench.shown;
    const act = this.held.sort === "start" ? pull(words, this.held.terminal, null) : takeOff(words, this.held.end);
    this.clear();
    this.bench.submit(act);
  }

  putBack() {
    if (!this.held) return;
    this.clear();
    this.bench.speech.say("Put back. Nothing changed.");
  }

  clear() {
    this.held = null;
    this.target = null;
    this.emit("changed");
  }
}
