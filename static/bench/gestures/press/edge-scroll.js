/** While something is dragged within 40 px of an edge, the paper comes nearer; the closer, the faster. */

const EDGE = 40;
const FASTEST = 14;

/** @param {import("./press.js").Presses} presses @param {import("./press.js").Where} where */
export function edgeScroll(presses, where) {
  const drag = presses.drag;
  const last = { ...where };
  presses.edge = last;
  if (presses.scrolling) return;
  const step = () => {
    const { view } = presses.bench.surface;
    const dx = push(presses.edge.screen.x, view.width);
    const dy = push(presses.edge.screen.y, view.height);
    presses.scrolling = presses.drag === drag && (dx !== 0 || dy !== 0);
    if (!presses.scrolling) return;
    view.pan(dx, dy);
    drag.move({ ...presses.edge, at: view.toSheet(presses.edge.screen) });
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
