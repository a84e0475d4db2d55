/**
 * What the server said last of this job, and the situation that is asked for. Nothing is worked out here.
 *
 * Emits `shown` when drawing and words have changed, and `asked` when another call, switch or layout is chosen.
 */

import { Emitter } from "../shared/emitter.js";

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
    this.drawing = "";
    /** @type {Map<string, string>} what each control asks for */
    this.calls = new Map();
    /** @type {Map<string, string>} switches that are not at rest */
    this.sets = new Map();
  }

  /** @returns {import("./types.js").Words} */
  get words() {
    if (!this.said) throw new Error("nothing has been shown yet");
    return this.said;
  }

  /** @returns {string} the query that asks for this layout in this situation */
  get query() {
    const query = new URLSearchParams({ layout: this.layout, view: "connection" });
    for (const [part, call] of this.calls) if (this.mayAsk(part)) query.append("call", `${part}=${call}`);
    for (const [name, value] of this.sets) if (this.mayAsk(name.split(".")[0])) query.append("set", `${name}=${value}`);
    return query.toString();
  }

  /** A control that was removed meanwhile cannot ask any more. @param {string} part */
  mayAsk(part) {
    return !this.said || part in this.said.parts;
  }

  get address() {
    return `/api/jobs/${this.job}`;
  }

  /** @param {import("./types.js").Shown} reply */
  take(reply) {
    // The layout that is looked at was taken away: the page finds out by itself which one is meant now.
    if (!reply.drawing) return void location.reload();
    const before = this.said;
    this.revision = reply.revision;
    this.said = reply.words;
    this.drawing = reply.drawing;
    this.main.dataset.revision = String(reply.revision);
    this.main.dataset.layout = reply.words.layout;
    for (const part of this.calls.keys()) if (!(part in reply.words.parts)) this.calls.delete(part);
    this.emit("shown", { words: reply.words, before });
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
    this.emit("asked");
  }
}
