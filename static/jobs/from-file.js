/** A job file of one's own. The server reads it; it is refused whole or taken whole. */

import { byId } from "../bench/shared/dom.js";
import { ask } from "../bench/job/requests.js";
import { goTo } from "./go.js";

export function installFromFile() {
  byId("from-file").addEventListener("submit", (event) => {
    event.preventDefault();
    const file = /** @type {HTMLInputElement} */ (byId("job-file")).files?.[0];
    if (!file) return void (byId("begin-words").textContent = "Choose a job file first.");
    return void openFile(file);
  });
}

/** @param {File} file */
export async function openFile(file) {
  const headers = { "Content-Type": "application/json" };
  goTo(await ask("/api/jobs", { method: "POST", headers, body: file }), file.name.replace(/\.json$/, ""));
}
