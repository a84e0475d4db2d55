/** Brackets, rails and the focus ring: which thing is meant now. */

import { draw } from "../shared/dom.js";
import { clamp, trimmed } from "./geometry.js";
import { handlesOf } from "./hit.js";
import { brackets, pathOf, ring } from "./marks.js";
import { PITCH } from "./view.js";

/** @typedef {import("./things.js").Thing} Thing @typedef {import("./view.js").View} View */

/** The casing of a picked conductor leaves its screws free. */
const CASING_SHORT = 16;

/** @param {Thing} thing @param {View} view */
export function screenBox(thing, view) {
  const { x, y, w, h } = thing.box ?? { ...thing.at, w: 0, h: 0 };
  const corner = view.toScreen({ x, y });
  return { x: corner.x, y: corner.y, w: w * view.scale, h: h * view.scale };
}

/** @param {Thing} thing @param {View} view @returns {{x: number, y: number}[]} */
export function screenPath(thing, view) {
  return (thing.path ?? []).map((point) => ({ ...view.toScreen(point), gap: point.gap }));
}

/** @param {import("../bench.js").Bench} bench */
export function installPickMarks(bench) {
  const { surface, picks } = bench;
  surface.hand.add("hover", (group, view) => paintHover(group, view, surface.things.get(bench.hovered)), "under");
  surface.hand.add("cables", (group, view) => paintCables(group, view, bench), "under");
  surface.hand.add("picked", (group, view) => {
    for (const key of picks.keys) for (const thing of surface.things.all(key)) paintPicked(group, view, thing);
  });
  surface.hand.add("focus", (group, view) => {
    const thing = surface.things.get(bench.focus.key);
    if (thing && bench.focus.visible) paintFocus(group, view, thing);
  });
  surface.hand.add("handles", (group, view) => {
    for (const key of picks.keys) paintHandles(group, view, surface.things, surface.things.get(key));
  });
  picks.on("changed", () => surface.hand.refresh("picked", "handles", "cables"));
  bench.focus.on("changed", () => surface.hand.refresh("focus"));
}

/** The conductors of a picked cable: they lie side by side, so a band under each has to do.
 *  @param {SVGElement} group @param {View} view @param {import("../bench.js").Bench} bench */
function paintCables(group, view, { picks, shown, surface }) {
  for (const name of picks.names("cable")) {
    for (const core of shown.words.cables[name]?.cores ?? []) {
      const path = surface.things.get(`conductor:${core.conductor}`);
      if (path) group.append(draw("path", { d: pathOf(screenPath(path, view)), class: "mark-cable" }));
    }
  }
}

/** @param {SVGElement} group @param {import("./view.js").View} view @param {import("./things.js").Thing|undefined} thing */
function paintHover(group, view, thing) {
  if (!thing) return;
  if (thing.path) group.append(draw("path", { d: pathOf(screenPath(thing, view)), class: "tint-line" }));
  else if (thing.box) {
    const { x, y, w, h } = screenBox(thing, view);
    group.append(draw("rect", { x, y, width: w, height: h, class: "tint" }));
  } else {
    const at = view.toScreen(thing.at);
    group.append(draw("circle", { cx: at.x, cy: at.y, r: 14, class: "tint" }));
  }
}

/**
 * Above the focus ring, because they can be grabbed.
 * @param {SVGElement} group @param {import("./view.js").View} view @param {import("./things.js").Things} things @param {import("./things.js").Thing|undefined} thing
 */
function paintHandles(group, view, things, thing) {
  if (!thing?.path || things.looking) return;
  for (const handle of handlesOf(things, thing, view.scale)) {
    const at = view.toScreen(handle.at);
    group.append(draw("rect", { x: at.x - 6, y: at.y - 6, width: 12, height: 12, class: "mark-handle" }));
  }
}

/** The ring has room within the brackets, and before the letter. */
const RING_IN_BRACKETS = 0.8;

/**
 * Where screws are crowded what is drawn around one comes nearer, so that it takes in that screw alone.
 * @param {View} view
 */
export const aroundScrew = (view) => clamp(PITCH * view.scale * 0.62, 8, 16);

/** @param {SVGElement} group @param {import("./view.js").View} view @param {import("./things.js").Thing|undefined} thing */
function paintPicked(group, view, thing) {
  if (!thing) return;
  if (thing.path) {
    group.append(...cased(thing, view, "mark-rails", "mark-between"));
  } else if (thing.box) group.append(thing.pick ? brackets(screenBox(thing, view), 3, 6) : brackets(screenBox(thing, view), 6));
  else {
    const at = view.toScreen(thing.at);
    const out = aroundScrew(view);
    group.append(brackets({ x: at.x, y: at.y, w: 0, h: 0 }, out, out / 2));
  }
}

/** @param {SVGElement} group @param {import("./view.js").View} view @param {import("./things.js").Thing} thing */
function paintFocus(group, view, thing) {
  if (thing.path) {
    group.append(...cased(thing, view, "mark-focus-line", "mark-focus-gap"));
  } else if (thing.box) {
    const { x, y, w, h } = screenBox(thing, view);
    group.append(draw("rect", { x: x - 10, y: y - 10, width: w + 20, height: h + 20, rx: 6, class: "mark-ring" }));
  } else group.append(ring(view.toScreen(thing.at), RING_IN_BRACKETS * aroundScrew(view)));
}

/**
 * A conductor lifted out of its bundle: a casing that stops short of the screws, and the line with its heads.
 * @param {import("./things.js").Thing} thing @param {import("./view.js").View} view @param {string} outer @param {string} inner
 */
export function cased(thing, view, outer, inner) {
  const whole = screenPath(thing, view);
  const d = pathOf(trimmed(whole, CASING_SHORT));
  const heads = [...thing.node.querySelectorAll(".head")].map((head) => {
    const transform = `scale(${view.scale}) translate(${-view.x} ${-view.y})`;
    return draw("path", { d: head.getAttribute("d"), transform, class: "mark-lifted-head" });
  });
  return [
    draw("path", { d, class: outer }),
    draw("path", { d, class: inner }),
    draw("path", { d: pathOf(whole), class: liftedClass(thing) }),
    ...heads,
  ];
}

/**
 * A lifted conductor is drawn as it is: heavy when hot, dashed when an end of it is loose.
 * @param {import("./things.js").Thing} thing
 */
function liftedClass(thing) {
  const live = thing.node.dataset.live;
  const open = thing.node.querySelector('[data-end][data-landed=""]') !== null;
  return `mark-lifted${live === "hot" || live === "carrying" ? " heavy" : ""}${open ? " dashed" : ""}`;
}
