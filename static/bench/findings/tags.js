/** Numbered shapes at the outer corner of the part that a danger or warning is about, and the box of a shown one. */

import { draw } from "../shared/dom.js";
import { pathOf, tag } from "../sheet/marks.js";
import { screenBox, screenPath } from "../sheet/pick-marks.js";

/** @param {import("../bench.js").Bench} bench */
export function installTags(bench) {
  const { surface, inHand } = bench;
  surface.hand.add("tags", (group, view) => {
    const { findings } = bench;
    if (!findings) return;
    if (!inHand.held) paintCorners(group, view, surface.things, findings);
    const shown = findings.lines.standing.find((line) => line.row.key === findings.current);
    if (shown) paintShown(group, view, surface.things, shown);
  });
  inHand.on("changed", () => surface.hand.refresh("tags"));
}

function paintCorners(group, view, things, findings) {
  const used = new Map();
  for (const { row, number } of findings.lines.standing) {
    const part = row.severity === "note" || row.folded ? undefined : things.get(`part:${row.parts[0]}`);
    if (!part) continue;
    const box = screenBox(part, view);
    const place = used.get(part.key) ?? 0;
    used.set(part.key, place + 1);
    group.append(tag({ x: box.x + box.w - 14 - place * 28, y: box.y - 18 }, row.severity, String(number)));
  }
}

function paintShown(group, view, things, { row, number }) {
  for (const subject of row.subjects) {
    const thing = things.ofSubject(subject);
    if (!thing) continue;
    if (thing.path) group.append(draw("path", { d: pathOf(screenPath(thing, view)), class: "mark-shown-line" }));
    const { x, y, w, h } = screenBox(thing, view);
    if (!thing.path) group.append(draw("rect", { x: x - 12, y: y - 12, width: w + 24, height: h + 24, class: "mark-shown" }));
  }
  const first = things.ofSubject(row.subjects[0]);
  if (first && !first.box && row.severity !== "note") {
    const at = view.toScreen(first.at);
    group.append(tag({ x: at.x + 30, y: at.y + 28 }, row.severity, String(number), 1.4));
  }
}
