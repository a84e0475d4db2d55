/**
 * The paper under the hand: middle button, a finger or pen on paper, everything with a glove, and any drag on a view
 * that is only looked at.
 */

/** @type {import("../press/press.js").Gesture} */
export const pan = {
  name: "pan",
  looks: true,
  suits: (press, bench) => press.button === 1 || press.pointer !== "mouse" || !bench.views.edits,
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
