/** A line of text that belongs to a part or a conductor. Leaving it or Enter is the one edit. */

import { make } from "../shared/dom.js";
import { setField } from "../job/acts.js";

/**
 * @param {import("../bench.js").Bench} bench @param {"parts"|"conductors"} among @param {string} id
 * @param {string} field @param {string} words @param {string} value
 */
export function fieldRow(bench, among, id, field, words, value) {
  const input = /** @type {HTMLInputElement} */ (
    make("input", { type: "text", value, maxlength: 200, "data-f": `${id}:${field}`, autocomplete: "off", onchange: changed })
  );
  async function changed() {
    const typed = input.value.trim();
    const said = field === "insulation" ? typed.toUpperCase() || null : typed;
    delete input.dataset.typed;
    if (said === (value || (field === "insulation" ? null : ""))) return;
    const saved = await bench.submit(setField(bench.shown.words, among, id, field, said));
    if (!saved) input.value = value;
  }
  return make("label", { class: "field" }, make("span", {}, words), input);
}
