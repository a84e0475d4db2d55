/**
 * A tap: takes a screw or an end in hand, lands what is in hand, or picks. Where two screws are equally near to a
 * finger the sheet asks which one instead of guessing.
 */

import { conductorOf } from "../../job/acts.js";

/** @param {import("../../bench.js").Bench} bench */
export function installTap(bench) {
  bench.tap = (press) => {
    const { hit } = press;
    if (hit.rivals.length > 1) return bench.whichOne.ask(hit.rivals, press.screen, (key) => tapped(bench, key, press));
    return tapped(bench, hit.key, press);
  };
}

/** @param {import("../../bench.js").Bench} bench @param {string} key @param {import("../press/press.js").Press} press */
function tapped(bench, key, press) {
  const { picks, focus, inHand, surface } = bench;
  const thing = surface.things.get(key);
  if (!thing) {
    if (!inHand.held) picks.only();
    return focus.toHost();
  }
  if (press.shift && !inHand.held && pickKey(thing)) return picks.toggle(pickKey(thing));
  focus.to(focusKey(thing), false);
  if (thing.sort === "terminal" && bench.meter.isOn && !inHand.held) return bench.meter.probe(thing.name);
  if (surface.things.looking) return thing.pick ? picks.only(thing.pick) : picks.only();
  if (thing.sort === "terminal") {
    if (inHand.held) return inHand.land(thing.name);
    picks.only(key);
    return inHand.take({ sort: "start", terminal: thing.name }, "tap");
  }
  if (inHand.held && thing.sort !== "end") return picks.only(pickKey(thing));
  const wasPicked = picks.has(pickKey(thing));
  picks.only(pickKey(thing));
  if (thing.sort === "end" && (!thing.landed || wasPicked)) inHand.take({ sort: "end", end: thing.name }, "tap");
  return undefined;
}

/**
 * An end belongs to its conductor: that is what is picked.
 * @param {import("../../sheet/things.js").Thing} thing
 */
function pickKey(thing) {
  return thing.pick ?? (thing.sort === "end" ? `conductor:${conductorOf(thing.name)}` : thing.key);
}

/** @param {import("../../sheet/things.js").Thing} thing */
function focusKey(thing) {
  return thing.sort === "end" && thing.landed ? `conductor:${conductorOf(thing.name)}` : thing.key;
}
