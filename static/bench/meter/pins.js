/**
 * The probes on the sheet: P1 a solid head with its name cut out, P2 a hollow one, each with a thin leader to its screw.
 * Where screws are crowded the heads stand outside the part, on its far side.
 */

import { draw } from "../shared/dom.js";
import { partOf } from "../job/acts.js";
import { screenBox } from "../sheet/pick-marks.js";
import { PITCH } from "../sheet/view.js";

const RADIUS = 11;
/** Nearer than this a head inside the part would lie on the letter of the next screw. */
const CROWDED_PX = 28;
/** Heads stand this far outside a part; the second one farther, where both would meet. */
const OUT = 16;

/**
 * Into the part, from a screw on each of its sides.
 * @type {Record<string, number[]>}
 */
const INWARD = { left: [1, 0], right: [-1, 0], top: [0, 1], bottom: [0, -1] };

/** @typedef {import("../job/types.js").Point} Point @typedef {import("../sheet/view.js").View} View */

/** @param {SVGElement} group @param {View} view @param {import("../sheet/things.js").Things} things @param {(string|null)[]} probes */
export function paintPins(group, view, things, probes) {
  /** @type {Point[]} */
  const heads = [];
  probes.forEach((terminal, index) => {
    const screw = terminal && things.all(`terminal:${terminal}`)[0];
    if (!screw || !terminal) return;
    const tip = view.toScreen(screw.at);
    const way = wayTo(screw, view, things.get(`part:${partOf(terminal)}`), tip);
    while (heads.some((head) => Math.hypot(head.x - way.head.x, head.y - way.head.y) < 2 * RADIUS + 2)) {
      way.head = { x: way.head.x + way.out.x * (2 * RADIUS + 4), y: way.head.y + way.out.y * (2 * RADIUS + 4) };
    }
    heads.push(way.head);
    group.append(pin(tip, way, index));
  });
}

/** @param {import("../sheet/things.js").Thing} screw @param {View} view @param {import("../sheet/things.js").Thing|undefined} part @param {Point} tip */
function wayTo(screw, view, part, tip) {
  const [dx, dy] = INWARD[screw.side ?? "left"] ?? [1, 0];
  if (!part?.box || PITCH * view.scale >= CROWDED_PX) {
    const head = dy === 0 ? { x: tip.x + dx * 12, y: tip.y - 18 } : { x: tip.x + 18, y: tip.y + dy * 12 };
    return { head, out: { x: dx, y: dy }, bend: [] };
  }
  // Between the rows of letters, so that the leader strikes nothing out.
  const box = screenBox(part, view);
  const half = (PITCH * view.scale) / 2;
  if (dy === 0) {
    const y = tip.y + half;
    const x = dx > 0 ? box.x + box.w + OUT : box.x - OUT;
    return { head: { x, y }, out: { x: dx, y: 0 }, bend: [{ x: tip.x + dx * half, y }] };
  }
  const x = tip.x + half;
  const y = dy > 0 ? box.y + box.h + OUT : box.y - OUT;
  return { head: { x, y }, out: { x: 0, y: dy }, bend: [{ x, y: tip.y + dy * half }] };
}

/** @param {Point} tip @param {{head: Point, bend: Point[]}} way @param {number} index */
function pin(tip, { head, bend }, index) {
  const points = [tip, ...bend, head];
  const d = points.map(({ x, y }, number) => `${number === 0 ? "M" : "L"}${x} ${y}`).join("");
  return draw(
    "g",
    { class: `mark-pin p${index + 1}`, "data-probe": String(index + 1) },
    draw("path", { d, class: "mark-leader" }),
    draw("circle", { cx: tip.x, cy: tip.y, r: 2.5, class: "mark-tip" }),
    draw("circle", { cx: head.x, cy: head.y, r: RADIUS, class: "mark-head" }),
    draw("text", { x: head.x, y: head.y + 4 }, `P${index + 1}`),
  );
}
