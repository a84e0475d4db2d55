/** `/`: go to a part, a screw or a conductor by name. */

import { byId, make } from "../shared/dom.js";
import { EDITED } from "../views/index.js";

const MOST = 12;

export class GoTo {
  /** @param {import("../bench.js").Bench} bench */
  constructor(bench) {
    this.bench = bench;
    this.dialog = /** @type {HTMLDialogElement} */ (byId("go-to"));
    this.field = /** @type {HTMLInputElement} */ (byId("go-to-field"));
    this.list = byId("go-to-list");
    this.field.addEventListener("input", () => this.fill());
    this.field.addEventListener("keydown", (event) => this.key(event));
    byId("go-to-open").addEventListener("click", () => this.open());
  }

  open() {
    this.field.value = "";
    this.fill();
    this.dialog.showModal();
    this.field.focus();
  }

  /** @returns {{key: string, words: string}[]} */
  get all() {
    const { parts, conductors, cables } = this.bench.shown.words;
    return [
      ...Object.values(parts).map((part) => ({ key: `part:${part.id}`, words: part.label })),
      ...Object.values(parts).flatMap((part) => part.terminals.map((row) => ({ key: `terminal:${row.terminal}`, words: row.name }))),
      ...Object.values(conductors).map((one) => ({ key: `conductor:${one.id}`, words: `${one.title}: ${one.between}` })),
      ...Object.values(cables).map((one) => ({ key: `cable:${one.id}`, words: one.label })),
    ];
  }

  fill() {
    const wanted = this.field.value.trim().toLowerCase().split(/[\s,]+/).filter(Boolean);
    const hits = this.all.filter(({ words }) => matches(words.toLowerCase(), wanted)).slice(0, MOST);
    this.list.replaceChildren(
      ...hits.map(({ key, words }, index) =>
        make("li", { role: "option", id: `go-to-${index}`, "data-goes": key, "aria-selected": String(index === 0), onclick: () => this.go(key) }, words),
      ),
    );
    this.mark(0);
  }

  /** @param {number} index */
  mark(index) {
    const options = [...this.list.children];
    this.at = Math.min(Math.max(0, index), options.length - 1);
    options.forEach((option, number) => option.setAttribute("aria-selected", String(number === this.at)));
    if (options[this.at]) this.field.setAttribute("aria-activedescendant", options[this.at].id);
    else this.field.removeAttribute("aria-activedescendant");
    options[this.at]?.scrollIntoView({ block: "nearest" });
  }

  /** @param {KeyboardEvent} event */
  key(event) {
    /** @type {Record<string, number>} */
    const steps = { ArrowDown: 1, ArrowUp: -1 };
    if (event.key in steps) {
      event.preventDefault();
      this.mark((this.at ?? 0) + steps[event.key]);
    } else if (event.key === "Enter") {
      event.preventDefault();
      const chosen = /** @type {HTMLElement|undefined} */ (this.list.children[this.at ?? 0]);
      if (chosen?.dataset.goes) this.go(chosen.dataset.goes);
    }
  }

  /** @param {string} key */
  go(key) {
    this.dialog.close();
    if (key.startsWith("cable:")) return this.bench.pickCable(key.slice(6));
    this.bench.regions.turnTo("sheet");
    const { views, surface, focus } = this.bench;
    if (surface.things.looking && !surface.things.get(key)) return views.turnTo(EDITED, [key], true);
    focus.to(key);
    return this.bench.targeted();
  }
}

/**
 * Every word must begin a word of the name; the first, where it is a screw's letter, may be all of it.
 * @param {string} words @param {string[]} wanted
 */
function matches(words, wanted) {
  const parts = words.split(/[\s,:]+/);
  return wanted.every((one) => parts.some((word) => word.startsWith(one)));
}
