/**
 * An index of what lies on the sheet, read from the data- attributes of the server's drawing after each swap.
 *
 * Rules of the file: a thing's key is `sort:name` (`part:fb`, `terminal:fb.R`, `conductor:w9`, `end:w9.1`); keys are
 * what outlives a swap, nodes are not.
 */

import { numbersIn, pathIn } from "./path.js";
import { readSpots } from "./spots.js";

/** @typedef {import("../job/types.js").Point} Point */
/** @typedef {{key: string, sort: "part"|"terminal"|"conductor"|"end", name: string, node: SVGElement, at: Point, pick?: string,
 *   box?: {x: number, y: number, w: number, h: number}, side?: string, path?: (Point & {gap?: boolean})[], landed?: string}} Thing */

export class Things {
  constructor() {
    /** @type {Map<string, Thing>} */
    this.byKey = new Map();
    /** @type {Thing[]} */
    this.parts = [];
    /** @type {Thing[]} */
    this.terminals = [];
    /** @type {Thing[]} */
    this.conductors = [];
    /** @type {Thing[]} */
    this.ends = [];
    /** Whether the drawing is only looked at; then all that lies on it are `spots`. */
    this.looking = false;
    /** @type {Thing[]} */
    this.spots = [];
  }

  /** @param {SVGSVGElement|null} drawing @param {boolean} looking */
  read(drawing, looking) {
    this.byKey.clear();
    this.looking = looking;
    this.spots = looking ? readSpots(drawing) : [];
    for (const spot of this.spots) this.byKey.set(spot.key, spot);
    if (looking) return void (this.parts = this.terminals = this.conductors = this.ends = []);
    this.parts = this.collect(drawing, "part", "[data-part][data-box]", readPart);
    this.terminals = this.collect(drawing, "terminal", "[data-terminal][data-x]", readPoint);
    this.conductors = this.collect(drawing, "conductor", "[data-conductor][data-path]", pathIn);
    this.ends = this.collect(drawing, "end", "[data-end][data-x]", readPoint);
  }

  /**
   * @param {SVGSVGElement|null} drawing @param {Thing["sort"]} sort @param {string} selector
   * @param {(node: SVGElement) => Partial<Thing>} read @returns {Thing[]}
   */
  collect(drawing, sort, selector, read) {
    const found = [];
    for (const node of /** @type {NodeListOf<SVGElement>} */ (drawing?.querySelectorAll(selector) ?? [])) {
      const name = node.dataset[sort] ?? "";
      const thing = /** @type {Thing} */ ({ key: `${sort}:${name}`, sort, name, node, ...read(node) });
      this.byKey.set(thing.key, thing);
      found.push(thing);
    }
    return found;
  }

  /**
   * What an edit that waits has taken away cannot be got hold of.
   * @param {Set<SVGElement>} nodes
   */
  without(nodes) {
    if (nodes.size === 0) return;
    const stays = (/** @type {Thing} */ thing) => !nodes.has(thing.node);
    for (const thing of [...this.byKey.values()]) if (!stays(thing)) this.byKey.delete(thing.key);
    for (const sort of /** @type {const} */ (["parts", "terminals", "conductors", "ends"])) this[sort] = this[sort].filter(stays);
  }

  /** @param {string|null|undefined} key @returns {Thing|undefined} */
  get(key) {
    return key ? this.byKey.get(key) : undefined;
  }

  /**
   * Every place at which what is picked lies.
   * @param {string|undefined} key @returns {Thing[]}
   */
  all(key) {
    if (this.looking) return this.spots.filter((spot) => spot.pick === key);
    const thing = this.get(key);
    return thing ? [thing] : [];
  }

  /**
   * Everything that can be focused.
   * @returns {Thing[]}
   */
  get everything() {
    return this.looking ? this.spots : [...this.parts, ...this.terminals, ...this.conductors, ...this.openEnds];
  }

  /**
   * Where the keyboard comes onto the sheet.
   * @returns {Thing|undefined}
   */
  get first() {
    return this.looking ? this.spots[0] : this.parts[0];
  }

  /** Ends that are landed nowhere: they can be picked, focused and taken in hand by themselves. */
  get openEnds() {
    return this.ends.filter((end) => !end.landed);
  }

  /**
   * Where a subject string of a finding lies.
   * @param {string} subject @returns {Thing|undefined}
   */
  ofSubject(subject) {
    if (subject.startsWith("element:")) return this.get(`part:${subject.slice(8).split(".")[0]}`);
    return this.get(subject);
  }
}

/** @param {SVGElement} node */
function readPart(node) {
  const [x, y, w, h] = numbersIn(node.dataset.box);
  return { box: { x, y, w, h }, at: { x: x + w / 2, y: y + h / 2 } };
}

/** @param {SVGElement} node */
function readPoint(node) {
  const at = { x: Number(node.dataset.x), y: Number(node.dataset.y) };
  return { at, side: node.dataset.side, landed: node.dataset.landed };
}
