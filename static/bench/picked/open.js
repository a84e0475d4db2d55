/**
 * Pick one thing alone, go to where it is shown, and put focus on something there.
 * @param {import("../bench.js").Bench} bench @param {string} key @param {string} selector
 */
export function openPicked(bench, key, selector) {
  bench.picks.only(key);
  bench.regions.turnTo("picked");
  bench.showPicked();
  /** @type {HTMLElement|null} */ (document.querySelector(`#picked-content ${selector}`))?.focus();
}

/** @param {import("../bench.js").Bench} bench @param {string} part its id */
export const openName = (bench, part) => openPicked(bench, `part:${part}`, `[data-f="${CSS.escape(`${part}:label`)}"]`);
