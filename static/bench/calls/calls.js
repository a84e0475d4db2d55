/** The *Calls* strip: what each control asks for, its switches, and what then runs. */

import { byId, make } from "../shared/dom.js";
import { refill } from "../rows/index.js";
import { fillEffects, installWhyNot } from "./effects.js";

/** @param {import("../bench.js").Bench} bench */
export function installCalls(bench) {
  const region = byId("controls");
  installWhyNot(bench);
  const fill = () => {
    const { words } = bench.shown;
    const controls = words.calls.map((control) => controlGroup(bench, control));
    refill(region, controls.length > 0 ? controls : [make("p", { class: "quiet" }, "No control yet: add a thermostat to try a call.")]);
    const switches = words.calls.flatMap((control) => control.switches.map((one) => switchField(bench, one, words.calls.length > 1 ? control.label : "")));
    refill(byId("switches"), switches);
    fillEffects(bench);
  };
  bench.shown.on("shown", fill);
  bench.shown.on("unanswered", fill);
  bench.tryCalls = (values) => {
    bench.shown.calls.clear();
    for (const value of values) {
      const [part, call] = value.split("=");
      bench.shown.calls.set(part, call);
    }
    bench.shown.emit("asked");
  };
}

/** @param {import("../bench.js").Bench} bench @param {import("../job/types.js").ControlWords} control */
function controlGroup(bench, control) {
  const buttons = control.calls.map((call) =>
    make(
      "button",
      {
        type: "button",
        class: "call",
        "data-call": call.value,
        "data-f": call.value,
        "aria-pressed": String(call.asked),
        onclick: (/** @type {MouseEvent} */ event) => {
          press(/** @type {HTMLElement} */ (event.currentTarget));
          bench.shown.ask(control.part, call.call);
        },
      },
      call.words,
    ),
  );
  return make(
    "div",
    { class: "control", role: "group", "aria-label": `Calls of ${control.label}` },
    make("span", { class: "control-name" }, control.label),
    make("span", { class: "call-buttons" }, ...buttons),
  );
}

/**
 * A call looks pressed at once; what it does is shown when the server has said it.
 * @param {HTMLElement} button
 */
function press(button) {
  for (const other of button.parentElement?.children ?? []) other.setAttribute("aria-pressed", String(other === button));
}

/**
 * What a thermostat's own switch is set to, for this look only.
 * @param {import("../bench.js").Bench} bench @param {import("../job/types.js").ControlWords["switches"][number]} one
 * @param {string} label where several controls stand
 */
function switchField(bench, one, label) {
  const select = /** @type {HTMLSelectElement} */ (make("select", { "data-f": one.name, "data-switch": one.name, onchange: () => bench.shown.set(one.name, select.value, one.rest) }));
  for (const position of one.positions) {
    select.append(make("option", { value: position.value, selected: position.value === one.value }, position.words));
  }
  const [name] = one.words.split(";");
  return make("label", { class: "switch" }, make("span", {}, label ? `${name}, ${label}` : name), select);
}
