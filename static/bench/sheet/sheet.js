/** Joins the sheet to what the server says: draw, dress, keep focus and picks, say when there is nothing yet. */

import { byId, draw } from "../shared/dom.js";
import { isThere } from "../job/there.js";
import { decorate } from "./decorate.js";
import { fitLettering, freeLettering } from "./lettering.js";

/** @param {import("../bench.js").Bench} bench */
export function installSheet(bench) {
  const { shown, surface, picks, focus, inHand } = bench;
  let within = false;
  shown.on("shown", () => {
    within = focus.within;
    surface.put(shown.drawing, shown.drawn);
    byId("empty").hidden = Object.keys(shown.words.parts).length > 0;
    byId("job-title").textContent = shown.words.title;
    document.title = `${shown.words.title} · Rungwright`;
  });
  surface.on("swapped", () => {
    const kept = document.activeElement === document.body ? within : focus.within;
    decorate(surface.things, shown.words, picks, focus.key);
    freeLettering(surface.drawing.svg);
    fitLettering(surface);
    picks.keepOnly((key) => isThere(shown.words, key));
    // To focus lays out the page: once, when every region has been filled.
    queueMicrotask(() => focus.restore(kept));
    dropWhatIsGone(bench);
  });
  surface.on("laid-out", () => fitLettering(surface));
  surface.hand.add("paper", (group, view) => {
    const { x, y, w, h } = surface.drawing.bounds;
    const at = view.toScreen({ x, y });
    group.append(draw("rect", { x: at.x, y: at.y, width: w * view.scale, height: h * view.scale, class: "paper" }));
  }, "under");
  picks.on("changed", () => decorate(surface.things, shown.words, picks, focus.key));
  surface.seeAll = () => {
    // Whoever sees all of a sheet that grows wants to go on seeing all of it.
    const { x, y, w, h } = surface.view.fitted ? surface.drawing.bounds : surface.content;
    if (!surface.view.sees({ x, y }, -2) || !surface.view.sees({ x: x + w, y: y + h }, -2)) surface.fit();
  };
  inHand.on("changed", () => shown.main.toggleAttribute("data-in-hand", inHand.held !== null));
}

/**
 * The source of a gesture may vanish while another device edits.
 * @param {import("../bench.js").Bench} bench
 */
function dropWhatIsGone({ inHand, shown, speech, presses }) {
  const { held } = inHand;
  if (!held) return;
  const id = held.sort === "end" ? held.end.slice(0, held.end.lastIndexOf(".")) : held.terminal.slice(0, held.terminal.indexOf("."));
  if (id in (held.sort === "end" ? shown.words.conductors : shown.words.parts)) return;
  presses.cancel();
  inHand.clear();
  speech.say(`${id} was removed on another device. Nothing changed here.`);
}
