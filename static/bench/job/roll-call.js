/**
 * Which pages of this browser show the job now, so that edits of a page that is gone are found and sent by another.
 *
 * Rules of the file: a page that lives answers when it is called, also in the background, so no clock has to tell who
 * is gone; one that goes says so. Of several pages that find the same box, the one with the first name takes it. This
 * needs no secure context, so it holds on a plain address in the building too. Even where two pages hold one box (one
 * that was asleep wakes up), the key of each edit sees to it that the server applies it once.
 */

import { Emitter } from "../shared/emitter.js";

const ANSWER_MS = 700;
/** A page that was ended by force says nothing, so its box is looked for now and then. */
const AGAIN_MS = 10_000;

/** Emits `orphans` with names of boxes that are this page's to take, `taken` with those that another page has taken,
 *  `news` with a revision that another page knows. */
export class RollCall extends Emitter {
  /** @param {string} job @param {import("./boxes.js").Boxes} boxes */
  constructor(job, boxes) {
    super();
    this.boxes = boxes;
    this.channel = "BroadcastChannel" in globalThis ? new BroadcastChannel(`rungwright:${job}`) : null;
    this.channel?.addEventListener("message", ({ data }) => this.hear(data));
    /**
     * Who has answered the call that is out.
     * @type {Map<string, string[]>|null}
     */
    this.answers = null;
    addEventListener("pagehide", () => this.say({ gone: boxes.own }));
    addEventListener("pageshow", ({ persisted }) => persisted && location.reload());
    setInterval(() => this.call(), AGAIN_MS);
  }

  /** @param {object} words */
  say(words) {
    this.channel?.postMessage({ from: this.boxes.own, ...words });
  }

  /** @param {any} said */
  hear(said) {
    if (said.call) this.say({ here: [...this.boxes.held] });
    if (said.here) this.answers?.set(said.from, said.here);
    if (said.gone) this.call();
    if (said.take?.by === this.boxes.own) this.emit("orphans", said.take.boxes);
    if (said.taken) this.emit("taken", said.taken);
    if (said.revision) this.emit("news", said.revision);
  }

  /** Ask who is there, and hand out the boxes that nobody holds. */
  async call() {
    if (this.answers || this.boxes.others().length === 0) return;
    const answers = (this.answers = new Map());
    this.say({ call: true });
    await new Promise((done) => setTimeout(done, ANSWER_MS));
    this.answers = null;
    const held = new Set([...answers.values()].flat());
    const orphans = this.boxes.others().filter((box) => !held.has(box));
    if (orphans.length === 0) return;
    const [first] = [this.boxes.own, ...answers.keys()].sort();
    if (first === this.boxes.own) this.emit("orphans", orphans);
    else this.say({ take: { by: first, boxes: orphans } });
  }
}
