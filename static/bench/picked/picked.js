/** The *Picked* region: the thing itself as heading, and everything that can be done to it. */

import { afterPaint } from "../shared/after-paint.js";
import { byId, make } from "../shared/dom.js";
import { refill } from "../rows/index.js";
import { partOf } from "../job/acts.js";
import { cableContent } from "../cables/index.js";
import { conductorContent } from "./conductor.js";
import { partContent } from "./part.js";
import { Purposes } from "./purpose.js";
import { terminalContent } from "./terminal.js";

/** @param {import("../bench.js").Bench} bench */
export function installPicked(bench) {
  const region = byId("picked-content");
  const heading = byId("picked-heading");
  const remove = /** @type {HTMLButtonElement} */ (byId("delete"));
  remove.addEventListener("click", () => bench.removePicked());
  const purposes = new Purposes(bench);
  let told = "";
  // To ask where a region is scrolled to would lay out the page each time.
  let scrolled = false;
  region.addEventListener("scroll", () => (scrolled = true));
  const show = () => {
    if (!bench.shown.said) return;
    const { title, content } = contentOf(bench, purposes, show);
    heading.textContent = title;
    remove.disabled = removable(bench) === 0;
    refill(region, content);
    const key = bench.picks.last ?? "";
    if (key !== told && scrolled) {
      region.scrollTop = 0;
      scrolled = false;
    }
    told = key;
  };
  // A tap picks, takes in hand and asks for advice: what is shown of it is made once, and after the mark at what was
  // tapped is on the screen.
  let due = false;
  bench.showPicked = () => {
    if (!due) return;
    due = false;
    show();
  };
  const showSoon = () => {
    if (!due) afterPaint(bench.showPicked);
    due = true;
  };
  addEventListener("keydown", (event) => event.key === "Tab" && bench.showPicked(), true);
  region.addEventListener("input", (event) => {
    /** @type {HTMLElement} */ (event.target).dataset.typed = "yes";
  });
  bench.picks.on("changed", showSoon);
  bench.inHand.on("changed", showSoon);
  bench.advice.on("changed", showSoon);
  purposes.on("known", showSoon);
  bench.shown.on("shown", () => {
    due = false;
    show();
  });
}

/** @param {import("../bench.js").Bench} bench */
function removable({ picks }) {
  return picks.names("part").length + picks.names("conductor").length + picks.names("cable").length;
}

/** @param {import("../bench.js").Bench} bench @param {Purposes} purposes @param {() => void} again
 *  @returns {{title: string, content: (Node|string)[]}} */
function contentOf(bench, purposes, again) {
  const { picks, shown } = bench;
  const { words } = shown;
  if (picks.keys.size > 1) {
    return { title: `${picks.keys.size} things picked`, content: [make("p", {}, "Drag one of them to move them together.")] };
  }
  const key = picks.last ?? "";
  const name = key.slice(key.indexOf(":") + 1);
  if (key.startsWith("part:") && words.parts[name]) return partContent(bench, words.parts[name]);
  if (key.startsWith("conductor:") && words.conductors[name]) return conductorContent(bench, words.conductors[name], purposes);
  if (key.startsWith("cable:") && words.cables[name]) return cableContent(bench, words.cables[name], again);
  const row = words.parts[partOf(name)]?.terminals.find((one) => one.terminal === name);
  if (key.startsWith("terminal:") && row) return terminalContent(bench, row);
  return { title: "Picked", content: [make("p", { class: "quiet" }, "Nothing is picked. Tap a part, a screw or a wire.")] };
}
