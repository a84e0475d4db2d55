/** Readings that somebody took, kept on this device with what should have been read. */

import { keep, recall } from "../shared/remember.js";

const MOST = 50;

/** @typedef {{from: string, to: string, read: string, should: string, situation: string}} KeptReading */

export class KeptReadings {
  /** @param {string} job */
  constructor(job) {
    this.name = `readings:${job}`;
    /** @type {KeptReading[]} the newest first */
    this.all = recall(this.name) ?? [];
  }

  /** @param {KeptReading} reading @returns {boolean} whether it is kept */
  add(reading) {
    const all = [reading, ...this.all].slice(0, MOST);
    if (!keep(this.name, all)) return false;
    this.all = all;
    return true;
  }

  /** @param {number} index */
  remove(index) {
    this.all = this.all.filter((_, number) => number !== index);
    keep(this.name, this.all.length > 0 ? this.all : null);
  }
}
