/** *More* lies over other things, so it goes away by Esc and by a tap beside it, as menus do. */

import { byId } from "../shared/dom.js";

export function installMore() {
  const more = /** @type {HTMLDetailsElement} */ (byId("more"));
  addEventListener("pointerdown", (event) => {
    if (!more.contains(/** @type {Node} */ (event.target))) more.open = false;
  }, true);
  more.addEventListener("keydown", (event) => {
    if (event.key !== "Escape" || !more.open) return;
    event.stopPropagation();
    more.open = false;
    more.querySelector("summary")?.focus();
  });
}
