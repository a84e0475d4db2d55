/**
 * A wire list from a spreadsheet, chosen or dropped. The server reads it; what a list cannot say, the kinds of its
 * parts, is asked for. A list that is refused makes no job.
 */

import { byId } from "../bench/shared/dom.js";
import { post } from "../bench/job/requests.js";
import { AskKinds } from "./ask-kinds.js";
import { goTo, refusalWords } from "./go.js";
import { textOf } from "./text-of.js";

/** @typedef {{wires: string, parts?: string, kinds: Record<string, string>, title: string}} Question */

/** @type {Record<string, string>} */
const LISTS = { "/wires": "Wire list", "/parts": "Parts" };

export function installFromWires() {
  const form = byId("from-wires");
  const [wires, parts] = [fileField("wires-file"), fileField("parts-file")];
  const ask = new AskKinds();
  form.addEventListener("submit", async (event) => {
    event.preventDefault();
    const list = wires.files?.[0];
    if (!list) return say("Choose a wire list first.");
    say("");
    const title = list.name.replace(/\.[^.]*$/, "").replace(/[-_]+/g, " ").trim() || "From a wire list";
    const question = { wires: await textOf(list), title, kinds: {}, ...(parts.files?.[0] ? { parts: await textOf(parts.files[0]) } : {}) };
    const outcome = await post("/api/wires", question);
    if (outcome.sort === "answer") return open(outcome.body, title);
    if (outcome.sort === "refused" && outcome.problem.code === "kinds-asked") {
      return ask.open(outcome.problem.asked, (kinds) => openWith({ ...question, kinds }, ask));
    }
    return say(listWords(outcome));
  });
  takeDrops(form, wires);
}

/**
 * Once more, with the kinds; what is refused now is told where they were asked for.
 * @param {Question} question @param {AskKinds} ask
 */
async function openWith(question, ask) {
  const outcome = await post("/api/wires", question);
  if (outcome.sort !== "answer") return ask.say(listWords(outcome));
  return open(outcome.body, question.title);
}

/** @param {object} job @param {string} title */
const open = async (job, title) => goTo(await post("/api/jobs", job), title);

/** @param {string} words */
const say = (words) => void (byId("begin-words").textContent = words);

/**
 * Row and column stand in the server's words; which list it is does not.
 * @param {import("../bench/job/requests.js").Outcome} outcome
 */
function listWords(outcome) {
  const list = outcome.sort === "refused" && LISTS[outcome.problem.pointer];
  if (!list) return refusalWords(outcome);
  const { detail, would_be_right: right } = outcome.problem;
  const advice = right ? ` Right would be: ${right}.` : "";
  return `Not opened. ${list}: ${detail}${advice}`;
}

/** @param {string} id */
const fileField = (id) => /** @type {HTMLInputElement} */ (byId(id));

/**
 * A file dropped on the panel is the wire list.
 * @param {HTMLElement} panel @param {HTMLInputElement} field
 */
function takeDrops(panel, field) {
  const over = (/** @type {boolean} */ is) => panel.toggleAttribute("data-over", is);
  panel.addEventListener("dragover", (event) => {
    if (!event.dataTransfer?.types.includes("Files")) return;
    event.preventDefault();
    over(true);
  });
  panel.addEventListener("dragleave", () => over(false));
  panel.addEventListener("drop", (event) => {
    over(false);
    // Dropped on a field, a file is taken by that field.
    if (event.target instanceof HTMLInputElement || !event.dataTransfer?.files.length) return;
    event.preventDefault();
    field.files = event.dataTransfer.files;
    say(`Wire list: ${field.files[0].name}`);
  });
}
