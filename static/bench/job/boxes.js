/**
 * Edits that are kept on this device, in boxes: every page that shows the job has one of its own, so that two of them
 * never write over each other.
 *
 * Rules of the file: only the page that holds a box writes it; a box whose page is gone is held by another one, under
 * the name that it has. Storage may be full: then keeping answers false.
 */

import { keep, namesOf, recall } from "../shared/remember.js";

/** @typedef {import("./types.js").Entry} Entry */

export class Boxes {
  /** @param {string} job @param {string} own name of this page's box */
  constructor(job, own) {
    this.stem = `outbox:${job}`;
    this.own = own;
    /** The boxes that this page holds. */
    this.held = new Set([own]);
  }

  /** @param {string} own the name of a new box for what comes from now on */
  renew(own) {
    this.own = own;
    this.held.add(own);
  }

  /** @param {string} box */
  nameOf(box) {
    return `${this.stem}:${box}`;
  }

  /**
   * Names of all boxes of this job that hold something, and are not held by this page.
   * @returns {string[]}
   */
  others() {
    return namesOf(`${this.stem}:`).map((name) => name.slice(this.stem.length + 1)).filter((box) => !this.held.has(box));
  }

  /** @param {string} box @returns {Entry[]} what lies in it */
  read(box) {
    const found = recall(this.nameOf(box));
    return Array.isArray(found) ? found.map((entry) => ({ ...entry, box, kept: true })) : [];
  }

  /** @param {Entry} entry @returns {boolean} whether another page has not taken it out meanwhile */
  has(entry) {
    return this.read(entry.box).some((one) => one.key === entry.key);
  }

  /** @param {string} box @param {Entry[]} entries all of the page's, in order @returns {boolean} whether they are kept */
  write(box, entries) {
    const own = entries.filter((entry) => entry.box === box);
    return keep(this.nameOf(box), own.length > 0 ? own.map(({ box: _, kept: __, ...entry }) => entry) : null);
  }
}
