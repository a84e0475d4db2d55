/** The paper under the hand: middle button, a finger or pen on paper, and everything with a glove. */

/** @type {import("../press/press.js").Gesture} */
export const pan = {
  name: "pan",
  suits: (press) => press.button === 1 || press.pointer !== "mouse",
  begin(press, bench) {
    let last = press.screen;
    return {
      move(where) {
        bench.surface.view.pan(where.screen.x - last.x, where.screen.y - last.y);
        last = where.screen;
      },
      drop() {},
      cancel() {},
    };
  },
};
