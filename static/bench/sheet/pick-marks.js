/** Brackets, rails and the focus ring: which thing is meant now. */

import { draw } from "../shared/dom.js";
import { handlesOf } from "./hit.js";
import { brackets, pathOf, ring } from "./marks.js";

/** @typedef {import("./things.js").Thing} Thing @typedef {import("./view.js").View} View */

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
  surface.hand.add("picked", (group, view) => {
    for (const key of picks.keys) paintPicked(group, view, surface.things, surface.things.get(key));
  });
  surface.hand.add("focus", (group, view) => {
    const thing = surface.things.get(bench.focus.key);
    if (thing && bench.focus.visible) paintFocus(group, view, thing);
  });
  picks.on("changed", () => surface.hand.refresh("picked"));
  bench.focus.on("changed", () => surface.hand.refresh("focus"));
}

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

function paintPicked(group, view, things, thing) {
  if (!thing) return;
  if (thing.path) {
    const d = pathOf(screenPath(thing, view));
    group.append(draw("path", { d, class: "mark-rails" }), draw("path", { d, class: "mark-between" }));
    group.append(draw("path", { d, class: liftedClass(thing) }));
    for (const handle of handlesOf(things, thing, view.scale)) {
      const at = view.toScreen(handle.at);
      group.append(draw("rect", { x: at.x - 6, y: at.y - 6, width: 12, height: 12, class: "mark-handle" }));
    }
  } else if (thing.box) group.append(brackets(screenBox(thing, view), 6));
  else {
    const at = view.toScreen(thing.at);
    group.append(brackets({ x: at.x, y: at.y, w: 0, h: 0 }, 16, 8));
  }
}

function paintFocus(group, view, thing) {
  if (thing.path) {
    const d = pathOf(screenPath(thing, view));
    group.append(draw("path", { d, class: "mark-focus-line" }), draw("path", { d, class: "mark-focus-gap" }));
    group.append(draw("path", { d, class: liftedClass(thing) }));
  } else if (thing.box) {
    const { x, y, w, h } = screenBox(thing, view);
    group.append(draw("rect", { x: x - 10, y: y - 10, width: w + 20, height: h + 20, rx: 6, class: "mark-ring" }));
  } else group.append(ring(view.toScreen(thing.at), 13.5));
}

/** A lifted conductor is drawn as it is: heavy when hot, dashed when an end of it is loose. */
function liftedClass(thing) {
  const live = thing.node.dataset.live;
  const open = thing.node.querySelector('[data-end][data-landed=""]') !== null;
  return `mark-lifted${live === "hot" || live === "carrying" ? " heavy" : ""}${open ? " dashed" : ""}`;
}
