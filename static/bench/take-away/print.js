/**
 * Printing the page gives the drawing that is looked at, as the server made it, with its title block, legend and
 * caution; never the page around it, and never the part of the sheet that happens to be in view.
 */

import { make } from "../shared/dom.js";

/** @param {import("../bench.js").Bench} bench */
export function installPrint(bench) {
  /** @type {HTMLElement|null} */
  let paper = null;
  addEventListener("beforeprint", () => {
    const parsed = new DOMParser().parseFromString(bench.shown.drawing, "image/svg+xml");
    if (!bench.shown.drawing || parsed.querySelector("parsererror")) return;
    const drawing = document.importNode(parsed.documentElement, true);
    const [width, height] = ["width", "height"].map((name) => Number(drawing.getAttribute(name)));
    paper = make("div", { class: `on-paper${width > height ? " is-wide" : ""}` }, drawing);
    document.body.append(paper);
  });
  addEventListener("afterprint", () => {
    paper?.remove();
    paper = null;
  });
}
