/**
 * A part's name in its box: whole, else in two lines, else what stands before its first comma where no other part
 * begins so, else cut. The whole name stays in the part's label.
 */

import { draw } from "../shared/dom.js";

/** @typedef {import("./things.js").Thing} Thing */

export const NAME = { units: 13, px: 12 };
/** Two lines are as small as letters may be, so that the second stays clear of the screws. */
export const NAME_IN_TWO = { units: 13, px: 11 };
const BOX_MARGIN = 20;
/** In sizes: from the upper edge to the first of two lines, from line to line, and down to the screws below them. */
const FIRST = 0.93;
const LEAD = 0.82;
const SCREWS = 2.35;
const LEAST_LETTERS = 5;

/** @param {Thing} part @returns {SVGTextElement|null} */
const nameOf = ({ node }) => node.querySelector("text.name");
/** @param {string} name */
const headOf = (name) => name.split(",")[0];

/** @param {Thing[]} parts @returns {string[]} */
export const headsOf = (parts) => parts.map((part) => headOf(nameOf(part)?.dataset.whole ?? ""));

/** @param {Thing} part @param {import("./things.js").Things} things @param {number} size in sheet units */
export function hasRoomBelow({ name, box }, things, size) {
  const screws = things.terminals.filter((one) => one.name.startsWith(`${name}.`));
  return box !== undefined && screws.every((one) => one.at.y >= box.y + SCREWS * size);
}

/**
 * @param {Thing} part @param {{one: number, two: number}} sizes of letters in one line and in two, in sheet units
 * @param {number} most lines @param {string[]} heads of all parts
 */
export function fitName(part, sizes, most, heads) {
  const text = nameOf(part);
  const whole = text?.dataset.whole;
  if (!text || !part.box || !whole) return;
  const needed = (Number(text.dataset.units) * sizes.one) / NAME.units;
  const room = Math.floor((whole.length * (part.box.w - BOX_MARGIN)) / needed);
  const lines = room >= whole.length ? [whole] : linesOf(whole, room, most, heads);
  const key = `${lines.join("\n")} ${lines.length > 1 ? sizes.two : ""}`;
  if (text.dataset.shown === key) return;
  text.dataset.shown = key;
  const x = text.getAttribute("x") ?? "0";
  text.classList.toggle("in-two-lines", lines.length > 1);
  // Two lines begin higher, so that the second stays above the first screw.
  const first = lines.length > 1 ? part.box.y + FIRST * sizes.two : text.getAttribute("y");
  text.replaceChildren(...lines.map((line, number) => draw("tspan", number === 0 ? { x, y: first } : { x, dy: LEAD * sizes.two }, line)));
}

/** @param {string} whole @param {number} room letters @param {number} most @param {string[]} heads @returns {string[]} */
function linesOf(whole, room, most, heads) {
  const head = headOf(whole);
  if (head.length <= room && heads.filter((one) => one === head).length === 1) return [head];
  const at = whole.lastIndexOf(" ", room);
  if (most > 1 && at > 0) return [whole.slice(0, at), cut(whole.slice(at + 1), room)];
  return [cut(whole, room)];
}

/**
 * Of a name that is cut to a letter or two nothing is left to read.
 * @param {string} words @param {number} room letters
 */
function cut(words, room) {
  if (words.length <= room) return words;
  return room < LEAST_LETTERS ? "" : `${words.slice(0, room - 2).trimEnd()}…`;
}
