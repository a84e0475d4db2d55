/**
 * The list of jobs: open a demo as a copy, start empty, from a common system, a file or a
 * spreadsheet; find, copy and export those that are there.
 */

import { installDrop } from "./drop.js";
import { openDemo } from "./open-demo.js";
import { installFromFile } from "./from-file.js";
import { installFromWires } from "./from-wires.js";
import { installStartEmpty } from "./start-empty.js";
import { showOwnJobs } from "./own-jobs.js";
import { installRows } from "./rows.js";
import { installSearch } from "./search.js";

for (const button of /** @type {NodeListOf<HTMLButtonElement>} */ (document.querySelectorAll("[data-demo]"))) {
  button.addEventListener("click", () => openDemo(button));
}
installStartEmpty();
installFromFile();
installFromWires();
showOwnJobs();
installRows();
installSearch();
installDrop();
for (const button of document.querySelectorAll("[data-waits]")) button.removeAttribute("disabled");
