/** One finding as a row. The row keeps its node for as long as it is listed; only its content is filled anew. */

import { draw, make } from "../shared/dom.js";
import { refill } from "../rows/index.js";
import { isAbout } from "./about.js";
import { asideButton, asideWords, reasonForm } from "./aside.js";

const SEVERITY = { danger: "Danger", warning: "Warning", note: "Note" };

/** @param {import("../bench.js").Bench} bench @param {import("./list.js").Line} line @param {HTMLElement} node
 *  @param {boolean} shownNow */
export function fillRow(bench, line, node, shownNow) {
  const { row, cleared } = line;
  node.className = `finding ${row.severity}${cleared ? " is-cleared" : ""}${row.aside ? " is-aside" : ""}`;
  node.classList.toggle("is-about", isAbout(bench, row));
  node.dataset.rule = row.rule;
  if (shownNow) node.setAttribute("aria-current", "true");
  else node.removeAttribute("aria-current");
  const within = node.contains(document.activeElement);
  // What is cleared keeps its height, so that nothing below it moves while somebody reads there.
  node.style.minHeight = cleared ? node.style.minHeight || `${node.getBoundingClientRect().height}px` : "";
  refill(node, [head(line), ...(cleared ? [mended(bench, row)] : [asideWords(row), inCalls(bench, row), each(row, node), more(row, node), acts(bench, row)])]);
  // What had focus is gone from a cleared row: the row itself takes it, so that it is never lost.
  if (cleared) node.tabIndex = -1;
  else node.removeAttribute("tabindex");
  if (within && !node.contains(document.activeElement)) node.focus({ preventScroll: true });
}

/** @param {import("./list.js").Line} line */
function head({ row, number, isNew, cleared }) {
  const word = cleared ? "cleared" : row.aside ? "set aside" : isNew ? "new" : "";
  return make(
    "p",
    { class: "finding-head" },
    mark(row.severity, number),
    make("span", { class: "unseen" }, `${SEVERITY[row.severity]} ${number}. `),
    make("span", { class: "message" }, row.message),
    word ? make("span", { class: "word" }, ` ${word}`) : "",
  );
}

/** @param {"danger"|"warning"|"note"} severity @param {number} number */
export function mark(severity, number) {
  const shapes = { danger: "M12 1L24 23H0Z", warning: "M12 1L23 12L12 23L1 12Z", note: "M4 4H20V20H4Z" };
  const svg = draw("svg", { class: `finding-mark ${severity}`, viewBox: "0 0 24 24", "aria-hidden": "true" });
  svg.append(draw("path", { d: shapes[severity] }), draw("text", { x: 12, y: severity === "danger" ? 20 : 16 }, String(number)));
  return svg;
}

/** @param {import("../bench.js").Bench} bench @param {import("../job/types.js").FindingRow} row */
function inCalls(bench, row) {
  if (row.shown_in.length === 0) return "";
  const tries = row.shown_in.flatMap((one, index) => [
    index > 0 ? ", " : "",
    one.words,
    " ",
    make("button", { type: "button", class: "small", "data-f": `${row.key}:try:${index}`, onclick: () => bench.tryCalls(one.calls) }, "Try", make("span", { class: "unseen" }, ` ${one.words}`)),
  ]);
  return make("p", { class: "shown-in" }, "Seen with ", ...tries);
}

/** @param {HTMLElement} node @param {string} selector of what opens in it */
const isOpen = (node, selector) => /** @type {HTMLDetailsElement|null} */ (node.querySelector(selector))?.open ?? false;

/**
 * What each of several notes said, where one row stands for all of them.
 * @param {import("../job/types.js").FindingRow} row @param {HTMLElement} node
 */
function each(row, node) {
  if (row.each.length === 0) return "";
  return make(
    "details",
    { class: "each", open: isOpen(node, "details.each") },
    make("summary", { "data-f": `${row.key}:each` }, `All ${row.each.length}`),
    make("ul", {}, ...row.each.map((one) => make("li", {}, one.message, one.meter ? ` ${one.meter}` : ""))),
  );
}

/** @param {import("../job/types.js").FindingRow} row @param {HTMLElement} node */
function more(row, node) {
  const lines = [row.why, row.meter, ...row.assumes.map((words) => `Assumes: ${words}`)].filter(Boolean);
  return make(
    "details",
    { open: isOpen(node, "details:not(.each)") },
    make("summary", { "data-f": `${row.key}:why` }, "Why"),
    ...lines.map((words) => make("p", {}, words)),
    make("p", {}, make("a", { href: `/findings/${row.rule}` }, `${row.title}: what it is and what to do`)),
  );
}

/**
 * What was just mended can be undone where one looks.
 * @param {import("../bench.js").Bench} bench @param {import("../job/types.js").FindingRow} row
 */
function mended(bench, row) {
  if (bench.findings.mended !== row.key) return "";
  return make("p", { class: "acts" }, "Mended.", make("button", { type: "button", "data-f": `${row.key}:undo`, onclick: () => bench.step("undo") }, "Undo", make("span", { class: "unseen" }, ` ${row.fix_words}`)));
}

/** @param {import("../bench.js").Bench} bench @param {import("../job/types.js").FindingRow} row */
function acts(bench, row) {
  const show = make("button", { type: "button", "data-f": `${row.key}:show`, onclick: () => bench.showFinding(row.key) }, "Show me");
  if (bench.findings.asking === row.key) return reasonForm(bench, row);
  const { fix } = row;
  if (!fix) return make("p", { class: "acts" }, show, asideButton(bench, row));
  const mend = () => {
    bench.findings.mended = row.key;
    return bench.submit({ operations: fix, step: `mend: ${row.fix_words.replace(/\.$/, "")}`, spoken: `Mended. ${row.fix_words}` });
  };
  return make(
    "p",
    { class: "acts" },
    show,
    make("button", { type: "button", "data-action": "fix", "data-f": `${row.key}:fix`, onclick: mend }, "Mend it"),
    asideButton(bench, row),
    make("span", { class: "fix-words" }, row.fix_words),
  );
}
