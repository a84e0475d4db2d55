/** A screw: what it is for, what is landed, what stands there; and the other screws of its part. */

import { make } from "../shared/dom.js";
import { screwRow } from "../rows/index.js";

/** @param {import("../bench.js").Bench} bench @param {import("../job/types.js").TerminalWords} row */
export function terminalContent(bench, row) {
  const part = bench.shown.words.parts[row.part];
  const volts = row.volts ? ` ${row.volts} to common.` : "";
  const about = make("p", { class: "quiet" }, `${row.use}. Holds ${row.holds}.${row.volts === "floating" ? floating(bench.shown.words.conditions) : volts}`);
  const others = part.terminals.filter((one) => one !== row);
  return {
    title: `Terminal ${row.name}`,
    content: [
      about,
      make("ul", { class: "screws" }, screwRow(bench, row, "picked")),
      make("h3", {}, "The other screws of ", make("button", { type: "button", class: "link", "data-f": "whole", onclick: () => bench.picks.only(`part:${part.id}`) }, part.label)),
      make("ul", { class: "screws" }, ...others.map((one) => screwRow(bench, one, "picked"))),
    ],
  };
}

/**
 * Whoever has opened a disconnect is reminded of it where nothing is there any more.
 * @param {import("../job/types.js").ConditionWords} conditions
 */
function floating({ supplies }) {
  const off = supplies.filter(({ on }) => !on).map(({ words }) => words);
  const why = off.length > 0 ? ` The mains of ${off.join(" and ")} are off.` : "";
  return ` Floating: no source reaches this.${why}`;
}
