/** The keyboard on a view that is only looked at: from thing to thing, and pick. */

import { go } from "./move.js";

/** @typedef {import("../bench.js").Bench} Bench */

/** @type {Record<string, (bench: Bench, event: KeyboardEvent) => unknown>} */
export const LOOKING_KEYS = {
  ArrowLeft: (bench) => go(bench, -1, 0),
  ArrowRight: (bench) => go(bench, 1, 0),
  ArrowUp: (bench) => go(bench, 0, -1),
  ArrowDown: (bench) => go(bench, 0, 1),
  Home: (bench) => bench.focus.to(bench.surface.things.spots[0]?.key ?? null),
  End: (bench) => bench.focus.to(bench.surface.things.spots.at(-1)?.key ?? null),
  Enter: (bench) => pickHere(bench, false),
  " ": (bench, event) => pickHere(bench, event.shiftKey),
  Escape: (bench) => (bench.inHand.held ? bench.inHand.putBack() : bench.picks.only()),
  Delete: (bench) => notHere(bench),
  Backspace: (bench) => notHere(bench),
};

/** @param {Bench} bench @param {boolean} more */
function pickHere(bench, more) {
  const thing = bench.surface.things.get(bench.focus.key);
  if (!thing) return bench.focus.to(bench.surface.things.first?.key ?? null);
  if (!thing.pick) return bench.speech.say("This is not in the layout, so it cannot be picked.");
  return more ? bench.picks.toggle(thing.pick) : bench.picks.only(thing.pick);
}

/** @param {Bench} bench */
const notHere = (bench) => bench.speech.say("Wires are changed in the connection diagram.");
