/**
 * Lettering on screen: held at a legible size or left away, never squeezed and never smaller.
 *
 * Sizes are in style/sheet.css; here only what a style sheet cannot do: letting go of the width on paper, and what a
 * box has no room for.
 */

import { fitName, hasRoomBelow, headsOf, NAME, NAME_IN_TWO } from "./part-name.js";

const LETTERING = "text.letter[textLength], text.name[textLength], text.label[textLength], text.volts[textLength]";
const LETTER = { units: 14, px: 11, wide: 0.602, from: 20 };
/** Volts are written this far inside their screw, and grow inward. */
const VOLTS = { units: 10, px: 11, at: 96, apart: 4 };
/** Between screws of an upper or lower side. */
const ACROSS = 46;

/** @param {SVGSVGElement|null} drawing after a swap */
export function freeLettering(drawing) {
  for (const text of /** @type {NodeListOf<SVGTextElement>} */ (drawing?.querySelectorAll(LETTERING) ?? [])) {
    text.dataset.whole = text.textContent ?? "";
    text.dataset.units = text.getAttribute("textLength") ?? "0";
    text.removeAttribute("textLength");
    text.removeAttribute("lengthAdjust");
  }
}

/** @param {import("./surface.js").Surface} surface */
export function fitLettering({ things, view }) {
  const shifts = new Map();
  const heads = headsOf(things.parts);
  for (const part of things.parts) {
    const most = shiftMost(things, part.name, part.box?.w ?? 0);
    shifts.set(part.name, most);
    const shift = `${most}px`;
    if (part.node.style.getPropertyValue("--shift-most") !== shift) part.node.style.setProperty("--shift-most", shift);
    const sizes = { one: sizeAt(NAME, view.scale), two: sizeAt(NAME_IN_TWO, view.scale) };
    // From near on the kind is written where the second line would be.
    const lines = view.detail === "middle" && hasRoomBelow(part, things, sizes.two) ? 2 : 1;
    fitName(part, sizes, lines, heads);
  }
  for (const screw of things.terminals) {
    const shift = shifts.get(screw.name.slice(0, screw.name.indexOf("."))) ?? 0;
    const tight = !voltsFit(screw, view.scale, shift);
    if (screw.node.classList.contains("is-tight") !== tight) screw.node.classList.toggle("is-tight", tight);
  }
}

/** The size in sheet units at which lettering is drawn. */
const sizeAt = (/** @type {{units: number, px: number}} */ sort, /** @type {number} */ scale) => Math.max(sort.units, sort.px / scale);

/** @param {import("./things.js").Thing} screw @param {number} scale @param {number} most */
function voltsFit({ node, name, side }, scale, most) {
  const volts = /** @type {SVGTextElement|null} */ (node.querySelector("text.volts"));
  if (!volts) return true;
  const size = sizeAt(VOLTS, scale);
  const wide = (Number(volts.dataset.units) * size) / VOLTS.units;
  if (side === "top" || side === "bottom") return wide <= ACROSS;
  const letter = LETTER.from + (name.length - name.indexOf(".") - 1) * LETTER.wide * sizeAt(LETTER, scale);
  const shift = Math.min((size - VOLTS.units) * 2.9, most);
  return letter + VOLTS.apart + wide <= VOLTS.at + shift;
}

/**
 * How far volts may move inward: on a part with screws on both sides, not past its middle.
 * @param {import("./things.js").Things} things @param {string} part @param {number} width
 */
function shiftMost(things, part, width) {
  const sides = new Set(things.terminals.filter((one) => one.name.startsWith(`${part}.`)).map((one) => one.side));
  return sides.has("left") && sides.has("right") ? Math.max(0, width / 2 - VOLTS.at - 3) : VOLTS.at;
}
