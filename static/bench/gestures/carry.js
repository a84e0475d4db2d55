/**
 * Carrying one end of a conductor under the pointer: shared by pulling a new one and moving one that is there.
 * The preview lies in the hand layer; the drop asks the same predicate as the words at the sheet's lower edge.
 */

import { draw } from "../shared/dom.js";
import { nameOf } from "../job/acts.js";
import { landing, swapping, swapRivals } from "../job/landing.js";

/** @typedef {import("../bench.js").Bench} Bench */

const KEYS = /** @type {const} */ (["keydown", "keyup"]);

/**
 * @param {Bench} bench @param {import("./press/press.js").Press} press
 * @param {import("../job/types.js").Held} held @param {import("../job/types.js").Point} anchor where the other end is
 * @param {(where: import("./press/press.js").Where) => import("../job/types.js").Act|null} onPaper
 * @returns {import("./press/press.js").Drag}
 */
export function carry(bench, press, held, anchor, onPaper) {
  const { surface } = bench;
  bench.inHand.take(held, "drag");
  let at = press.at;
  /** @type {string|null} */
  let target = null;
  bench.carried = () => ({ anchor, at });
  const shifted = (/** @type {KeyboardEvent} */ event) => event.key === "Shift" && bench.inHand.withShift(event.type === "keydown");
  for (const name of KEYS) addEventListener(name, shifted);
  const clear = () => {
    for (const name of KEYS) removeEventListener(name, shifted);
    bench.carried = null;
    bench.inHand.clear();
    bench.hover(null);
    bench.loupe.hide();
    surface.hand.refresh("carried");
  };
  return {
    scrolls: true,
    move(where) {
      const hit = bench.presses.hitAt(where.at, press.pointer);
      target = hit.sort === "terminal" ? hit.name : null;
      at = (target && surface.things.get(hit.key)?.at) || where.at;
      bench.hover(hit);
      bench.inHand.withShift(where.shift);
      bench.inHand.over(target);
      bench.loupe.show(press.pointer, where, target ? nameOf(bench.shown.words, target) : "");
      surface.hand.refresh("carried");
    },
    drop(where) {
      const rivals = where.shift ? swapRivals(bench.shown.words, held, target) : [];
      if (rivals.length > 0) {
        clear();
        return swapOnDrop(bench, held, rivals, where.screen);
      }
      const answer = target ? landing(bench.shown.words, held, target) : null;
      const act = answer === null ? onPaper(where) : answer.may ? answer.act : null;
      clear();
      if (act) bench.submit(act);
      else if (answer && !answer.may) bench.speech.say(answer.words);
      return undefined;
    },
    cancel() {
      clear();
      bench.speech.say("Put back. Nothing changed.");
    },
  };
}

/**
 * With Shift held: one end there, or the one of several that is chosen.
 * @param {Bench} bench
 *  @param {import("../job/types.js").Held} held @param {string[]} rivals @param {import("../job/types.js").Point} screen */
function swapOnDrop(bench, held, rivals, screen) {
  const swap = (/** @type {string} */ end) => {
    const answer = swapping(bench.shown.words, held, end);
    return answer.may ? bench.submit(answer.act) : bench.speech.say(answer.words);
  };
  if (rivals.length === 1) return swap(rivals[0]);
  const things = rivals.flatMap((end) => bench.surface.things.get(`end:${end}`) ?? []);
  return bench.whichOne.ask(things, screen, (key) => swap(key.slice(4)));
}

/** @param {Bench} bench */
export function installCarry(bench) {
  bench.surface.hand.add("carried", (group, view) => {
    const carried = bench.carried?.();
    if (!carried) return;
    const [a, b] = [view.toScreen(carried.anchor), view.toScreen(carried.at)];
    group.append(draw("line", { x1: a.x, y1: a.y, x2: b.x, y2: b.y, class: "mark-pulled" }));
    group.append(draw("circle", { cx: b.x, cy: b.y, r: 6, class: "mark-open-end" }));
  }, "held");
}
