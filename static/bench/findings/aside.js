/**
 * *Set aside*: a warning or a note with a reason that is kept in the job, as one edit that is undone like any other.
 * A danger is never set aside; that it is known and still open can be said.
 */

import { make } from "../shared/dom.js";

/** @typedef {import("../job/types.js").FindingRow} FindingRow @typedef {import("../bench.js").Bench} Bench */

const WORDS = {
  danger: { act: "Known, still open", reason: "What is known of it, and until when it stays open", undo: "Take that back", step: "say known, still open" },
  other: { act: "Set aside", reason: "Why it is set aside", undo: "Take it up again", step: "set aside" },
};

const wordsFor = (/** @type {FindingRow} */ row) => (row.severity === "danger" ? WORDS.danger : WORDS.other);

/**
 * Why it is set aside, or what has changed since.
 * @param {FindingRow} row
 */
export function asideWords(row) {
  if (row.back) return make("p", { class: "aside-words" }, make("b", {}, `back: ${row.back}`), `. It was set aside: ${row.reason || "no reason was given"}`);
  if (row.take_up.length === 0) return "";
  const begins = row.severity === "danger" ? "Known, still open" : "Set aside";
  return make("p", { class: "aside-words" }, `${begins}: ${row.reason || "no reason was given"}`);
}

/** @param {Bench} bench @param {FindingRow} row */
export function asideButton(bench, row) {
  const { act, undo, step } = wordsFor(row);
  if (row.take_up.length > 0 && !row.back) {
    const takeUp = () => bench.submit({ operations: row.take_up, step: `no longer ${step}: ${row.title}`, spoken: `${undo}.` });
    return make("button", { type: "button", "data-action": "take-up", "data-f": `${row.key}:aside`, onclick: takeUp }, undo);
  }
  return make("button", { type: "button", "data-action": "set-aside", "data-f": `${row.key}:aside`, onclick: () => bench.findings.ask(row.key) }, act);
}

/** @param {Bench} bench @param {FindingRow} row */
export function reasonForm(bench, row) {
  const { act, reason, step } = wordsFor(row);
  const field = /** @type {HTMLInputElement} */ (
    make("input", { type: "text", required: true, maxlength: 400, value: row.back ? row.reason : "", "data-f": `${row.key}:reason`, "data-typed": "yes", autocomplete: "off" })
  );
  const form = make(
    "form",
    { class: "acts reason" },
    make("label", { class: "field" }, make("span", {}, reason), field),
    make("button", { type: "submit", "data-f": `${row.key}:give` }, act),
    make("button", { type: "button", "data-f": `${row.key}:leave`, onclick: () => bench.findings.ask(null) }, "Leave it"),
  );
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    if (!field.value.trim()) return;
    bench.findings.asking = null;
    bench.submit({ operations: withReason(row.set_aside, field.value.trim()), step: `${step}: ${row.title}`, spoken: `${act}: ${field.value.trim()}.` });
  });
  form.addEventListener("keydown", (event) => {
    if (event.key !== "Escape") return;
    event.stopPropagation();
    bench.findings.ask(null);
  });
  return form;
}

/**
 * The server has written all but the reason.
 * @param {import("../job/types.js").Operation[]} operations @param {string} reason
 */
function withReason(operations, reason) {
  return operations.map((one) => (one.value && "reason" in one.value && one.op === "add" ? { ...one, value: { ...one.value, reason } } : one));
}
