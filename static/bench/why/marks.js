/**
 * A followed path on the sheet: two thin rails in ink along its wires, and where it stops one bar with a flag. The wire
 * beyond stays as it is, and so do the parts between: a line through them would strike out what is written there.
 */

import { draw } from "../shared/dom.js";
import { clamp } from "../sheet/geometry.js";
import { pathOf } from "../sheet/marks.js";
import { cased, screenPath } from "../sheet/pick-marks.js";

/** @typedef {import("./why.js").Followed} Followed @typedef {import("../sheet/things.js").Things} Things */
/** @typedef {import("../sheet/view.js").View} View @typedef {import("../job/types.js").Point} Point */

const BAR = 26;
/**
 * The bar stands off its screw, so that it does not lie on the edge of the part.
 * @type {Record<string, number[]>}
 */
const OFF = { left: [-8, 0], right: [8, 0], top: [0, -8], bottom: [0, 8] };
const FLAG = { below: 12, high: 20, margin: 6 };

/** @param {SVGElement} group @param {View} view @param {Things} things @param {Followed|null} followed */
export function paintPath(group, view, things, followed) {
  if (!followed || things.looking) return;
  for (const { on } of followed.legs) {
    const wire = things.get(on);
    if (wire?.path) group.append(...cased(wire, view, "mark-path-rails", "mark-between"));
  }
  const stop = followed.stop && things.get(followed.stop.place);
  if (stop && followed.stop) paintStop(group, view, stop, followed.stop.words);
}

/**
 * What is to be seen of a path.
 * @param {Things} things @param {Followed} followed @returns {Point[]}
 */
export function pointsOf(things, followed) {
  const wires = followed.legs.flatMap(({ on }) => things.get(on)?.path ?? []);
  const stop = followed.stop && things.get(followed.stop.place);
  return stop ? [...wires, stop.at] : wires;
}

/**
 * The bar lies across the way of the wire.
 * @param {SVGElement} group @param {View} view @param {import("../sheet/things.js").Thing} thing @param {string} words
 */
function paintStop(group, view, thing, words) {
  const screw = view.toScreen(thing.at);
  const [dx, dy] = (thing.sort === "terminal" && OFF[thing.side ?? ""]) || [0, 0];
  const at = { x: screw.x + dx, y: screw.y + dy };
  const upright = thing.side === "top" || thing.side === "bottom";
  const [x, y] = upright ? [BAR / 2, 0] : [0, BAR / 2];
  group.append(draw("path", { d: `M${at.x - x} ${at.y - y}L${at.x + x} ${at.y + y}`, class: "mark-stop" }));
  const text = /** @type {SVGTextElement} */ (draw("text", { y: 14, class: "mark-flag-words" }, words));
  const flag = draw("g", { class: "mark-flag" }, text);
  group.append(flag);
  const wide = text.getComputedTextLength() + 2 * FLAG.margin;
  const out = thing.side === "left" ? at.x + FLAG.margin - wide : at.x - FLAG.margin;
  const left = clamp(out, 4, Math.max(4, view.width - wide - 4));
  const top = freeTop(group, { left, right: left + wide }, [at.y - y - FLAG.below - FLAG.high, at.y + y + FLAG.below]);
  flag.setAttribute("transform", `translate(${left} ${top})`);
  text.setAttribute("x", String(FLAG.margin));
  text.before(
    draw("path", { d: `M${at.x - left} ${at.y - top}V${top < at.y ? FLAG.high : 0}`, class: "mark-flag-pole" }),
    draw("rect", { x: 0, y: 0, width: wide, height: FLAG.high, class: "mark-flag-cloth" }),
  );
}

/** What is written on the sheet must not be covered, nor the screws. */
const WRITTEN = ".drawing text:is(.letter, .volts, .name), .drawing [data-terminal] > circle";
const STEP = 8;
const STEPS = 12;

/**
 * The nearest place below, else above, at which the flag covers nothing that is written; right below where there is none.
 * @param {SVGElement} group @param {{left: number, right: number}} flag @param {[number, number]} tops above and below
 */
function freeTop(group, flag, [above, below]) {
  const sheet = group.ownerSVGElement?.getBoundingClientRect() ?? new DOMRect();
  const written = [...(group.closest(".sheet")?.querySelectorAll(WRITTEN) ?? [])]
    .map((text) => text.getBoundingClientRect())
    .filter((box) => box.width > 0 && box.left - sheet.left < flag.right && box.right - sheet.left > flag.left);
  const isFree = (/** @type {number} */ top) => written.every((box) => box.bottom - sheet.top <= top || box.top - sheet.top >= top + FLAG.high);
  for (let step = 0; step < STEPS; step += 1) {
    const free = [below + step * STEP, above - step * STEP].find(isFree);
    if (free !== undefined) return free;
  }
  return below;
}
