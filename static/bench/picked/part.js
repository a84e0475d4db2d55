/** A part: its screws, its settings, what it is called and where it stands. */

import { make } from "../shared/dom.js";
import { screwRow } from "../rows/index.js";
import { fieldRow } from "./field.js";
import { placeButtons } from "./place.js";
import { settingRow } from "./setting.js";

/** @param {import("../bench.js").Bench} bench @param {import("../job/types.js").PartWords} part */
export function partContent(bench, part) {
  const known = part.kind !== "unknown";
  const about = make(
    "p",
    { class: "quiet about-part" },
    known ? make("a", { href: `/kinds/${part.kind}` }, part.kind_title) : part.kind_title,
    part.running.length > 0 ? `. Runs: ${part.running.join(", ")}.` : ".",
  );
  const screws = make("ul", { class: "screws" }, ...part.terminals.map((row) => screwRow(bench, row, "picked")));
  return { title: part.label, content: [about, screws, ...setUp(bench, part), ...fields(bench, part), ...cautions(part)] };
}

/** @param {import("../bench.js").Bench} bench @param {import("../job/types.js").PartWords} part */
function setUp(bench, part) {
  if (part.settings.length === 0) return [];
  const rows = part.settings.map((setting) => settingRow(bench, part.id, setting));
  return [make("h3", {}, "Set-up"), make("div", { class: "fields" }, ...rows)];
}

/** @param {import("../bench.js").Bench} bench @param {import("../job/types.js").PartWords} part */
function fields(bench, part) {
  return [
    make("h3", {}, "Name and place"),
    make(
      "div",
      { class: "fields" },
      fieldRow(bench, "parts", part.id, "label", "Name", part.given_label),
      fieldRow(bench, "parts", part.id, "place", "Where it stands", part.place),
      fieldRow(bench, "parts", part.id, "note", "Note", part.note),
    ),
    ...(bench.views.edits ? [make("h3", {}, "Its place on the sheet"), placeButtons(bench, part.id)] : []),
  ];
}

/** @param {import("../job/types.js").PartWords} part */
function cautions(part) {
  if (part.cautions.length === 0) return [];
  return [make("h3", {}, "Cautions"), make("ul", { class: "plain" }, ...part.cautions.map((words) => make("li", {}, words)))];
}
