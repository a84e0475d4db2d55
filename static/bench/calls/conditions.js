/** *Conditions*: what the weather and the mains are, for this look only. The panel stands over the strip that opens it. */

import { refill } from "../rows/index.js";
import { byId, make } from "../shared/dom.js";
import { besideTyped, fromCelsius, toCelsius, unitOfTemperature } from "../shared/temperatures.js";
import { USUAL } from "../job/conditions.js";

/** px around the panel. */
const BESIDE = 8;
/** °C */
const COLDEST = -80;
const WARMEST = 80;

/** @param {import("../bench.js").Bench} bench */
export function installConditions({ shown }) {
  const button = byId("conditions-open");
  const panel = byId("conditions");
  const outdoor = /** @type {HTMLInputElement} */ (byId("outdoor"));
  const supply = /** @type {HTMLInputElement} */ (byId("supply"));
  panel.addEventListener("toggle", () => {
    const room = { across: innerWidth - panel.offsetWidth - BESIDE, down: innerHeight - panel.offsetHeight - BESIDE };
    const above = innerHeight - byId("calls").getBoundingClientRect().top + BESIDE;
    panel.style.bottom = `${Math.min(above, room.down)}px`;
    panel.style.left = `${Math.max(BESIDE, Math.min(button.getBoundingClientRect().left, room.across))}px`;
  });
  const take = () => {
    if (!outdoor.reportValidity() || !supply.reportValidity()) return;
    shown.conditions.outdoor = toCelsius(outdoor.valueAsNumber, shown.words.length_unit);
    shown.conditions.supply = supply.valueAsNumber;
    shown.emit("asked");
  };
  outdoor.addEventListener("change", take);
  supply.addEventListener("change", take);
  byId("conditions-usual").addEventListener("click", () => {
    Object.assign(shown.conditions, USUAL);
    shown.conditions.open.clear();
    shown.emit("asked");
  });
  const say = () => {
    const { conditions } = shown;
    button.setAttribute("aria-pressed", String(!conditions.areUsual));
    supply.value = String(conditions.supply);
    if (!shown.said) return;
    const unit = shown.words.length_unit;
    byId("outdoor-unit").textContent = unitOfTemperature(unit);
    Object.assign(outdoor, { min: fromCelsius(COLDEST, unit), max: fromCelsius(WARMEST, unit), value: fromCelsius(conditions.outdoor, unit) });
    byId("outdoor-too").textContent = besideTyped(conditions.outdoor, unit);
  };
  shown.on("asked", say);
  shown.on("shown", () => {
    refill(byId("disconnects"), shown.words.conditions.supplies.map((one) => disconnect(shown, one)));
    // The unit is that of the job; what somebody types stays.
    if (byId("outdoor-unit").textContent !== unitOfTemperature(shown.words.length_unit)) say();
  });
  say();
}

/**
 * @param {import("../job/shown.js").Shown} shown
 * @param {import("../job/types.js").ConditionWords["supplies"][number]} supply
 */
function disconnect(shown, { name, words }) {
  const box = /** @type {HTMLInputElement} */ (make("input", { type: "checkbox", "data-f": `supply-${name}`, "data-supply": name, checked: !shown.conditions.open.has(name) }));
  box.addEventListener("change", () => {
    shown.conditions.open[box.checked ? "delete" : "add"](name);
    shown.emit("asked");
  });
  return make("li", {}, make("label", { class: "check" }, box, ` ${words}`));
}
