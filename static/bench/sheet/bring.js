/** Bringing things into sight: only when they are not, and with a way back to where one was. */

import { PITCH } from "./view.js";

const AROUND = 120;
/** Screws nearer together than this cannot be told apart, in pixels. */
const SMALL_PX = 11;

/** @param {import("./view.js").View} view @param {import("../job/types.js").Point[]} points */
export function bring(view, points) {
  const small = PITCH * view.scale < SMALL_PX;
  if (points.length === 0 || (!small && points.every((point) => view.sees(point)))) return;
  view.leave();
  const xs = points.map((point) => point.x);
  const ys = points.map((point) => point.y);
  const x = Math.min(...xs) - AROUND;
  const y = Math.min(...ys) - AROUND;
  view.fit({ x, y, w: Math.max(...xs) + AROUND - x, h: Math.max(...ys) + AROUND - y }, 1);
}

/**
 * The points between which a thing lies.
 * @param {import("./things.js").Thing} thing
 */
export function cornersOf(thing) {
  if (thing.path) return thing.path;
  if (!thing.box) return [thing.at];
  const { x, y, w, h } = thing.box;
  return [{ x, y }, { x: x + w, y: y + h }];
}
