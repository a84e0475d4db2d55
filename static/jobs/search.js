/** Finding a job by words of its title, once there are more than a handful. */

import { byId } from "../bench/shared/dom.js";

const A_HANDFUL = 4;

export function installSearch() {
  const rows = /** @type {HTMLElement[]} */ ([...document.querySelectorAll("li[data-job-row]")]);
  const older = /** @type {HTMLDetailsElement|null} */ (document.getElementById("older-jobs"));
  byId("job-search").hidden = rows.length <= A_HANDFUL;
  byId("job-query").addEventListener("input", (event) => {
    const words = /** @type {HTMLInputElement} */ (event.target).value.toLowerCase().split(/\s+/).filter(Boolean);
    let found = 0;
    for (const row of rows) {
      const title = row.querySelector("[data-job]")?.textContent?.toLowerCase() ?? "";
      row.hidden = !words.every((word) => title.includes(word));
      if (!row.hidden) found += 1;
    }
    if (older && words.length > 0) older.open = true;
    byId("job-found").textContent = words.length === 0 ? "" : found === 1 ? "1 job found." : `${found} jobs found.`;
  });
}
