/** Numbers and lines as the `data-` attributes of the server's drawing give them. */

/** @param {string|undefined} text @returns {number[]} */
export const numbersIn = (text) => (text ?? "").split(/[\s,]+/).filter(Boolean).map(Number);

/**
 * A line that is broken and goes on elsewhere has pieces with `;` between them; the point that opens a later piece is
 * marked, so that nobody takes the gap for wire.
 * @param {SVGElement} node
 */
export function pathIn(node) {
  const path = (node.dataset.path ?? "").split(";").flatMap((piece, number) => {
    const all = numbersIn(piece);
    const points = [];
    for (let i = 0; i + 1 < all.length; i += 2) points.push({ x: all[i], y: all[i + 1], gap: number > 0 && i === 0 });
    return points;
  });
  return { path, at: path[Math.floor(path.length / 2)] ?? { x: 0, y: 0 } };
}
