/** Two fingers: the point between them stays on its paper, their distance is the zoom. */

export class Pinch {
  /** @param {import("../../sheet/view.js").View} view */
  constructor(view) {
    this.view = view;
    this.last = { x: 0, y: 0, apart: 1 };
  }

  /** @param {{x: number, y: number}[]} fingers */
  begin(fingers) {
    this.last = measure(fingers);
  }

  /** @param {{x: number, y: number}[]} fingers */
  move(fingers) {
    const now = measure(fingers);
    this.view.pan(now.x - this.last.x, now.y - this.last.y);
    this.view.zoom(now.apart / this.last.apart, now);
    this.last = now;
  }
}

/** @param {{x: number, y: number}[]} fingers */
function measure([a, b]) {
  return { x: (a.x + b.x) / 2, y: (a.y + b.y) / 2, apart: Math.max(1, Math.hypot(a.x - b.x, a.y - b.y)) };
}
