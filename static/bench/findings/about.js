/** Which rows are about what is picked: they get brackets, and *Only about this* leaves the others away. */

import { byId } from "../shared/dom.js";
import { partOf } from "../job/acts.js";

/** @param {import("../bench.js").Bench} bench @param {import("../job/types.js").FindingRow} row */
export function isAbout({ picks }, row) {
  return [...picks.keys].some((key) => {
    if (row.subjects.includes(key)) return true;
    const [sort, name] = [key.slice(0, key.indexOf(":")), key.slice(key.indexOf(":") + 1)];
    return sort === "part" && row.subjects.some((subject) => /^(terminal|element):/.test(subject) && partOf(subject.slice(subject.indexOf(":") + 1)) === name);
  });
}

/** @param {import("../bench.js").Bench} bench */
export function installOnlyAbout(bench) {
  const { picks, findings, shown } = bench;
  const button = byId("only-about");
  const show = () => {
    for (const { row } of findings.lines.lines) findings.nodes.get(row.key)?.classList.toggle("is-about", isAbout(bench, row));
    button.hidden = picks.keys.size === 0;
    if (picks.keys.size === 0) turn(false);
  };
  const turn = (/** @type {boolean} */ on) => {
    shown.main.toggleAttribute("data-only-about", on);
    button.setAttribute("aria-pressed", String(on));
    // Whoever asks for what is about one thing wants to read it.
    for (const many of on ? findings.list.querySelectorAll("details:has(.is-about)") : []) /** @type {HTMLDetailsElement} */ (many).open = true;
  };
  button.addEventListener("click", () => turn(button.getAttribute("aria-pressed") !== "true"));
  picks.on("changed", show);
}
