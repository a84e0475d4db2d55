/** What comes after a job was made, or was refused. */

import { byId } from "../bench/shared/dom.js";
import { keep, recall } from "../bench/shared/remember.js";

/** @param {import("../bench/job/requests.js").Outcome} outcome @param {string} title */
export function goTo(outcome, title) {
  if (outcome.sort === "answer") {
    const { id } = outcome.body;
    keep("jobs", [{ id, title }, ...(recall("jobs") ?? []).filter((job) => job.id !== id)].slice(0, 200));
    location.assign(`/jobs/${encodeURIComponent(id)}`);
  } else byId("begin-words").textContent = refusalWords(outcome);
}

/** @param {import("../bench/job/requests.js").Outcome} outcome */
export function refusalWords(outcome) {
  if (outcome.sort === "away") return "The server cannot be reached. Try again when connected.";
  const { detail = "the server could not answer.", pointer, would_be_right: right } = outcome.problem;
  const where = pointer ? `line ${pointer}: ` : "";
  return `Not opened: ${where}${detail}${right ? ` Right would be: ${right}` : ""}`;
}
