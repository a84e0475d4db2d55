/** Where the server lists no jobs, this device keeps the addresses of those that it made or opened. */

import { byId } from "../bench/shared/dom.js";
import { recall } from "../bench/shared/remember.js";

export function showOwnJobs() {
  const list = byId("job-list");
  if (list.dataset.own !== "yes") return;
  const own = recall("jobs") ?? [];
  list.append(...own.map(rowOf));
  byId("no-jobs").hidden = own.length > 0;
}

/** @param {{id: string, title: string}} job */
function rowOf({ id, title }) {
  const copy = /** @type {DocumentFragment} */ (/** @type {HTMLTemplateElement} */ (byId("job-row")).content.cloneNode(true));
  const row = /** @type {HTMLElement} */ (copy.querySelector("li"));
  row.dataset.jobRow = id;
  const link = /** @type {HTMLAnchorElement} */ (row.querySelector("[data-job]"));
  Object.assign(link, { href: `/jobs/${encodeURIComponent(id)}`, textContent: title });
  link.dataset.job = id;
  /** @type {HTMLAnchorElement} */ (row.querySelector("[data-action=export-job]")).href = `/api/jobs/${encodeURIComponent(id)}`;
  for (const name of row.querySelectorAll(".job-acts .unseen")) name.textContent = ` ${title}`;
  return row;
}
