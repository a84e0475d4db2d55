/** The meter under the sheet: what should be read, which meter it is, what was read, and the standing caution. */

import { byId, make } from "../shared/dom.js";
import { nameOf } from "../job/acts.js";
import { refill } from "../rows/index.js";

const METERS = { ideal: "Volts, draws nothing", high: "Volts, 10 MΩ, a usual one", low: "Volts, 3 kΩ, low impedance", ohms: "Ohms, power off" };
const HOW = "Put P1 on a screw, then P2: tap it, or press Shift and Enter on it.";
const CAUTION = "Prove the meter on a source that is known to be live, before and after. Mains lie in the same cabinet: probe the 24 V side alone.";

export class MeterPanel {
  /** @param {import("./meter.js").Meter} meter @param {import("./kept.js").KeptReadings} kept */
  constructor(meter, kept) {
    Object.assign(this, { meter, kept });
    this.meter = meter;
    this.kept = kept;
    this.said = "";
    this.title = make("p", { class: "panel-title", id: "meter-words" });
    this.lift = make("button", { type: "button", class: "small", id: "meter-lift", onclick: () => meter.lift() }, "Lift the probes");
    this.sort = /** @type {HTMLSelectElement} */ (
      make("select", { id: "meter-sort", onchange: () => meter.choose(this.sort.value) }, ...Object.entries(METERS).map(([value, words]) => make("option", { value }, words)))
    );
    this.typed = /** @type {HTMLInputElement} */ (make("input", { id: "meter-read", type: "text", inputmode: "decimal", pattern: "[0-9]+([.,][0-9]+)?", maxlength: 8, autocomplete: "off" }));
    this.unit = make("span", {});
    this.answer = make("p", { id: "meter-said", role: "status" });
    this.rows = make("ol", { class: "plain", id: "meter-kept" });
    this.list = make("details", { class: "path-steps", hidden: true }, make("summary", {}), this.rows);
    this.node = make(
      "section",
      { class: "panel meter-panel", id: "meter-panel", "aria-label": "Meter", hidden: true },
      make("div", { class: "panel-head" }, this.title, this.lift),
      this.form(),
      this.answer,
      this.list,
      make("p", { class: "quiet meter-caution" }, make("b", {}, "Caution. "), CAUTION),
    );
    byId("panels").append(this.node);
  }

  form() {
    const keep = make("button", { type: "submit", class: "small" }, "Keep it");
    const form = make(
      "form",
      { class: "meter-form" },
      make("label", {}, "Meter ", this.sort),
      make("label", {}, "You read ", this.typed, " ", this.unit),
      keep,
    );
    form.addEventListener("submit", (event) => {
      event.preventDefault();
      this.keepTyped();
    });
    return form;
  }

  fill() {
    const { meter } = this;
    this.node.hidden = !meter.isOn;
    const [a, b] = meter.probes;
    this.title.textContent = meter.sentence || HOW;
    this.lift.hidden = a === null && b === null;
    this.sort.value = meter.sort;
    this.unit.textContent = meter.sort === "ohms" ? "Ω" : "V";
    this.typed.disabled = !a || !b;
    const place = `${a} ${b}`;
    if (place !== this.said) this.answer.textContent = "";
    this.said = place;
    this.fillKept();
  }

  keepTyped() {
    const { meter } = this;
    const [a, b] = meter.probes;
    const read = this.typed.value.trim().replace(",", ".");
    if (!a || !b || !read || !this.typed.checkValidity()) return void (this.answer.textContent = "A figure such as 25.8, with both probes on screws.");
    const { words } = meter.bench.shown;
    const kept = this.kept.add({
      from: nameOf(words, a),
      to: nameOf(words, b),
      read: `${read} ${this.unit.textContent}`,
      should: meter.known ? meter.words : "not predicted",
      situation: words.situation || "idle",
    });
    if (!kept) this.answer.textContent = "This device cannot keep more. Write the reading down.";
    else this.answer.textContent = meter.known ? "Your reading is kept on this device." : `${meter.words} Your reading is kept.`;
    if (kept) this.typed.value = "";
    this.fillKept();
  }

  fillKept() {
    const { all } = this.kept;
    this.list.hidden = all.length === 0;
    /** @type {HTMLElement} */ (this.list.firstChild).textContent = `Kept on this device (${all.length})`;
    refill(this.rows, all.map((one, index) => {
      const remove = () => {
        this.kept.remove(index);
        this.fillKept();
      };
      const words = `${one.from}, to ${one.to}, ${one.situation}: read ${one.read}; ${one.should}`;
      return make("li", {}, words, " ", make("button", { type: "button", class: "small", "data-f": `kept:${index}`, onclick: remove }, "Remove", make("span", { class: "unseen" }, ` ${words}`)));
    }));
  }
}
