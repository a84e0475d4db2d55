/**
 * Filling a region anew without losing what a person has there: focus (by `data-f`), a value being typed, the scroll,
 * and a press that is under way. A button that is replaced between down and up would never be pressed, so the new
 * content waits for the pointer to be lifted.
 */

import { weave } from "./weave.js";

/** After a pointer is lifted its click may take this long. */
const CLICK_MS = 60;

/**
 * What waits, by region.
 * @type {Map<HTMLElement, (Node|string)[]>}
 */
const waiting = new Map();

/**
 * What a finger, a mouse button or the space bar holds down. `:active` does not say it: after a tap it lasts longer than
 * the click, and what the click shows would wait for the next one.
 * @type {Node|null}
 */
let held = null;
const hold = (/** @type {Event} */ event) => (held = /** @type {Node} */ (event.target));
const release = () => (held = null);
addEventListener("pointerdown", hold, true);
addEventListener("keydown", (event) => event.key === " " && hold(event), true);
addEventListener("click", release, true);
for (const name of ["pointerup", "pointercancel", "keyup"]) addEventListener(name, () => setTimeout(release, CLICK_MS), true);

/** @param {HTMLElement} region @param {(Node|string)[]} content */
export function refill(region, content) {
  if (!held || !region.contains(held)) {
    waiting.delete(region);
    return fill(region, content);
  }
  if (!waiting.has(region)) onceLifted(() => fillWaiting(region));
  waiting.set(region, content);
  return undefined;
}

/** @param {() => void} act */
function onceLifted(act) {
  const ends = new AbortController();
  for (const name of ["pointerup", "pointercancel", "keyup"]) {
    addEventListener(name, () => {
      ends.abort();
      setTimeout(act, CLICK_MS);
    }, { capture: true, signal: ends.signal });
  }
}

/** @param {HTMLElement} region */
function fillWaiting(region) {
  const content = waiting.get(region);
  waiting.delete(region);
  if (content) refill(region, content);
}

/** @param {HTMLElement} region @param {(Node|string)[]} content */
function fill(region, content) {
  const active = /** @type {HTMLInputElement|null} */ (region.contains(document.activeElement) ? document.activeElement : null);
  const name = active?.dataset.f;
  const typed = active && "value" in active && active.dataset.typed === "yes" ? active.value : null;
  // The scroll stays as it is: it is looked at anew when everything is laid out, and not asked for here, because that
  // would lay out the page once for each region.
  weave(region, content);
  if (!name || active?.isConnected) return;
  const again = /** @type {HTMLInputElement|null} */ (region.querySelector(`[data-f="${CSS.escape(name)}"]`));
  if (!again) return;
  if (typed !== null) again.value = typed;
  again.focus({ preventScroll: true });
}
