/**
 * Edits that wait to be checked, on the sheet: dotted lines and outlines, never heavy, never with arrows.
 *
 * Rules of the file: the server's drawing stays as it came; what an edit has moved is shifted on it and what it has
 * taken away is not shown, until the next drawing comes. The index follows, so that the next gesture starts from what
 * is seen.
 */

import { draw } from "../shared/dom.js";
import { partOf } from "../job/acts.js";
import { screenBox } from "./pick-marks.js";

/** @typedef {import("./things.js").Thing} Thing @typedef {import("../job/types.js").Point} Point */
/** @typedef {{from: Point, to: Point, open: Point[], words: string}} Line */

/** How far from its screw an end hangs that was taken off, in sheet units. */
const HANGS = 36;
/** @type {Record<string, number[]>} */
const OUTWARD = { left: [-1, 0], right: [1, 0], top: [0, -1], bottom: [0, 1] };
const UNCHECKED = "not checked yet";

/** @param {import("../bench.js").Bench} bench */
export function installPending(bench) {
  const { surface, outbox } = bench;
  const waiting = new Waiting(bench);
  surface.hand.add("pending", (group, view) => waiting.paint(group, view));
  const renew = () => {
    waiting.lay();
    surface.hand.refresh();
  };
  surface.on("swapped", () => waiting.lay(true));
  outbox.on("changed", renew);
  bench.showChecked = (checked) => {
    waiting.checked = checked;
    renew();
  };
}

class Waiting {
  /** @param {import("../bench.js").Bench} bench */
  constructor(bench) {
    this.bench = bench;
    /** Whether the last checked state is shown instead. */
    this.checked = false;
    /** @type {SVGElement[]} */
    this.marked = [];
    /** @type {Line[]} */
    this.lines = [];
    /** @type {{thing: Thing, words: string}[]} */
    this.outlines = [];
    /** @type {{at: Point, words: string}[]} */
    this.gone = [];
  }

  /**
   * Show the edits that wait on the drawing that is there.
   * @param {boolean} [fresh] whether it has just come
   */
  lay(fresh = false) {
    const { surface, shown } = this.bench;
    for (const node of this.marked) {
      node.removeAttribute("data-kept");
      node.removeAttribute("transform");
    }
    if (this.marked.length > 0 && !fresh) surface.read();
    Object.assign(this, { marked: [], lines: [], outlines: [], gone: [] });
    shown.layOver();
    if (surface.things.looking || this.checked) return;
    const { parts, conductors } = shown.changes;
    for (const [part, at] of parts) this.layPart(part, at);
    for (const [id, { ends, was }] of conductors) this.layConductor(id, ends, was, UNCHECKED);
    this.layAlong();
    surface.things.without(new Set(this.marked.filter((node) => node.dataset.kept === "gone")));
  }

  /** @param {string} part @param {[number, number]|null} at */
  layPart(part, at) {
    const { things } = this.bench.surface;
    const thing = things.get(`part:${part}`);
    if (!thing?.box) return;
    if (at === null) {
      this.gone.push({ at: thing.at, words: `removed, ${UNCHECKED}` });
      this.mark(thing.node, "gone");
      for (const screw of things.terminals) if (partOf(screw.name) === part) this.mark(screw.node, "gone");
      return;
    }
    const [dx, dy] = [at[0] - thing.box.x, at[1] - thing.box.y];
    for (const one of [thing, ...things.terminals.filter((screw) => partOf(screw.name) === part)]) {
      one.at = { x: one.at.x + dx, y: one.at.y + dy };
    }
    thing.box = { ...thing.box, x: at[0], y: at[1] };
    this.mark(thing.node, "moved");
    thing.node.setAttribute("transform", `translate(${dx} ${dy})`);
    this.outlines.push({ thing, words: UNCHECKED });
  }

  /** Conductors go along with parts that were moved. */
  layAlong() {
    const { surface, shown } = this.bench;
    const moved = shown.changes.parts;
    for (const { name } of surface.things.conductors) {
      const ends = shown.words.conductors[name]?.ends.map((end) => end.terminal);
      if (!ends || shown.changes.conductors.has(name)) continue;
      if (ends.some((end) => end && moved.has(partOf(end)))) this.layConductor(name, ends, ends, "");
    }
  }

