/** Joins the path that is followed to the sheet, the panel under it, the keyboard and speech. */

import { bring } from "../sheet/bring.js";
import { EDITED } from "../views/index.js";
import { paintPath, pointsOf } from "./marks.js";
import { Panel } from "./panel.js";
import { Why } from "./why.js";

/** @param {import("../bench.js").Bench} bench */
export function installWhy(bench) {
  const why = new Why(bench);
  const panel = new Panel(why);
  bench.why = why;
  bench.surface.hand.add("path", (group, view) => paintPath(group, view, bench.surface.things, why.followed));
  why.on("changed", (/** @type {boolean} */ isNew) => {
    panel.fill();
    pressed(why.key);
    bench.surface.hand.refresh("path");
    if (isNew) comesIntoSight(bench, why);
  });
  bench.shown.on("shown", () => why.renew());
  bench.outbox.on("away", () => why.leave());
  bench.layouts.on("turned", () => why.leave());
  // Before the sheet hears it: the first Esc leaves the path, unless something is in hand that it puts back.
  addEventListener("keydown", (event) => leavesOnEscape(bench, event), true);
}

/** @param {import("../bench.js").Bench} bench @param {KeyboardEvent} event */
function leavesOnEscape({ why, inHand }, event) {
  if (event.key !== "Escape" || why.key === null || inHand.held || document.querySelector("dialog[open]")) return;
  event.preventDefault();
  event.stopPropagation();
  why.leave();
}

/** @param {string|null} key */
function pressed(key) {
  for (const button of /** @type {NodeListOf<HTMLElement>} */ (document.querySelectorAll("[data-why]"))) {
    button.setAttribute("aria-pressed", String(button.dataset.why === key));
  }
}

/** @param {import("../bench.js").Bench} bench @param {Why} why */
function comesIntoSight(bench, { followed }) {
  const { surface, views, regions, speech } = bench;
  regions.turnTo("sheet");
  if (!followed) return;
  if (views.name !== EDITED) views.turnTo(EDITED);
  else bring(surface.view, pointsOf(surface.things, followed));
  speech.say([followed.title, followed.steps.at(-1)].filter(Boolean).join(" "));
}
