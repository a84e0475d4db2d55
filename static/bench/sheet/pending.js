/** Edits that are sent but not checked yet: dotted lines, never heavy, never with arrows. */

import { draw } from "../shared/dom.js";

/** @param {import("../bench.js").Bench} bench */
export function installPending(bench) {
  const { surface, outbox } = bench;
  surface.hand.add("pending", (group, view) => {
    for (const { preview } of outbox.entries) {
      const from = surface.things.get(`terminal:${preview?.from}`);
      const to = surface.things.get(`terminal:${preview?.to}`);
      if (!from || !to) continue;
      const [a, b] = [view.toScreen(from.at), view.toScreen(to.at)];
      group.append(draw("line", { x1: a.x, y1: a.y, x2: b.x, y2: b.y, class: "mark-pulled" }));
      group.append(draw("text", { x: (a.x + b.x) / 2, y: (a.y + b.y) / 2 - 6, class: "mark-words" }, "not checked yet"));
    }
  });
  for (const name of ["queued", "saved", "refused", "idle"]) outbox.on(name, () => surface.hand.refresh("pending"));
}
