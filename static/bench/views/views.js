/**
 * The switch over the sheet: which view of the layout is shown. All of them show the same layout in the same situation
 * and share what is picked, so that whoever found a screw on the ladder finds it where it stands.
 *
 * Emits `turned` when another view is chosen.
 */

import { afterPaint } from "../shared/after-paint.js";
import { Emitter } from "../shared/emitter.js";
import { byId } from "../shared/dom.js";
import { bring, cornersOf } from "../sheet/bring.js";
import { CHANGES, EDITED, TITLES } from "./names.js";

const PHONE = matchMedia("(max-width: 599px)");
const MOST_SPOKEN = 140;

export class Views extends Emitter {
  /** @param {import("../bench.js").Bench} bench */
  constructor(bench) {
    super();
    this.bench = bench;
    this.name = EDITED;
    /**
     * Keys of what is to be brought into sight once the view is there.
     * @type {string[]}
     */
    this.wanted = [];
    this.takesKeyboard = false;
    /**
     * The view whose button was pressed and that is not yet turned to.
     * @type {string|null}
     */
    this.pressed = null;
    this.buttons = /** @type {HTMLElement[]} */ ([...document.querySelectorAll("[data-view-choice]")]);
    for (const button of this.buttons) button.addEventListener("click", ({ detail }) => this.press(button.dataset.viewChoice ?? EDITED, detail === 0));
    bench.surface.on("turned", () => this.arrived());
    this.show(PHONE.matches ? "words" : EDITED);
  }

  /** Whether wires are changed in what is on the sheet. */
  get edits() {
    return !this.bench.surface.things.looking;
  }

  /** @param {string} name @param {boolean} byKeyboard */
  press(name, byKeyboard) {
    // Whoever goes on by keyboard goes on into what was turned to.
    if (byKeyboard) return this.turnTo(name);
    this.pressed = name;
    this.mark(name);
    return afterPaint(() => this.pressed === name && this.turnTo(name));
  }

  /**
   * @param {string} name
   * @param {string[]} [wanted] keys of what is to be brought into sight there; what is picked, where nothing is said
   * @param {boolean} [takesKeyboard] whether the keyboard goes to the first of them
   */
  turnTo(name, wanted = [], takesKeyboard = false) {
    const { shown, surface, speech } = this.bench;
    const [there, asked] = [surface.name, shown.view];
    Object.assign(this, { wanted, takesKeyboard, pressed: null });
    this.show(name);
    shown.view = name === "words" ? EDITED : name;
    // Another view may still be on its way; it must not come after this one.
    if (shown.view !== there || shown.view !== asked) return shown.emit("asked");
    if (name === "words") return speech.say(`${TITLES.words}.`);
    return this.arrived();
  }

  /**
   * The view did not come: the switch says again what is on the sheet. Where the layout with which it compares was taken
   * away elsewhere, changes do not come any more, and the wiring is shown instead.
   * @param {boolean} isRefused
   */
  stay(isRefused) {
    const { shown, surface } = this.bench;
    if (shown.view === surface.name) return void (isRefused && this.name === CHANGES && this.turnTo(EDITED));
    shown.view = surface.name;
    this.show(surface.name);
  }

  /** @param {string} name */
  show(name) {
    this.name = name;
    this.bench.shown.main.dataset.view = name;
    this.mark(name);
    byId("sheet-heading").textContent = TITLES[name];
    this.bench.surface.host.setAttribute("aria-label", TITLES[name]);
    this.bench.surface.host.setAttribute("aria-describedby", name === EDITED ? "how" : "how-looking");
    this.emit("turned");
  }

  /** @param {string} name of the view whose button looks pressed */
  mark(name) {
    for (const button of this.buttons) button.setAttribute("aria-pressed", String(button.dataset.viewChoice === name));
  }

  arrived() {
    const { surface, picks, focus, speech, shown } = this.bench;
    if (!shown.said || this.name === "words") return;
    const keys = this.wanted.length > 0 ? this.wanted : [picks.last];
    const things = keys.flatMap((key) => surface.things.all(key).slice(0, 1));
    if (things.length > 0) {
      surface.measure();
      bring(surface.view, things.flatMap(cornersOf));
      focus.rove(things[0].key);
      if (this.takesKeyboard) focus.to(things[0].key);
    }
    Object.assign(this, { wanted: [], takesKeyboard: false });
    speech.say(`${TITLES[this.name]}. ${described(surface.drawing.svg)}`);
  }
}

/**
 * The first words of what a drawing says of itself.
 * @param {SVGSVGElement|null} svg
 */
function described(svg) {
  const sentences = (svg?.querySelector(":scope > desc")?.textContent ?? "").split(/(?<=\.) /);
  let said = "";
  for (const sentence of sentences) {
    if (said && said.length + sentence.length > MOST_SPOKEN) break;
    said = `${said} ${sentence}`.trim();
  }
  return said;
}
