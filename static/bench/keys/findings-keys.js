/** PageDown and PageUp: from finding to finding, focus on its first subject. */

/** @param {import("../bench.js").Bench} bench */
export function installFindingKeys(bench) {
  bench.stepFinding = (by) => {
    const lines = bench.findings.lines.standing;
    if (lines.length === 0) return bench.speech.say("No findings.");
    const at = lines.findIndex((line) => line.row.key === bench.findings.current);
    const next = at < 0 ? (by > 0 ? 0 : lines.length - 1) : (at + by + lines.length) % lines.length;
    const { row, number } = lines[next];
    if (row.key !== bench.findings.current) bench.showFinding(row.key);
    const subject = bench.surface.things.ofSubject(row.subjects[0]);
    if (subject) bench.focus.to(subject.key);
    return bench.speech.say(`${row.severity} ${number} of ${lines.length}. ${row.message}`);
  };
}
