/**
 * Warnings of one rule about many things stand in the list as one row that names them all and opens to a row for each.
 *
 * Rules of the file: a danger always stands by itself. While somebody is in the list nothing is gathered and nothing
 * let go, so that no row moves under a hand; each warning keeps its own row, number and acts.
 */

import { make } from "../shared/dom.js";
import { refill } from "../rows/index.js";
import { mark } from "./row.js";

/** @typedef {import("./list.js").Line} Line @typedef {{rule: string, lines: Line[]}} Together */

const MANY = 3;
/** So many things are named before the rest is counted. */
const NAMED = 4;

export class Gathered {
  constructor() {
    /** @type {Set<string>} the rules whose warnings are gathered */
    this.rules = new Set();
    /** @type {Map<string, HTMLElement>} */
    this.nodes = new Map();
  }

  /**
   * @param {Line[]} lines in their order @param {boolean} frozen @returns {(Line|Together)[]} each rule that is gathered
   *   at the place of its first warning
   */
  order(lines, frozen) {
    if (!frozen) this.rules = rulesOfMany(lines, this.rules);
    /** @type {Map<string, Together>} */
    const groups = new Map();
    /** @type {(Line|Together)[]} */
    const order = [];
    for (const line of lines) {
      const { rule, severity } = line.row;
      const gathered = severity === "warning" && this.rules.has(rule);
      const group = gathered ? groups.get(rule) : undefined;
      if (group) {
        group.lines.push(line);
        continue;
      }
      const begun = { rule, lines: [line] };
      if (gathered) groups.set(rule, begun);
      order.push(gathered ? begun : line);
    }
    return order;
  }

  /**
   * The row that stands for all of them; it stays the same for as long as they are gathered.
   * @param {Together} together @returns {{node: HTMLElement, list: HTMLElement}}
   */
  row({ rule, lines }) {
    const node = this.nodes.get(rule) ?? opening(rule);
    this.nodes.set(rule, node);
    refill(/** @type {HTMLElement} */ (node.querySelector(".gathered-words")), words(lines));
    return { node, list: /** @type {HTMLElement} */ (node.querySelector(".finding-rows")) };
  }
}

/**
 * What was gathered stays so until one is left.
 * @param {Line[]} lines @param {Set<string>} before
 */
function rulesOfMany(lines, before) {
  /** @type {Map<string, number>} */
  const counts = new Map();
  for (const { row, cleared } of lines) if (row.severity === "warning" && !cleared) counts.set(row.rule, (counts.get(row.rule) ?? 0) + 1);
  return new Set([...counts].filter(([rule, count]) => count >= (before.has(rule) ? 2 : MANY)).map(([rule]) => rule));
}

/** @param {string} rule */
function opening(rule) {
  const summary = make("summary", { "data-f": `${rule}:gathered` }, make("span", { class: "gathered-words" }));
  return make("li", { class: "gathered", "data-gathered": rule }, make("details", {}, summary, make("ol", { class: "finding-rows" })));
}

/** @param {Line[]} lines @returns {(Node|string)[]} */
function words(lines) {
  const standing = lines.filter(({ cleared }) => !cleared);
  const names = [...new Set(standing.map(({ row }) => row.subject_words[0] ?? row.title))];
  const named = names.length > NAMED + 1 ? [...names.slice(0, NAMED), `${names.length - NAMED} more`] : names;
  // The name of a screw has a comma in it.
  const said = named.join(names.some((name) => name.includes(",")) ? "; " : ", ");
  const news = standing.some(({ isNew }) => isNew) ? " new" : "";
  return [
    make("span", { class: "gathered-marks" }, ...standing.map(({ row, number }) => mark(row.severity, number))),
    make("span", { class: "unseen" }, `${standing.length} warnings. `),
    make("span", { class: "message" }, `${lines[0].row.title}: ${said}`),
    ...(news ? [make("span", { class: "word" }, news)] : []),
  ];
}
