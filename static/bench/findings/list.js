/**
 * The order of findings that neither jumps nor nags.
 *
 * Rules of the file: numbers are given once and kept for the visit. While pointer or focus is in the list, rows keep
 * their places and new ones go to the end of their group; what is cleared stays, struck, until the next edit. What is
 * set aside stays in its place, and says so, until whoever did it has left the list.
 */

/** @typedef {import("../job/types.js").FindingRow} FindingRow */
/** @typedef {{row: FindingRow, number: number, isNew: boolean, cleared: boolean, below: boolean}} Line `below` where it
 *  is listed with those that are set aside */

export class FindingLines {
  constructor() {
    /** @type {Line[]} */
    this.lines = [];
    /** @type {Map<string, number>} */
    this.numbers = new Map();
    this.given = { danger: 0, warning: 0, note: 0 };
    this.first = true;
    /** @type {Map<string, number>} the server's order */
    this.order = new Map();
  }

  /**
   * @param {FindingRow[]} rows in the server's order @param {boolean} frozen
   * @param {string|null} [held] key of the row that somebody is at, which nothing may push away
   */
  update(rows, frozen, held = null) {
    this.order = new Map(rows.map((row, index) => [row.key, index]));
    const before = this.lines.filter((line) => !line.cleared);
    const known = new Set(before.map((line) => line.row.key));
    const now = new Map(rows.map((row) => [row.key, row]));
    const fresh = rows.filter((row) => !known.has(row.key)).map((row) => this.line(row, !this.first));
    const kept = before.map((line) => {
      const row = now.get(line.row.key);
      if (!row) return { ...line, isNew: false, cleared: true };
      return { ...line, row, isNew: false, below: frozen ? line.below : row.aside };
    });
    this.lines = frozen ? added(kept, fresh, held) : sorted(kept, fresh, this.order);
    this.first = false;
  }

  /**
   * Forget what is cleared, and list below what is set aside.
   * @returns {boolean} whether there was any
   */
  sweep() {
    const left = this.lines.filter((line) => !line.cleared);
    const changed = left.length !== this.lines.length || left.some((line) => line.below !== line.row.aside);
    const before = left.map((line) => line.row.key).join("\n");
    this.lines = sorted(left, [], this.order).map((line) => ({ ...line, below: line.row.aside }));
    return changed || this.lines.map((line) => line.row.key).join("\n") !== before;
  }

  /** @param {FindingRow} row @param {boolean} isNew @returns {Line} */
  line(row, isNew) {
    if (!this.numbers.has(row.key)) this.numbers.set(row.key, (this.given[row.severity] += 1));
    return { row, number: this.numbers.get(row.key) ?? 0, isNew, cleared: false, below: row.aside };
  }

  /** Rows that stand now and are not set aside, in the order in which they are shown. */
  get standing() {
    return this.lines.filter((line) => !line.cleared && !line.row.aside);
  }
}

const ORDER = ["danger", "warning", "note"];

/**
 * New rows go to the end of their group; where that lies above the row that somebody is at, to the end of the list.
 * @param {Line[]} kept @param {Line[]} fresh @param {string|null} held @returns {Line[]}
 */
function added(kept, fresh, held) {
  const lines = [...kept];
  for (const line of fresh) {
    const rank = ORDER.indexOf(line.row.severity);
    const after = lines.reduce((last, one, place) => (ORDER.indexOf(one.row.severity) <= rank ? place : last), -1);
    const at = lines.findIndex((one) => one.row.key === held);
    lines.splice(after < at ? lines.length : after + 1, 0, line);
  }
  return lines;
}

/**
 * The server's order; a cleared row stays behind the one that it stood behind.
 * @param {Line[]} kept @param {Line[]} fresh @param {Map<string, number>} place of each row in the server's order
 */
function sorted(kept, fresh, place) {
  const lines = [...kept.filter((line) => !line.cleared), ...fresh];
  lines.sort((a, b) => (place.get(a.row.key) ?? 0) - (place.get(b.row.key) ?? 0));
  kept.forEach((line, index) => {
    if (!line.cleared) return;
    const ahead = kept[index - 1];
    lines.splice(ahead ? lines.indexOf(ahead) + 1 : 0, 0, line);
  });
  return lines;
}
