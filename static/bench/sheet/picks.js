/** What is picked, by key. Picks drive the *Picked* region; focus is another matter. */

import { Emitter } from "../shared/emitter.js";

export class Picks extends Emitter {
  constructor() {
    super();
    /** @type {Set<string>} */
    this.keys = new Set();
  }

  /** @param {...string} keys */
  only(...keys) {
    this.keys = new Set(keys);
    this.emit("changed");
  }

  /** @param {string} key */
  toggle(key) {
    if (!this.keys.delete(key)) this.keys.add(key);
    this.emit("changed");
  }

  /** @param {string} key */
  has(key) {
    return this.keys.has(key);
  }

  /**
   * Forget what is no longer there.
   * @param {(key: string) => boolean} there
   */
  keepOnly(there) {
    const kept = [...this.keys].filter(there);
    if (kept.length !== this.keys.size) this.only(...kept);
  }

  /** @param {string} sort @returns {string[]} names of the picked things of this sort */
  names(sort) {
    return [...this.keys].filter((key) => key.startsWith(`${sort}:`)).map((key) => key.slice(sort.length + 1));
  }

  /**
   * The one thing that *Picked* tells of: the one picked last.
   * @returns {string|undefined}
   */
  get last() {
    return [...this.keys].at(-1);
  }
}
