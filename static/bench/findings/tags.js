/** Numbered shapes at the outer corner of the part that a danger or warning is about, and the box of a shown one. */

import { draw } from "../shared/dom.js";
import { outward, pathOf, tag } from "../sheet/marks.js";
import { aroundScrew, screenBox, screenPath } from "../sheet/pick-marks.js";

/** @param {import("../bench.js").Bench} bench */
export function installTags(bench) {
  const { surface, inHand } = bench;
  surface.hand.add("tags", (group, view) => {
    const { findings } = bench;
    if (!findings) return;
    if (!inHand.held) paintCorners(group, view, surface.things, findings);
    const shown = findings.lines.standing.find((line) => line.row.key === findings.current);
    if (shown) paintShown(group, view, surface.things, shown, !inHand.held);
  });
  inHand.on("changed", () => surface.hand.refresh("tags"));
}

/** @param {SVGElement} group @param {import("../sheet/view.js").View} view @param {import("../sheet/things.js").Things} things @param {import("./findings.js").FindingsView} findings */
function paintCorners(group, view, things, findings) {
  const used = new Map();
  for (const { row, number } of findings.lines.standing) {
    if (row.severity === "note" || row.folded) continue;
    const part = things.get(`part:${row.parts[0]}`);
    if (!part) continue;
    const box = screenBox(part, view);
    const place = used.get(part.key) ?? 0;
    used.set(part.key, place + 1);
    group.append(tag({ x: box.x + box.w - 14 - place * 28, y: box.y - 18 }, row.severity, String(number)));
  }
}

/** @param {import("../sheet/things.js").Thing} thing @param {import("../sheet/view.js").View} view */
function aroundPart(thing, view) {
  const { x, y, w, h } = screenBox(thing, view);
  return { x: x - 12, y: y - 12, width: w + 24, height: h + 24 };
}

/**
 * The box of a screw takes in its letter, so that it neither crosses it nor lies on the brackets of what is picked.
 * @param {import("../sheet/things.js").Thing} thing @param {import("../sheet/view.js").View} view
 */
function aroundLetter(thing, view) {
  const { x, y } = view.toScreen(thing.at);
  const letter = /** @type {SVGTextElement|null} */ (thing.node.querySelector("text.letter"))?.getBBox();
  const out = aroundScrew(view);
  const ends = letter && letter.width > 0 ? [letter.x, letter.x + letter.width].map((at) => view.toScreen({ x: at, y: 0 }).x) : [x, x];
  const [left, right] = [Math.min(x - out, ...ends) - 4, Math.max(x + out, ...ends) + 4];
  return { x: left, y: y - out, width: right - left, height: 2 * out };
}

/** @param {SVGElement} group @param {import("../sheet/view.js").View} view @param {import("../sheet/things.js").Things} things @param {import("./list.js").Line} line
 *  @param {boolean} tagged with something in hand advice stands where the tag would be */
function paintShown(group, view, things, { row, number }, tagged) {
  for (const subject of row.subjects) {
    const thing = things.ofSubject(subject);
    if (!thing) continue;
    if (thing.path) group.append(draw("path", { d: pathOf(screenPath(thing, view)), class: "mark-shown-line" }));
    else group.append(draw("rect", { ...(thing.box ? aroundPart(thing, view) : aroundLetter(thing, view)), class: "mark-shown" }));
  }
  const first = things.ofSubject(row.subjects[0]);
  if (tagged && first && !first.box && row.severity !== "note") {
    const { at, side } = first.path ? (screwOf(things, first) ?? first) : first;
    const place = view.toScreen(at);
    // Below the wire and outside the part, so that it covers neither volts nor the letters of the next screws.
    group.append(tag(outward({ x: place.x, y: place.y + 28 }, side, 30), row.severity, String(number), 1.4));
  }
}

/**
 * A screw on which a conductor is landed: it tells on which side of it no part lies.
 * @param {import("../sheet/things.js").Things} things @param {import("../sheet/things.js").Thing} conductor
 */
function screwOf(things, conductor) {
  const landed = things.ends.find((end) => end.landed && end.name.startsWith(`${conductor.name}.`));
  return landed && things.get(`terminal:${landed.landed}`);
}
