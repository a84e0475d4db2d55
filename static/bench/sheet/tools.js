/** Zoom, fit, work size, back to where one was, and larger targets for a glove. */

import { byId } from "../shared/dom.js";
import { keep, recall } from "../shared/remember.js";
import { PITCH } from "./view.js";

/** @param {import("../bench.js").Bench} bench */
export function installTools(bench) {
  const { surface } = bench;
  const { view } = surface;
  const middle = () => ({ x: view.width / 2, y: view.height / 2 });
  bench.zoomBy = (factor) => view.zoom(factor, middle());
  byId("zoom-in").addEventListener("click", () => bench.zoomBy(1.25));
  byId("zoom-out").addEventListener("click", () => bench.zoomBy(0.8));
  byId("fit").addEventListener("click", () => surface.fit());
  byId("work-size").addEventListener("click", () => workSize(bench));
  byId("back-there").addEventListener("click", () => view.back());
  view.on("left", () => (byId("back-there").hidden = view.left === null));
  const tell = () => (byId("zoom-now").textContent = `${Math.round(view.scale * 100)} %`);
  view.on("changed", tell);
  surface.on("turned", tell);
  for (const button of /** @type {NodeListOf<HTMLElement>} */ (document.querySelectorAll("[data-pan]"))) {
    const [dx, dy] = (button.dataset.pan ?? "0,0").split(",").map(Number);
    button.addEventListener("click", () => view.pan((dx * view.width) / 4, (dy * view.height) / 4));
  }
  hands(bench);
}

/**
 * Screws far enough apart for the pointer, around what is picked.
 * @param {import("../bench.js").Bench} bench
 */
function workSize({ surface, picks, focus }) {
  const pitch = matchMedia("(pointer: coarse)").matches ? 44 : 24;
  const thing = surface.things.get(picks.last) ?? surface.things.get(focus.key);
  surface.view.scale = pitch / PITCH;
  const { x, y, w, h } = surface.content;
  surface.view.centre(thing?.at ?? { x: x + w / 2, y: y + h / 2 });
}

/** @param {import("../bench.js").Bench} bench */
function hands(bench) {
  const box = /** @type {HTMLInputElement} */ (byId("glove"));
  const show = () => {
    bench.glove = box.checked;
    document.documentElement.dataset.hands = box.checked ? "glove" : "bare";
  };
  box.checked = recall("glove") === true;
  box.addEventListener("change", () => {
    keep("glove", box.checked);
    show();
  });
  show();
}
