/** *Add a cable*: how many conductors, their insulation codes, between which parts, what is known of the ends. */

import { byId, make } from "../shared/dom.js";
import { addCable, NOT_LOOKED } from "../job/cable-acts.js";
import { toMetres } from "../shared/lengths.js";
import { pickCable } from "./list.js";
import { chosenParts } from "./strips.js";

const CODE = /^[A-Z]{2,8}(\/[A-Z]{2,8})?$/;
const CODE_WORDS = "two to eight capitals such as RD or, with a tracer, WH/BU";

/** @typedef {import("../bench.js").Bench} Bench */

/** @param {Bench} bench */
export function installAddCable(bench) {
  const dialog = /** @type {HTMLDialogElement} */ (byId("cable-dialog"));
  const form = /** @type {HTMLFormElement} */ (byId("cable-form"));
  const field = (/** @type {string} */ name) => /** @type {HTMLInputElement|HTMLSelectElement} */ (form.elements.namedItem(name));
  const count = /** @type {HTMLSelectElement} */ (field("count"));
  const custom = () => (field("codes").value = count.selectedOptions[0].dataset.codes ?? "");
  count.addEventListener("change", custom);
  for (const name of ["first", "second"]) field(name).addEventListener("change", () => suggestName(bench, field));
  byId("cable-cancel").addEventListener("click", () => dialog.close());
  bench.askForCable = () => {
    form.reset();
    custom();
    fillParts(bench, [field("first"), field("second")]);
    // What was found is recorded before it is looked at; what is left is known.
    for (const name of ["first-ends", "second-ends"]) field(name).value = bench.shown.layout === "as-found" ? "unseen" : "loose";
    byId("cable-unit").textContent = bench.shown.words.length_unit;
    tell([]);
    suggestName(bench, field);
    dialog.showModal();
    field("first").focus();
  };
  form.addEventListener("submit", async (event) => {
    event.preventDefault();
    const codes = field("codes").value.toUpperCase().split(/[\s,;]+/).filter(Boolean);
    const wrong = wrongCodes(codes);
    tell(wrong);
    if (wrong.length > 0) return field("codes").focus();
    const { words } = bench.shown;
    const length = Number(field("length").value);
    const act = addCable(words, {
      codes,
      label: field("label").value.trim() || suggestedName(bench, field),
      size_awg: Number(field("size").value),
      length_m: length > 0 ? toMetres(length, words.length_unit) : null,
      ends: [endOf(field("first-ends").value), endOf(field("second-ends").value)],
    });
    [0, 1].forEach((side) => chosenParts.set(`${act.cable}:${side}`, field(side === 0 ? "first" : "second").value));
    dialog.close();
    if (await bench.submit(act)) pickCable(bench, act.cable);
    return undefined;
  });
}

/** @param {string} said @returns {null|{unknown: string}} */
const endOf = (said) => (said === "unseen" ? { unknown: NOT_LOOKED } : null);

/** @param {Bench} bench @param {(HTMLInputElement|HTMLSelectElement)[]} selects */
function fillParts(bench, selects) {
  const parts = Object.values(bench.shown.words.parts);
  for (const select of selects) {
    select.replaceChildren(make("option", { value: "" }, "not said"), ...parts.map((part) => make("option", { value: part.id }, part.label)));
  }
  const room = parts.find((part) => bench.shown.words.calls.some((control) => control.part === part.id));
  const picked = bench.picks.names("part")[0];
  const most = parts.filter((part) => part !== room).sort((a, b) => b.terminals.length - a.terminals.length)[0];
  selects[0].value = picked && picked !== room?.id ? picked : (most?.id ?? "");
  selects[1].value = room?.id ?? "";
}

/** @param {Bench} bench @param {(name: string) => HTMLInputElement|HTMLSelectElement} field */
function suggestName(bench, field) {
  /** @type {HTMLInputElement} */ (field("label")).placeholder = suggestedName(bench, field);
}

/** @param {Bench} bench @param {(name: string) => HTMLInputElement|HTMLSelectElement} field */
function suggestedName(bench, field) {
  const number = field("codes").value.split(/[\s,;]+/).filter(Boolean).length;
  const [first, second] = ["first", "second"].map((name) => bench.shown.words.parts[field(name).value]?.inner);
  const way = first && second ? `, ${first} to ${second}` : first || second ? `, ${first ?? second}` : "";
  return `${number}-conductor${way}`.slice(0, 200);
}

/** @param {string[]} codes @returns {{item: string, wrong: string, right: string}[]} */
function wrongCodes(codes) {
  if (codes.length === 0) return [{ item: "", wrong: "No conductor is named.", right: `a code for each conductor, ${CODE_WORDS}` }];
  return codes.filter((code) => !CODE.test(code)).map((code) => ({ item: code, wrong: `“${code}” is no insulation code.`, right: CODE_WORDS }));
}

/** @param {{wrong: string, right: string}[]} wrong */
function tell(wrong) {
  byId("cable-wrong").replaceChildren(...wrong.map((one) => make("li", {}, make("b", {}, one.wrong), ` Right would be ${one.right}.`)));
  byId("cable-codes").setAttribute("aria-invalid", String(wrong.length > 0));
}
