/** While something is dragged within 40 px of an edge, the paper comes nearer; the closer, the faster. */

const EDGE = 40;
const FASTEST = 14;

/** @param {import("./press.js").Presses} presses @param {import("./press.js").Where} where */
export function edgeScroll(presses, where) {
  const { drag } = presses;
  presses.edge = { ...where };
  if (presses.scrolling) return;
  const step = () => {
    const { edge } = presses;
    if (!edge || !drag) return;
    const { view } = presses.bench.surface;
    const dx = push(edge.screen.x, view.width);
    const dy = push(edge.screen.y, view.height);
    presses.scrolling = presses.drag === drag && (dx !== 0 || dy !== 0);
    if (!presses.scrolling) return;
    view.pan(dx, dy);
    drag.move({ ...edge, at: view.toSheet(edge.screen) });
    requestAnimationFrame(step);
  };
  step();
}

/** @param {number} at @param {number} size px the paper moves by */
function push(at, size) {
  if (at < EDGE) return Math.min(FASTEST, ((EDGE - at) / EDGE) * FASTEST);
  if (at > size - EDGE) return -Math.min(FASTEST, ((at - size + EDGE) / EDGE) * FASTEST);
  return 0;
}
