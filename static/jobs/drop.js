/** A file that is dropped anywhere on the page: a job opens, a wire list goes to where its kinds are asked for. */

import { byId } from "../bench/shared/dom.js";
import { openFile } from "./from-file.js";

export function installDrop() {
  document.addEventListener("dragover", (event) => {
    if (event.dataTransfer?.types.includes("Files")) event.preventDefault();
  });
  document.addEventListener("drop", (event) => {
    const file = event.dataTransfer?.files[0];
    // What a panel or a field has taken is no longer for the page.
    if (!file || event.defaultPrevented || event.target instanceof HTMLInputElement) return;
    event.preventDefault();
    if (!/\.(csv|tsv|txt)$/i.test(file.name)) return void openFile(file);
    const field = /** @type {HTMLInputElement} */ (byId("wires-file"));
    field.files = event.dataTransfer?.files ?? null;
    /** @type {HTMLFormElement} */ (byId("from-wires")).requestSubmit();
  });
}
