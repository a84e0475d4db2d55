/**
 * Filling a region anew without losing what a person has there: focus (by `data-f`), a value being typed, the scroll.
 */

/** @param {HTMLElement} region @param {(Node|string)[]} content */
export function refill(region, content) {
  const active = /** @type {HTMLInputElement|null} */ (region.contains(document.activeElement) ? document.activeElement : null);
  const name = active?.dataset.f;
  const typed = active && "value" in active && active.dataset.typed === "yes" ? active.value : null;
  const scroll = region.scrollTop;
  region.replaceChildren(...content);
  region.scrollTop = scroll;
  if (!name) return;
  const again = /** @type {HTMLInputElement|null} */ (region.querySelector(`[data-f="${CSS.escape(name)}"]`));
  if (!again) return;
  if (typed !== null) again.value = typed;
  again.focus({ preventScroll: true });
}
