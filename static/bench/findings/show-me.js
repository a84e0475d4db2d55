/** *Show me*: bring what a finding is about into view, once, and leave a way back. */

import { bring } from "../sheet/bring.js";
import { EDITED } from "../views/index.js";

/** @param {import("../bench.js").Bench} bench */
export function installShowMe(bench) {
  bench.showFinding = (key) => {
    const { findings, surface, regions } = bench;
    findings.current = findings.current === key ? null : key;
    findings.fill();
    if (findings.current === null) return;
    regions.turnTo("sheet");
    const row = bench.shown.words.findings.find((one) => one.key === key);
    const things = (row?.subjects ?? []).flatMap((subject) => surface.things.ofSubject(subject) ?? []);
    if (things.length === 0) return void (surface.things.looking && bench.views.turnTo(EDITED, keysOf(row)));
    bring(surface.view, things.map((thing) => thing.at));
    bench.focus.rove(things[0].key);
  };
}

/**
 * Elements are shown as the part that they are in.
 * @param {import("../job/types.js").FindingRow|undefined} row
 */
function keysOf(row) {
  return (row?.subjects ?? []).map((subject) => subject.replace(/^element:([^.]+)\..*$/, "part:$1"));
}
