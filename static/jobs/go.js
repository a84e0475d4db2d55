/** What comes after a job was made, or was refused. */

import { byId } from "../bench/shared/dom.js";
import { keep, recall } from "../bench/shared/remember.js";

/** @param {import("../bench/job/requests.js").Outcome} outcome @param {string} title */
export function goTo(outcome, title) {
  if (outcome.sort === "answer") {
    const { id } = outcome.body;
    keep("jobs", [{ id, title }, ...(recall("jobs") ?? []).filter((/** @type {{id: string}} */ job) => job.id !== id)].slice(0, 200));
    location.assign(`/jobs/${encodeURIComponent(id)}`);
  } else byId("begin-words").textContent = refusalWords(outcome);
}

/** @param {import("../bench/job/requests.js").Outcome} outcome */
export function refusalWords(outcome) {
  if (outcome.sort === "away") return "The server cannot be reached. Try again when connected.";
  if (outcome.sort === "answer") return "";
  const { code, detail = "the server could not answer.", pointer, would_be_right: right } = outcome.problem;
  if (code === "newer-version") return detail;
  const where = pointer ? `line ${pointer}: ` : "";
  // What a part has stands in the sentence already.
  const more = right && code !== "unknown-terminal" ? ` Right would be: ${right}` : "";
  return `Not opened: ${where}${lower(detail)}${more}`;
}

/** @param {string} words */
const lower = (words) => (/^[A-Z][a-z]/.test(words) ? words[0].toLowerCase() + words.slice(1) : words);
