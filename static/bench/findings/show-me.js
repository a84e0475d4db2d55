/** *Show me*: bring what a finding is about into view, once, and leave a way back. */

import { PITCH } from "../sheet/view.js";

/** @param {import("../bench.js").Bench} bench */
export function installShowMe(bench) {
  bench.showFinding = (key) => {
    const { findings, surface, regions } = bench;
    findings.current = findings.current === key ? null : key;
    findings.fill();
    if (findings.current === null) return;
    regions.turnTo("sheet");
    const row = bench.shown.words.findings.find((one) => one.key === key);
    const things = (row?.subjects ?? []).map((subject) => surface.things.ofSubject(subject)).filter(Boolean);
    if (things.length === 0) return;
    bring(surface.view, things.map((thing) => thing.at));
    bench.focus.rove(things[0].key);
  };
}

/** @param {import("../sheet/view.js").View} view @param {{x: number, y: number}[]} points */
function bring(view, points) {
  const small = PITCH * view.scale < 11;
  if (!small && points.every((point) => view.sees(point))) return;
  view.leave();
  const xs = points.map((point) => point.x);
  const ys = points.map((point) => point.y);
  const x = Math.min(...xs) - 120;
  const y = Math.min(...ys) - 120;
  view.fit({ x, y, w: Math.max(...xs) + 120 - x, h: Math.max(...ys) + 120 - y }, 1);
}
