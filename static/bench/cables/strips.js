/**
 * A whole strip at once: `R=RD C=BU Y=YE` at the screws of one part, for either end of a cable. The server reads it;
 * either everything in it is right and it is one edit, or each wrong item is told and nothing changes.
 */

import { make } from "../shared/dom.js";
import { post } from "../job/requests.js";
import { letterOf, partOf } from "../job/acts.js";

/** @typedef {import("../bench.js").Bench} Bench @typedef {import("../job/types.js").CableWords} CableWords */

/**
 * Which part a person looks at for a side of a cable, by `cable:side`.
 * @type {Map<string, string>}
 */
export const chosenParts = new Map();
/**
 * What is typed and what was wrong with it, by `cable:side`.
 * @type {Map<string, {text: string, wrong: any[], said: string}>}
 */
const drafts = new Map();

/**
 * The part whose screws are offered at a side.
 * @param {Bench} bench @param {CableWords} cable @param {number} side
 */
export function partAt(bench, cable, side) {
  const chosen = chosenParts.get(`${cable.id}:${side}`);
  return chosen && chosen in bench.shown.words.parts ? chosen : (cable.sides[side].parts[0] ?? "");
}

/**
 * The strip as it stands, so that it can be typed over.
 * @param {Bench} bench @param {CableWords} cable @param {number} side
 */
function standing(bench, cable, side) {
  const { words } = bench.shown;
  const part = partAt(bench, cable, side);
  const order = (words.parts[part]?.terminals ?? []).map((row) => row.terminal);
  const here = cable.cores.flatMap((core) => {
    const end = words.conductors[core.conductor].ends.find((one) => one.end === core.ends[side]);
    return end?.terminal && partOf(end.terminal) === part ? [{ at: order.indexOf(end.terminal), words: `${letterOf(end.terminal)}=${core.code}` }] : [];
  });
  return here.sort((a, b) => a.at - b.at).map((one) => one.words).join(" ");
}

/** @param {Bench} bench @param {CableWords} cable @param {number} side @param {() => void} again fills the region anew */
export function stripForm(bench, cable, side, again) {
  const key = `${cable.id}:${side}`;
  const draft = drafts.get(key);
  const name = `strip:${key}`;
  const input = /** @type {HTMLInputElement} */ (
    make("input", {
      type: "text", value: draft?.text ?? standing(bench, cable, side), "data-f": name, "data-strip": side, maxlength: 4000, autocomplete: "off",
      autocapitalize: "characters", spellcheck: "false", placeholder: "R=RD C=BU Y=YE", "aria-invalid": String((draft?.wrong.length ?? 0) > 0),
      "aria-describedby": `wrong-${side}`, oninput: () => drafts.set(key, { text: input.value, wrong: [], said: "" }),
    })
  );
  const parts = make(
    "select",
    { "data-f": `part:${key}`, "data-strip-part": side, onchange: () => {
      chosenParts.set(key, /** @type {HTMLSelectElement} */ (parts).value);
      drafts.delete(key);
      again();
    } },
    make("option", { value: "" }, "choose a part"),
    ...Object.values(bench.shown.words.parts).map((part) => make("option", { value: part.id, selected: part.id === partAt(bench, cable, side) }, part.label)),
  );
  const send = (/** @type {Event} */ event) => {
    event.preventDefault();
    land(bench, cable, side, input.value, again);
  };
  return make(
    "form",
    { class: "strip", onsubmit: send, novalidate: true },
    make("label", { class: "field" }, make("span", {}, `End ${side + 1} is at`), parts),
    make("label", { class: "field" }, make("span", {}, "Its strip, screw = insulation"), input),
    make("button", { type: "submit", "data-f": `land:${key}`, "data-action": "land-strip" }, "Land this strip"),
    make("ul", { class: "wrong-items", id: `wrong-${side}` }, ...(draft?.wrong ?? []).map(wrongRow)),
    draft?.said ? make("p", { class: "quiet" }, draft.said) : null,
  );
}

/** @param {{item: string, wrong: string, would_be_right: string}} one */
const wrongRow = (one) => make("li", { "data-item": one.item }, make("b", {}, one.wrong), ` Right would be ${one.would_be_right}.`);

/** @param {Bench} bench @param {CableWords} cable @param {number} side @param {string} text @param {() => void} again */
async function land(bench, cable, side, text, again) {
  const key = `${cable.id}:${side}`;
  const keep = (/** @type {any[]} */ wrong, /** @type {string} */ said) => {
    drafts.set(key, { text, wrong, said });
    again();
    bench.speech.say([said, ...wrong.map((one) => `${one.wrong} Right would be ${one.would_be_right}.`)].join(" ").trim());
  };
  const part = partAt(bench, cable, side);
  if (!part) return keep([{ item: "", wrong: "No part is chosen.", would_be_right: "the part whose screws these are" }], "");
  if (bench.outbox.entries.length > 0) return keep([], "Still sending. Try again in a moment.");
  const { shown } = bench;
  const outcome = await post(`${shown.address}/strips`, { layout: shown.layout, cable: cable.id, side, part, text });
  if (outcome.sort === "refused") {
    const { items, detail, would_be_right: right } = outcome.problem;
    return keep(items ?? [{ item: "", wrong: detail ?? "The strip was refused.", would_be_right: right ?? AN_ITEM }], items ? "Nothing was changed." : "");
  }
  if (outcome.sort !== "answer") return keep([], "A strip is read by the server, which cannot be reached. The rows below can still be set one by one.");
  const { operations, step, spoken } = outcome.body;
  if (operations.length === 0) return keep([], spoken);
  drafts.delete(key);
  // What was typed is an edit now; the field shows the strip as it stands.
  delete /** @type {HTMLElement|null} */ (document.querySelector(`[data-f="strip:${CSS.escape(key)}"]`))?.dataset.typed;
  return bench.submit({ operations, step, spoken });
}

const AN_ITEM = "a screw, an equals sign and an insulation code, such as R=RD";
