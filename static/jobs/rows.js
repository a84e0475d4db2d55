/** What can be done with a job in the list: copy it, take it away as a file named by its title, see its drawing. */

import { ask, post } from "../bench/job/requests.js";
import { byId } from "../bench/shared/dom.js";
import { goTo, refusalWords } from "./go.js";

const LONGEST_TITLE = 200;
const COPY = " (copy)";

export function installRows() {
  const seen = new IntersectionObserver((entries) => {
    for (const { isIntersecting, target } of entries) {
      if (!isIntersecting) continue;
      seen.unobserve(target);
      showDrawing(/** @type {HTMLElement} */ (target));
    }
  });
  for (const row of /** @type {NodeListOf<HTMLElement>} */ (document.querySelectorAll("li[data-job-row]"))) {
    const title = row.querySelector("[data-job]")?.textContent ?? "job";
    row.querySelector("[data-action=copy]")?.addEventListener("click", () => copy(row.dataset.jobRow ?? ""));
    row.querySelector("[data-action=export-job]")?.setAttribute("download", `${fileName(title)}.json`);
    seen.observe(row);
  }
}

/** @param {string} id */
async function copy(id) {
  const job = await ask(`/api/jobs/${encodeURIComponent(id)}`);
  if (job.sort !== "answer") return void (byId("begin-words").textContent = refusalWords(job));
  const title = `${String(job.body.title).slice(0, LONGEST_TITLE - COPY.length)}${COPY}`;
  return goTo(await post("/api/jobs", { ...job.body, title }), title);
}

/**
 * The drawing stands in the page, so that it takes the page's colours.
 * @param {HTMLElement} row
 */
async function showDrawing(row) {
  const place = /** @type {HTMLElement} */ (row.querySelector("[data-drawing]"));
  try {
    const reply = await fetch(`/jobs/${encodeURIComponent(row.dataset.jobRow ?? "")}/small.svg`, { credentials: "same-origin" });
    if (!reply.ok) return;
    const parsed = new DOMParser().parseFromString(await reply.text(), "image/svg+xml");
    if (!parsed.querySelector("parsererror")) place.replaceChildren(document.importNode(parsed.documentElement, true));
  } catch {
    // A list without drawings is a list all the same.
  }
}

/** @param {string} title */
function fileName(title) {
  return title.toLowerCase().replace(/[^a-z0-9]+/g, "-").replace(/^-+|-+$/g, "").slice(0, 80) || "job";
}
