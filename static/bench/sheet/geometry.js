/** Distances on the sheet. All points are in sheet units. */

/** @typedef {import("../job/types.js").Point} Point */

/** @param {Point} a @param {Point} b */
export const distance = (a, b) => Math.hypot(a.x - b.x, a.y - b.y);

/**
 * The nearest point of a path to a point.
 * @param {(Point & {gap?: boolean})[]} path @param {Point} at
 * @returns {{away: number, along: number, length: number}} distance to it, and its distance along from the first point
 */
export function nearestOn(path, at) {
  let best = { away: Infinity, along: 0 };
  let gone = 0;
  for (let i = 1; i < path.length; i += 1) {
    if (path[i].gap) continue;
    const [a, b] = [path[i - 1], path[i]];
    const length = distance(a, b);
    const share = length === 0 ? 0 : clamp(((at.x - a.x) * (b.x - a.x) + (at.y - a.y) * (b.y - a.y)) / length ** 2, 0, 1);
    const away = distance(at, { x: a.x + share * (b.x - a.x), y: a.y + share * (b.y - a.y) });
    if (away < best.away) best = { away, along: gone + share * length };
    gone += length;
  }
  return { ...best, length: gone };
}

/**
 * The same path from its other end.
 * @param {(Point & {gap?: boolean})[]} path
 */
export function reversed(path) {
  return path.map((point, index) => ({ x: point.x, y: point.y, gap: path[index + 1]?.gap ?? false })).reverse();
}

/**
 * The point that lies `along` units from the start.
 * @param {(Point & {gap?: boolean})[]} path @param {number} along @returns {Point}
 */
export function pointAlong(path, along) {
  let left = along;
  for (let i = 1; i < path.length; i += 1) {
    if (path[i].gap) continue;
    const length = distance(path[i - 1], path[i]);
    if (left <= length && length > 0) {
      const share = left / length;
      const [a, b] = [path[i - 1], path[i]];
      return { x: a.x + share * (b.x - a.x), y: a.y + share * (b.y - a.y) };
    }
    left -= length;
  }
  return path[path.length - 1];
}

/**
 * A path without its first and last `by` units, whole where it is too short for that.
 * @param {(Point & {gap?: boolean})[]} path @param {number} by
 */
export function trimmed(path, by) {
  if (path.length < 2) return path;
  const first = distance(path[0], path[1]);
  const last = distance(path[path.length - 2], path[path.length - 1]);
  if (path.length === 2 && first < 3 * by) return path;
  const start = first > by ? [pointAlong(path, by)] : [];
  const end = last > by ? [pointAlong(reversed(path), by)] : [];
  const gap = path[path.length - 1].gap ?? false;
  return [...start, ...path.slice(1, -1), ...end.map((point) => ({ ...point, gap }))];
}

/** @param {number} value @param {number} least @param {number} most */
export const clamp = (value, least, most) => Math.min(most, Math.max(least, value));

/** @param {{x: number, y: number, w: number, h: number}} box @param {Point} at @param {number} [more] */
export function inside(box, at, more = 0) {
  return at.x >= box.x - more && at.x <= box.x + box.w + more && at.y >= box.y - more && at.y <= box.y + box.h + more;
}