  /** @param {string} id @param {any} ends @param {any} was @param {string} words */
  layConductor(id, ends, was, words) {
    const { things } = this.bench.surface;
    const thing = things.get(`conductor:${id}`);
    const own = [0, 1].map((index) => things.get(`end:${id}.${index}`));
    if (ends === null) {
      if (thing) this.gone.push({ at: middleOf(thing), words: `removed, ${words}` });
      for (const one of [thing, ...own]) if (one) this.mark(one.node, "gone");
      return;
    }
    const [from, to] = [0, 1].map((index) => this.placeOf(ends, was, index, own[index]));
    if (!from || !to) return;
    const places = [from, to];
    const open = places.filter((_, index) => typeof ends[index] !== "string");
    this.lines.push({ from, to, open, words });
    if (!thing) return;
    this.mark(thing.node, "off");
    Object.assign(thing, { path: [from, to], at: { x: (from.x + to.x) / 2, y: (from.y + to.y) / 2 } });
    own.forEach((end, index) => {
      if (!end) return;
      this.mark(end.node, "off");
      Object.assign(end, { at: places[index], landed: typeof ends[index] === "string" ? ends[index] : "" });
    });
  }

  /**
   * Where an end is: at its screw; where it hung before; or beside the screw that it came from, or that its other end
   * is on.
   * @param {any} ends @param {any} was @param {number} index @param {Thing|undefined} drawn @returns {Point|undefined}
   */
  placeOf(ends, was, index, drawn) {
    const { things } = this.bench.surface;
    const screw = typeof ends[index] === "string" ? things.get(`terminal:${ends[index]}`) : undefined;
    if (screw) return screw.at;
    const before = was?.[index];
    if (typeof before !== "string" && drawn) return drawn.at;
    const beside = things.get(`terminal:${typeof before === "string" ? before : ends[1 - index]}`);
    if (!beside) return undefined;
    const [dx, dy] = OUTWARD[beside.side ?? "right"] ?? [0, 1];
    return { x: beside.at.x + HANGS * dx, y: beside.at.y + HANGS * dy + (typeof before === "string" ? HANGS / 2 : 0) };
  }

  /** @param {SVGElement} node @param {"gone"|"off"|"moved"} how */
  mark(node, how) {
    node.dataset.kept = how;
    this.marked.push(node);
  }

  /** @param {SVGElement} group @param {import("./view.js").View} view */
  paint(group, view) {
    for (const { from, to, open, words } of this.lines) {
      const [a, b] = [view.toScreen(from), view.toScreen(to)];
      group.append(draw("line", { x1: a.x, y1: a.y, x2: b.x, y2: b.y, class: "mark-pulled" }));
      for (const at of open.map((point) => view.toScreen(point))) group.append(draw("circle", { cx: at.x, cy: at.y, r: 6, class: "mark-open-end" }));
      if (words) group.append(wordsAt({ x: (a.x + b.x) / 2, y: (a.y + b.y) / 2 - 6 }, words));
    }
    for (const { thing, words } of this.outlines) {
      const { x, y, w, h } = screenBox(thing, view);
      group.append(draw("rect", { x: x - 4, y: y - 4, width: w + 8, height: h + 8, class: "mark-outline" }));
      group.append(wordsAt({ x: x + w / 2, y: y - 10 }, words));
    }
    for (const { at, words } of this.gone) group.append(wordsAt(view.toScreen(at), words));
  }
}

/**
 * Along a conductor, away from its screws.
 * @param {Thing} thing @returns {Point}
 */
function middleOf({ path = [], at }) {
  const middle = (path.length - 1) / 2;
  const [a, b] = [path[Math.floor(middle)] ?? at, path[Math.ceil(middle)] ?? at];
  return { x: (a.x + b.x) / 2, y: (a.y + b.y) / 2 };
}

/** @param {Point} at @param {string} words */
const wordsAt = ({ x, y }, words) => draw("text", { x, y, class: "mark-words" }, words);
