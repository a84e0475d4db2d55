/** Joins the meter to its toggle in the calls strip, to the sheet, the panel and the keyboard. */

import { byId } from "../shared/dom.js";
import { KeptReadings } from "./kept.js";
import { Meter } from "./meter.js";
import { MeterPanel } from "./panel.js";
import { paintPins } from "./pins.js";

/** @param {import("../bench.js").Bench} bench */
export function installMeter(bench) {
  const { shown, surface } = bench;
  const meter = new Meter(bench);
  const panel = new MeterPanel(meter, new KeptReadings(shown.job));
  const toggle = byId("meter-toggle");
  bench.meter = meter;
  toggle.addEventListener("click", () => {
    meter.turn(!meter.isOn);
    // Rows of screws say what tapping them does, here as when something is in hand.
    bench.inHand.emit("changed");
  });
  surface.hand.add("pins", (group, view) => paintPins(group, view, surface.things, meter.probes));
  meter.on("changed", () => {
    toggle.setAttribute("aria-pressed", String(meter.isOn));
    shown.main.toggleAttribute("data-meter", meter.isOn);
    panel.fill();
    surface.hand.refresh("pins");
  });
  shown.on("shown", () => meter.isOn && meter.renew());
  bench.layouts.on("turned", () => meter.lift());
  // What was predicted is of the wiring that was checked last.
  bench.outbox.on("away", () => meter.isOn && meter.read(false));
  installPower(bench);
}

/**
 * Everything that feeds a 24 V source is switched off, for this look only.
 * @param {import("../bench.js").Bench} bench
 */
function installPower({ shown }) {
  const button = byId("power-off");
  button.addEventListener("click", () => {
    shown.conditions.powerOff = !shown.conditions.powerOff;
    shown.emit("asked");
  });
  shown.on("asked", () => button.setAttribute("aria-pressed", String(shown.conditions.powerOff)));
}

/**
 * Shift and Enter put a probe on the screw in focus, before the sheet takes it for a pull.
 * @param {import("../bench.js").Bench} bench
 */
export function installProbeKeys(bench) {
  bench.surface.host.addEventListener("keydown", (event) => {
    if (event.key !== "Enter" || !event.shiftKey || event.defaultPrevented) return;
    event.preventDefault();
    const thing = bench.surface.things.get(bench.focus.key);
    if (thing?.sort === "terminal") bench.meter.probe(thing.name);
    else bench.speech.say("A probe goes on a screw.");
  });
}
