/** A setting, a jumper or a switch of a part, as it is left. */

import { make } from "../shared/dom.js";
import { setSetting } from "../job/acts.js";
import { besideTyped, CELSIUS, fromCelsius, toCelsius, unitOfTemperature } from "../shared/temperatures.js";

/** @typedef {import("../job/types.js").SettingWords} SettingWords @typedef {(value: any, words: string) => unknown} Change */

/** @param {import("../bench.js").Bench} bench @param {string} part @param {SettingWords} setting */
export function settingRow(bench, part, setting) {
  const name = `${part}:set:${setting.name}`;
  /** @type {Change} */
  const change = (value, words) =>
    bench.submit(setSetting(bench.shown.words, part, setting.name, value, `to ${words}: ${setting.words.toLowerCase()}`));
  if (setting.unit === CELSIUS && typeof setting.value === "number") return temperature(bench.shown.words.length_unit, setting, name, change);
  const field = setting.choices.length > 0 ? choice(setting, name, change) : number(setting, name, change);
  const unit = setting.unit ? ` (${setting.unit})` : "";
  return make("label", { class: "field" }, make("span", {}, setting.words + unit), field);
}

/**
 * In the unit of the job, with the other one beside it.
 * @param {"ft"|"m"} length @param {SettingWords} setting @param {string} name @param {Change} change
 */
function temperature(length, setting, name, change) {
  const unit = unitOfTemperature(length);
  const bound = (/** @type {number|null|undefined} */ celsius) => (celsius == null ? celsius : fromCelsius(celsius, length));
  const shown = { ...setting, value: fromCelsius(setting.value, length), least: bound(setting.least), most: bound(setting.most) };
  const field = number(shown, name, (value) => change(toCelsius(value, length), `${value} ${unit}`));
  const other = make("span", { class: "quiet" }, besideTyped(setting.value, length));
  return make("label", { class: "field" }, make("span", {}, `${setting.words} (${unit})`), make("span", { class: "unit" }, field, " ", other));
}

/** @param {SettingWords} setting @param {string} name @param {Change} change */
function choice(setting, name, change) {
  const select = /** @type {HTMLSelectElement} */ (make("select", { "data-f": name, "data-setting": setting.name, onchange: () => {
    const chosen = setting.choices[select.selectedIndex];
    change(chosen.value, chosen.words);
  } }));
  for (const one of setting.choices) {
    select.append(make("option", { value: String(one.value), selected: one.value === setting.value }, one.words));
  }
  return select;
}

/** @param {SettingWords} setting @param {string} name @param {Change} change */
function number(setting, name, change) {
  const isNumber = typeof setting.value === "number";
  const input = /** @type {HTMLInputElement} */ (make("input", {
    type: isNumber ? "number" : "text",
    value: setting.value,
    min: setting.least,
    max: setting.most,
    step: "any",
    "data-f": name,
    "data-setting": setting.name,
    onchange: () => {
      const value = isNumber ? Number(input.value) : input.value;
      delete input.dataset.typed;
      if (input.checkValidity() && input.value !== "") change(value, String(value));
    },
  }));
  return input;
}
