/** Marks of the hand layer, drawn at screen points. Each state has a shape or a weight of its own, never a colour. */

import { draw } from "../shared/dom.js";

/** @typedef {import("../job/types.js").Point} Point */

/** @param {{x: number, y: number, w: number, h: number}} box px @param {number} out @param {number} [arm] */
export function brackets(box, out, arm = 12) {
  const [l, t, r, b] = [box.x - out, box.y - out, box.x + box.w + out, box.y + box.h + out];
  const d =
    `M${l} ${t + arm}V${t}H${l + arm}M${r - arm} ${t}H${r}V${t + arm}` +
    `M${r} ${b - arm}V${b}H${r - arm}M${l + arm} ${b}H${l}V${b - arm}`;
  return draw("path", { d, class: "mark-brackets" });
}

/** @param {Point} at @param {number} radius */
export function ring(at, radius) {
  return draw("circle", { cx: at.x, cy: at.y, r: radius, class: "mark-ring" });
}

/** @param {Point} at @param {"danger"|"warning"} severity @param {string} words @param {number} [size] */
export function tag(at, severity, words, size = 1) {
  const group = draw("g", { class: `mark-tag ${severity}`, transform: `translate(${at.x} ${at.y}) scale(${size})` });
  const d = severity === "danger" ? "M0 -12L13 10H-13Z" : "M0 -12L12 0L0 12L-12 0Z";
  group.append(draw("path", { d }), draw("text", { x: 0, y: severity === "danger" ? 7 : 4 }, words));
  return group;
}

/**
 * What landing here would be: `odd` or `danger`.
 * @param {Point} at @param {string} verdict @param {number} size
 */
export function adviceMark(at, verdict, size) {
  const group = draw("g", { class: `mark-advice ${verdict}`, transform: `translate(${at.x} ${at.y}) scale(${size})` });
  group.append(draw("rect", { x: -8, y: -8, width: 16, height: 16 }), draw("text", { x: 0, y: 4.5 }, verdict === "odd" ? "?" : "!"));
  return group;
}

/**
 * A point so far out of its part from a screw on that side.
 * @param {Point} at @param {string|undefined} side @param {number} away px
 */
export function outward({ x, y }, side, away) {
  if (side === "top") return { x, y: y - away };
  if (side === "bottom") return { x, y: y + away };
  return { x: side === "left" ? x - away : x + away, y };
}

/** @param {(Point & {gap?: boolean})[]} points @returns {string} */
export function pathOf(points) {
  return points.map((point, index) => `${index === 0 || point.gap ? "M" : "L"}${point.x} ${point.y}`).join("");
}
