/**
 * What can be picked in a view that is only looked at: whatever carries the hook of a screw, a conductor or a part,
 * where it stands on the sheet.
 *
 * Rules of the file: one thing may stand at several places (a conductor on two rungs); each place has a key of its own,
 * `terminal:fb.R` and `terminal:fb.R#2`, and all of them mean the same pick.
 */

import { nearestOn } from "./geometry.js";
import { pathIn } from "./path.js";

/** @typedef {import("./things.js").Thing} Thing @typedef {import("../job/types.js").Point} Point */

const HOOKS = "[data-terminal], [data-conductor], [data-part], [data-element], [data-row], [data-changed]";
/** The short line at the screw that an end came off belongs to the wire that it was. */
const OLD_SCREW = /\.was\.\d$/;
/** Rows are wide; where one is brought into sight, its beginning is. */
const BEGINNING = 80;

/** @param {SVGSVGElement|null} drawing must be on the screen, or nothing has a size @returns {Thing[]} */
export function readSpots(drawing) {
  /** @type {Map<string, number>} */
  const counts = new Map();
  const spots = [];
  for (const node of /** @type {NodeListOf<SVGGElement>} */ (drawing?.querySelectorAll(HOOKS) ?? [])) {
    const named = namedIn(node.dataset);
    const { x, y, width: w, height: h } = node.getBBox();
    if (!named || (w === 0 && h === 0)) continue;
    const pick = `${named.sort}:${named.name}`;
    const number = (counts.get(pick) ?? 0) + 1;
    counts.set(pick, number);
    const key = number === 1 ? pick : `${pick}#${number}`;
    // A line that is drawn in full is meant where it runs, not all around it.
    const line = node.dataset.path ? pathIn(node) : {};
    spots.push({ ...named, key, pick, node, box: { x, y, w, h }, at: middleOf(node, { x, y, w, h }), ...line });
  }
  return spots;
}

/**
 * Elements, and what moves in a chart, are picked as the part that they are in.
 * @param {DOMStringMap} hooks
 */
function namedIn({ terminal, conductor, part, element, row, changed }) {
  if (changed) return namedInList(changed);
  if (terminal) return { sort: /** @type {const} */ ("terminal"), name: terminal };
  if (conductor) return { sort: /** @type {const} */ ("conductor"), name: conductor.replace(OLD_SCREW, "") };
  const [owner] = part ? [part] : /^[a-z][a-z0-9_-]*(?=\.)/.exec(element ?? row ?? "") ?? [];
  return owner ? { sort: /** @type {const} */ ("part"), name: owner } : null;
}

/**
 * A row of the list of changes; a cable is not picked.
 * @param {string} changed such as `wire:w7`
 */
function namedInList(changed) {
  const [what, name] = [changed.slice(0, changed.indexOf(":")), changed.slice(changed.indexOf(":") + 1)];
  if (what === "wire") return { sort: /** @type {const} */ ("conductor"), name };
  return what === "part" ? { sort: /** @type {const} */ ("part"), name } : null;
}

/** @param {SVGGElement} node @param {{x: number, y: number, w: number, h: number}} box @returns {Point} */
function middleOf(node, { x, y, w, h }) {
  const screw = node.querySelector(":scope > circle");
  if (screw) return { x: Number(screw.getAttribute("cx")), y: Number(screw.getAttribute("cy")) };
  return { x: x + Math.min(w / 2, BEGINNING), y: y + h / 2 };
}

/**
 * A key without the number of its place.
 * @param {string} key
 */
export const withoutPlace = (key) => key.replace(/#\d+$/, "");

/**
 * The spot nearest to a point, the smallest where several hold it.
 * @param {Thing[]} spots @param {Point} at sheet units @param {number} reach sheet units @returns {Thing|undefined}
 */
export function spotAt(spots, at, reach) {
  const near = spots
    .map((spot) => ({ spot, away: spot.path ? nearestOn(spot.path, at).away : awayFrom(spot.box ?? { ...spot.at, w: 0, h: 0 }, at), size: sizeOf(spot) }))
    .filter(({ away }) => away <= reach);
  near.sort((a, b) => a.away - b.away || a.size - b.size);
  return near[0]?.spot;
}

const sizeOf = (/** @type {Thing} */ { box, path }) => (path || !box ? 0 : box.w * box.h);

/** @param {import("./view.js").Box} box @param {Point} at */
function awayFrom({ x, y, w, h }, at) {
  return Math.hypot(Math.max(x - at.x, 0, at.x - x - w), Math.max(y - at.y, 0, at.y - y - h));
}
