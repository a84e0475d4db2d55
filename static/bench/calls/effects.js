/** What runs, and what is waited for and does not run. Each of them leads to its path. */

import { byId, make } from "../shared/dom.js";
import { refill } from "../rows/index.js";
import { whyButton } from "../why/index.js";

/** @param {import("../bench.js").Bench} bench */
export function fillEffects(bench) {
  const { words } = bench.shown;
  refill(byId("effects"), runningWords(bench, words));
  refill(byId("waiting"), waitingWords(bench, words));
  byId("waiting").hidden = !words.waiting;
  fillOthers(bench, words);
}

/** @param {import("../bench.js").Bench} bench @param {import("../job/types.js").Words} words */
function runningWords(bench, words) {
  const opened = words.opened ? ` ${words.opened}` : "";
  if (words.effects.length === 0) return [words.runs + opened];
  return [
    "Runs: ",
    ...words.effects.flatMap(({ key, words: called, of }, index) => [
      index > 0 ? ", " : "",
      whyButton(bench, key, `${called}, ${of}: why it runs`, called, { "data-effect": key, class: "link why" }),
    ]),
    `.${opened}`,
  ];
}

/** @param {import("../bench.js").Bench} bench @param {import("../job/types.js").Words} words */
function waitingWords(bench, words) {
  const rows = words.idle.filter((row) => row.waited);
  return ["Not running: ", ...rows.flatMap(({ key, words: called, of }, index) => [
    index > 0 ? ", " : "",
    called,
    " ",
    whyButton(bench, key, `Why? ${called}, ${of}`, "Why?"),
  ])];
}

/**
 * Nobody waits for these, but they can be asked about.
 * @param {import("../bench.js").Bench} bench
 *  @param {import("../job/types.js").Words} words */
function fillOthers(bench, words) {
  const rows = words.idle.filter((row) => !row.waited);
  const select = /** @type {HTMLSelectElement} */ (byId("why-not"));
  byId("why-not-label").hidden = rows.length === 0;
  const parts = [...new Set(rows.map((row) => row.of))];
  refill(select, [
    make("option", { value: "" }, "Why not\u2026"),
    ...parts.map((of) => make("optgroup", { label: of }, ...rows.filter((row) => row.of === of).map((row) => make("option", { value: row.key }, row.words)))),
  ]);
  select.value = rows.find((row) => row.key === bench.why.key)?.key ?? "";
}

/** @param {import("../bench.js").Bench} bench */
export function installWhyNot(bench) {
  const select = /** @type {HTMLSelectElement} */ (byId("why-not"));
  select.addEventListener("change", () => (select.value ? bench.why.toggle(select.value) : bench.why.leave()));
  bench.why.on("changed", () => {
    if (bench.why.key === null) select.value = "";
  });
}
