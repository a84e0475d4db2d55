/** The form over the timing chart: the call, when it ends, what opens, how long it is looked at. */

import { byId, make } from "../shared/dom.js";

/** @type {Record<string, "endsAt"|"lasts"|"opensAt">} */
const TIMES = { "run-end": "endsAt", "run-for": "lasts", "run-opens-at": "opensAt" };

/** @param {import("../bench.js").Bench} bench */
export function installRunForm(bench) {
  const { shown } = bench;
  const call = /** @type {HTMLSelectElement} */ (byId("run-call"));
  const opens = /** @type {HTMLSelectElement} */ (byId("run-opens"));
  byId("run").addEventListener("submit", (event) => event.preventDefault());
  call.addEventListener("change", () => {
    const [part, name] = call.value.split("=");
    shown.calls.clear();
    if (name) shown.calls.set(part, name);
    shown.emit("asked");
  });
  opens.addEventListener("change", () => {
    shown.run.opens = opens.value;
    byId("run-opens-when").hidden = !opens.value;
    shown.emit("asked");
  });
  for (const [id, field] of Object.entries(TIMES)) {
    const input = /** @type {HTMLInputElement} */ (byId(id));
    input.value = String(shown.run[field]);
    input.addEventListener("change", () => {
      if (!input.reportValidity()) return;
      shown.run[field] = input.valueAsNumber;
      shown.emit("asked");
    });
  }
  shown.on("shown", () => {
    fillCalls(call, shown.words);
    fillSafeties(opens, shown);
    byId("run-opens-when").hidden = !shown.run.opens;
  });
}

/** @param {HTMLSelectElement} select @param {import("../job/types.js").Words} words */
function fillCalls(select, words) {
  const asked = words.calls.flatMap((control) => control.calls.filter((one) => one.call && one.asked));
  const groups = words.calls.map((control) =>
    make("optgroup", { label: control.label }, ...control.calls.filter((one) => one.call).map((one) => make("option", { value: one.value }, one.words))),
  );
  const several = asked.length > 1 ? [make("option", { value: "several", disabled: true }, "several, see Calls")] : [];
  select.replaceChildren(make("option", { value: "" }, "none"), ...several, ...groups);
  select.value = asked.length > 1 ? "several" : (asked[0]?.value ?? "");
}

/** Whatever is closed at rest and can be open; a safety that is gone opens no more.
 *  @param {HTMLSelectElement} select @param {import("../job/shown.js").Shown} shown */
function fillSafeties(select, shown) {
  const controls = new Set(shown.words.calls.map((control) => control.part));
  const parts = Object.values(shown.words.parts).filter((part) => !controls.has(part.id));
  const groups = parts.map((part) => ({ part, safeties: part.settings.filter(isSafety) })).filter(({ safeties }) => safeties.length > 0);
  const names = groups.flatMap(({ part, safeties }) => safeties.map((one) => `${part.id}.${one.name}`));
  if (!names.includes(shown.run.opens)) shown.run.opens = "";
  select.replaceChildren(
    make("option", { value: "" }, "none"),
    ...groups.map(({ part, safeties }) =>
      make("optgroup", { label: part.label }, ...safeties.map((one) => make("option", { value: `${part.id}.${one.name}` }, one.words.split(";")[0]))),
    ),
  );
  select.value = shown.run.opens;
}

/** @param {import("../job/types.js").SettingWords} setting */
function isSafety({ sort, value, choices }) {
  return sort === "switch" && value === "closed" && choices.some((choice) => choice.value === "open");
}
