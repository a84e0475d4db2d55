/** The list of jobs: open a demo as a copy, start empty, or start from a file or a spreadsheet. */

import { openDemo } from "./open-demo.js";
import { installFromFile } from "./from-file.js";
import { installFromWires } from "./from-wires.js";
import { installStartEmpty } from "./start-empty.js";
import { showOwnJobs } from "./own-jobs.js";

for (const button of /** @type {NodeListOf<HTMLButtonElement>} */ (document.querySelectorAll("[data-demo]"))) {
  button.addEventListener("click", () => openDemo(button));
}
installStartEmpty();
installFromFile();
installFromWires();
showOwnJobs();
