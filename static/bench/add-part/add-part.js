/** *Add a part*: kinds by where they stand. The new part appears at a free place, focused and named. */

import { byId, make } from "../shared/dom.js";
import { ask } from "../job/requests.js";
import { addParts } from "../job/acts.js";
import { refill } from "../rows/index.js";

/** @param {import("../bench.js").Bench} bench */
export function installAddPart(bench) {
  let filled = "";
  bench.shown.on("shown", () => {
    const { kinds, systems } = bench.shown.words;
    const bare = Object.keys(bench.shown.words.parts).length === 0;
    const wanted = JSON.stringify([kinds, systems, bare]);
    if (wanted === filled) return;
    filled = wanted;
    const groups = kinds.map((group) => groupOf(bench, group));
    // A newcomer looks for a whole system first; later single parts are wanted.
    const whole = systemsGroup(bench, systems);
    refill(byId("add-kinds"), bare ? [whole, ...groups] : [...groups, whole]);
  });
}

/** @param {import("../bench.js").Bench} bench @param {import("../job/types.js").Words["kinds"][number]} group */
function groupOf(bench, group) {
  const buttons = group.kinds.map((row) =>
    make("li", {}, make("button", { type: "button", class: "row kind", "data-add-kind": row.kind, "data-f": row.kind, title: row.summary, onclick: () => add(bench, [row.kind]) }, row.title)),
  );
  return make("section", {}, make("h3", {}, group.title), make("ul", { class: "plain" }, ...buttons));
}

/** @param {import("../bench.js").Bench} bench @param {import("../job/types.js").Words["systems"]} systems */
function systemsGroup(bench, systems) {
  const buttons = systems.map((system) =>
    make("li", {}, make("button", { type: "button", class: "row kind", "data-add-system": system.name, "data-f": system.name, title: system.names, onclick: () => add(bench, system.kinds, `add ${system.title.toLowerCase()}`) }, system.title)),
  );
  return make("section", { id: "common-systems", tabindex: "-1" }, make("h3", {}, "Common systems, parts only"), make("ul", { class: "plain" }, ...buttons));
}

/**
 * Where is room is asked of the server; without it the drawing finds a place by itself.
 * @param {import("../bench.js").Bench} bench @param {string[]} kinds @param {string} [step]
 */
async function add(bench, kinds, step) {
  const { shown } = bench;
  const query = new URLSearchParams([["layout", shown.layout], ...kinds.map((kind) => ["kind", kind])]);
  const outcome = await ask(`/jobs/${shown.job}/places?${query}`);
  const rows = shown.words.kinds.flatMap((group) => group.kinds);
  const additions = kinds.map((kind, index) => {
    const { title, place } = rows.find((one) => one.kind === kind) ?? { title: kind, place: "" };
    return { kind, title, place, at: outcome.sort === "answer" ? outcome.body.places[index] : null };
  });
  const act = addParts(shown.words, additions, step);
  if (await bench.submit(act)) {
    bench.picks.only(`part:${act.parts[0]}`);
    bench.surface.seeAll();
    bench.addRegion.placed();
  }
}
