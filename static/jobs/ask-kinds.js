/** What a wire list cannot say: which kind each part is. Nothing is chosen beforehand, because a guess would be believed. */

import { byId, make } from "../bench/shared/dom.js";

/** @typedef {{part: string, letters: string[], suggestions: {kind: string, title: string}[]}} Asked */

export class AskKinds {
  constructor() {
    this.dialog = /** @type {HTMLDialogElement} */ (byId("ask-kinds"));
    this.form = /** @type {HTMLFormElement} */ (byId("ask-kinds-form"));
    /** @type {(kinds: Record<string, string>) => Promise<unknown>} */
    this.answered = async () => undefined;
    byId("ask-kinds-close").addEventListener("click", () => this.dialog.close());
    this.form.addEventListener("submit", (event) => {
      event.preventDefault();
      this.say("");
      this.answered(Object.fromEntries([...new FormData(this.form)].map(([part, kind]) => [part, String(kind)])));
    });
  }

  /** @param {Asked[]} asked @param {(kinds: Record<string, string>) => Promise<unknown>} answered */
  open(asked, answered) {
    this.answered = answered;
    this.say("");
    byId("ask-kinds-rows").replaceChildren(...asked.map(row));
    this.dialog.showModal();
    this.form.querySelector("select")?.focus();
  }

  /** @param {string} words */
  say(words) {
    byId("ask-kinds-said").textContent = words;
  }
}

/** @param {Asked} asked */
function row({ part, letters, suggestions }) {
  const suggested = new Set(suggestions.map((one) => one.kind));
  const others = /** @type {DocumentFragment} */ (/** @type {HTMLTemplateElement} */ (byId("every-kind")).content.cloneNode(true));
  for (const option of others.querySelectorAll("option")) if (suggested.has(option.value)) option.remove();
  const select = make(
    "select",
    { name: part, required: true },
    make("option", { value: "" }, "Choose..."),
    make("option", { value: "unknown" }, "Not known yet"),
    suggestions.length > 0 && make("optgroup", { label: "Fits" }, ...suggestions.map(({ kind, title }) => make("option", { value: kind }, title))),
    others,
  );
  const screws = letters.length > 0 ? `screws ${letters.join(", ")}` : "nothing is landed on it";
  return make("li", {}, make("label", { class: "field" }, make("span", {}, make("b", {}, part), `: ${screws}`), select));
}
