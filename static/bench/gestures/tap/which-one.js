/** *Which one?*: a short list beside the finger, nearest first, where screws are too crowded to guess. */

import { make } from "../../shared/dom.js";
import { calledIn, conductorOf, indexOf, nameOf } from "../../job/acts.js";

export class WhichOne {
  /** @param {import("../../bench.js").Bench} bench */
  constructor(bench) {
    this.bench = bench;
    this.dialog = /** @type {HTMLDialogElement} */ (make("dialog", { class: "which-one", "aria-label": "Which one?" }));
    bench.surface.host.after(this.dialog);
    // Not the click: that one still belongs to the tap that asked.
    this.dialog.addEventListener("pointerdown", (event) => {
      if (event.target === this.dialog) this.dialog.close();
    });
  }

  /**
   * @param {import("../../sheet/things.js").Thing[]} rivals @param {{x: number, y: number}} screen
   * @param {(key: string) => void} chosen
   */
  ask(rivals, screen, chosen) {
    const rows = rivals.map((thing) =>
      make("button", { type: "button", class: "row", "data-key": thing.key, onclick: () => {
        this.dialog.close();
        chosen(thing.key);
      } }, this.words(thing)),
    );
    const none = make("button", { type: "button", class: "row", onclick: () => this.dialog.close() }, "None of these");
    this.dialog.replaceChildren(make("h2", {}, "Which one?"), ...rows, none);
    this.dialog.showModal();
    this.place(screen);
    rows[0].focus();
  }

  /**
   * Beside the finger, but whole on the screen.
   * @param {{x: number, y: number}} screen
   */
  place(screen) {
    const host = this.bench.surface.host.getBoundingClientRect();
    const { width, height } = this.dialog.getBoundingClientRect();
    const left = Math.min(Math.max(8, host.left + screen.x + 24), innerWidth - width - 8);
    const top = Math.min(Math.max(8, host.top + screen.y - height / 2), innerHeight - height - 8);
    this.dialog.style.left = `${left}px`;
    this.dialog.style.top = `${top}px`;
  }

  /** @param {import("../../sheet/things.js").Thing} thing */
  words(thing) {
    const { words } = this.bench.shown;
    if (thing.sort === "terminal") return nameOf(words, thing.name);
    const end = words.conductors[conductorOf(thing.name)]?.ends[indexOf(thing.name)];
    return `End of ${calledIn(words, conductorOf(thing.name))}, ${end?.words ?? ""}`;
  }
}
