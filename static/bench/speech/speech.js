/**
 * What is said to those who listen. One polite status, the last message wins, at most one a second; the alert only
 * for a danger that this edit made.
 */

import { byId } from "../shared/dom.js";

/** @typedef {import("../job/types.js").Words} Words */

const APART_MS = 1000;

export class Speech {
  constructor() {
    this.status = byId("status");
    this.alert = byId("alert");
    this.spokenAt = -APART_MS;
    /** @type {number|undefined} */
    this.timer = undefined;
  }

  /** @param {string} words */
  say(words) {
    clearTimeout(this.timer);
    const wait = Math.max(0, this.spokenAt + APART_MS - performance.now());
    this.timer = setTimeout(() => {
      this.spokenAt = performance.now();
      this.status.textContent = words;
    }, wait);
  }

  /** @param {string} words */
  warn(words) {
    this.alert.textContent = words;
  }
}

/**
 * After a saved edit: what was done, what it did to the dangers, how many findings are left.
 * @param {string} spoken @param {Words} before @param {Words} after
 */
export function doneSentence(spoken, before, after) {
  const dangers = (/** @type {Words} */ words) => new Set(words.findings.filter((row) => row.severity === "danger").map((row) => row.key));
  const [was, now] = [dangers(before), dangers(after)];
  const made = [...now].filter((key) => !was.has(key)).length;
  const cleared = [...was].filter((key) => !now.has(key)).length;
  const left = after.findings.filter((row) => !row.folded && !row.aside).length;
  const words = [spoken];
  if (made > 0) words.push(made === 1 ? "New danger." : `${made} new dangers.`);
  else if (cleared > 0) words.push(cleared === 1 ? "Danger cleared." : `${cleared} dangers cleared.`);
  words.push(left === 1 ? "1 finding left." : `${left} findings left.`);
  return words.filter(Boolean).join(" ");
}

/** @param {import("../bench.js").Bench} bench */
export function installSpeech(bench) {
  bench.outbox.on("saved", (/** @type {{entry: import("../job/types.js").Entry, before: Words|null}} */ { entry, before }) => {
    const after = bench.shown.words;
    bench.speech.say(doneSentence(entry.spoken, before ?? after, after));
    const known = new Set((before ?? after).findings.map((row) => row.key));
    const made = after.findings.find((row) => row.severity === "danger" && !known.has(row.key));
    bench.speech.warn(made ? `Danger. ${made.message}` : "");
  });
}
