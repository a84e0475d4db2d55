/** The button that follows the path of an effect, and leaves it when it is pressed again. */

import { make } from "../shared/dom.js";

/** @param {import("../bench.js").Bench} bench @param {string} key `ou:compressor` @param {string} called @param {string} words
 *  @param {Record<string, string>} [more] further attributes */
export function whyButton(bench, key, called, words, more = {}) {
  return make(
    "button",
    {
      type: "button",
      class: "small why",
      "data-why": key,
      "data-f": `why:${key}`,
      "aria-pressed": String(bench.why.key === key),
      "aria-label": called,
      onclick: () => bench.why.toggle(key),
      ...more,
    },
    words,
  );
}
