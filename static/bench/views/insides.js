/**
 * What is inside the parts, shown on the connection diagram or not. Symbols want room: where the sheet is seen from too
 * far away to read them, it comes nearer, and goes back when they are hidden again.
 */

import { byId } from "../shared/dom.js";
import { PITCH } from "../sheet/view.js";
import { EDITED } from "./names.js";

/** Screws this far apart on the screen leave small lettering its size. */
const READ_PITCH = 24;

/** @param {import("../bench.js").Bench} bench */
export function installInsides(bench) {
  const { shown, surface, picks } = bench;
  const { view } = surface;
  const button = byId("insides");
  let comesNearer = false;
  let goesBack = false;
  button.addEventListener("click", () => {
    shown.insides = !shown.insides;
    button.setAttribute("aria-pressed", String(shown.insides));
    shown.main.toggleAttribute("data-insides", shown.insides);
    [comesNearer, goesBack] = [shown.insides, !shown.insides];
    shown.emit("asked");
  });
  // Sheet and place change at once.
  surface.on("swapping", () => {
    if (surface.name !== EDITED) return;
    if (goesBack) view.back();
    goesBack = false;
  });
  surface.on("swapped", () => {
    if (!comesNearer || surface.name !== EDITED) return;
    comesNearer = false;
    if (view.detail === "near" || view.detail === "close") return;
    const middle = view.toSheet({ x: view.width / 2, y: view.height / 2 });
    view.leave();
    view.scale = READ_PITCH / PITCH;
    view.centre((surface.things.get(picks.last) ?? nearestPart(surface.things.parts, middle))?.at ?? middle);
  });
}

/** @param {import("../sheet/things.js").Thing[]} parts @param {import("../job/types.js").Point} point */
function nearestPart(parts, point) {
  const away = (/** @type {import("../sheet/things.js").Thing} */ { at }) => Math.hypot(at.x - point.x, at.y - point.y);
  return [...parts].sort((a, b) => away(a) - away(b))[0];
}
