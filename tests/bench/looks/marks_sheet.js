/**
 * The test sheet of marks: each state on a small sheet of its own, at three distances between screws, drawn by the
 * bench's own modules over a drawing of the server's. `data-case` and `data-pitch` say which is which.
 */

import { Advice, installAdvice } from "/static/bench/advice/index.js";
import { installTags } from "/static/bench/findings/index.js";
import { installCarry } from "/static/bench/gestures/carry.js";
import { fitLettering, freeLettering } from "/static/bench/sheet/lettering.js";
import { installPending } from "/static/bench/sheet/pending.js";
import { installPickMarks } from "/static/bench/sheet/pick-marks.js";
import { Picks } from "/static/bench/sheet/picks.js";
import { Surface } from "/static/bench/sheet/surface.js";
import { CHANGES, EDITED } from "/static/bench/views/names.js";
import { paintPins } from "/static/bench/meter/pins.js";
import { paintPath } from "/static/bench/why/marks.js";

const SIZES = { 12: [280, 190], 24: [400, 280], 48: [660, 420] };
const BEYOND_EDGE = 30;
const silent = { on: () => {} };

/** @param {string} severity @param {string[]} subjects */
const finding = (severity, subjects) => ({
  number: 3,
  row: { key: "a", severity, folded: false, parts: [subjects[0].split(":")[1].split(".")[0]], subjects },
});
const landings = (verdict) => Object.fromEntries(["tc.R", "tc.W", "tc.G", "tc.Y"].map((one) => [one, { verdict, why: "" }]));
const stop = { legs: [{ on: "conductor:w3" }], stop: { place: "terminal:tc.R", words: "stops here: R open" } };

/** What each case sets. Cases that begin with `all` show what may come together. */
export const CASES = {
  nothing: {},
  live: { drawing: "live" },
  open: { drawing: "open" },
  hovered: { hovered: "terminal:tc.W" },
  "picked conductor": { picks: ["conductor:w4"] },
  "picked part": { picks: ["part:tc"] },
  "picked screw": { picks: ["terminal:tc.W"] },
  "focus on conductor": { focus: "conductor:w4" },
  "focus on part": { focus: "part:tc" },
  "focus on screw": { focus: "terminal:tc.W" },
  danger: { standing: [finding("danger", ["part:tc"])] },
  warning: { standing: [finding("warning", ["part:tc"])] },
  "shown danger": { standing: [finding("danger", ["terminal:tc.R"])], shown: "a" },
  "shown warning": { standing: [finding("warning", ["terminal:tc.W"])], shown: "a" },
  "shown part": { standing: [finding("danger", ["part:tc"])], shown: "a" },
  "shown conductor": { standing: [finding("danger", ["conductor:w4"])], shown: "a" },
  "shown warning of a loose end": { drawing: "loose", standing: [finding("warning", ["conductor:w4", "terminal:tc.W"])], shown: "a" },
  "path stops": { followed: stop },
  "probe 1": { probes: ["tc.W", null] },
  "probe 2": { probes: [null, "tc.W"] },
  "landing odd": { held: "fb.G", verdicts: landings("odd") },
  "landing danger": { held: "fb.G", verdicts: landings("danger") },
  pulled: { held: "fb.G", verdicts: {}, carried: ["fb.G", "tc.G"] },
  "landed, not checked": { landed: { w9: { was: null, ends: ["fb.G", "tc.G"] } } },
  "taken off, not checked": { landed: { w4: { was: ["fb.W", "tc.W"], ends: ["fb.W", null] } } },
  "moved, not checked": { moved: { tc: [732, 48] } },
  "removed, not checked": { moved: { tc: null } },
  "all of a screw": { drawing: "live", picks: ["terminal:tc.R"], focus: "terminal:tc.R", standing: [finding("danger", ["terminal:tc.R"])], shown: "a" },
  "all of a conductor": { drawing: "live", picks: ["conductor:w4"], focus: "conductor:w4", standing: [finding("warning", ["part:tc"])] },
  "all of a path": { drawing: "live", picks: ["terminal:tc.R"], standing: [finding("danger", ["part:tc"]), { ...finding("warning", ["part:tc"]), number: 4 }], followed: stop },
  "all of the meter": { drawing: "live", probes: ["tc.W", "tc.Y"], picks: ["terminal:tc.W"], focus: "terminal:tc.Y", standing: [finding("danger", ["terminal:tc.R"])], shown: "a" },
  "changed: all, picked": { drawing: "changed: all", picks: ["conductor:w4", "terminal:tc.Y"], focus: "terminal:tc.G" },
  "all of a landing, shown": { held: "fb.G", verdicts: landings("odd"), standing: [finding("danger", ["terminal:tc.R"])], shown: "a" },
  "all of a landing": { drawing: "live", picks: ["terminal:fb.G"], focus: "terminal:tc.W", held: "fb.G", verdicts: landings("danger"), carried: ["fb.G", "tc.W"] },
};

/** @param {string} name @param {any} set @param {string} pitch @param {Record<string, string>} drawings */
function sheetOf(name, set, pitch, drawings) {
  const host = document.createElement("div");
  host.className = "sheet";
  const frame = document.createElement("figure");
  Object.assign(frame.dataset, { case: name, pitch });
  const [width, height] = SIZES[pitch];
  for (const [property, value] of [["position", "relative"], ["width", `${width}px`], ["height", `${height}px`]]) frame.style.setProperty(property, value);
  frame.append(host);
  document.querySelector("main").append(frame);
  const surface = new Surface(host);
  const held = set.held ? { sort: "start", terminal: set.held } : null;
  const bench = {
    surface,
    picks: new Picks(),
    focus: { ...silent, key: set.focus ?? null, visible: Boolean(set.focus) },
    hovered: set.hovered ?? null,
    inHand: { ...silent, held },
    outbox: silent,
    shown: { ...silent, words: { conductors: {}, parts: {} }, layOver: () => {}, changes: { parts: new Map(Object.entries(set.moved ?? {})), conductors: new Map(Object.entries(set.landed ?? {})) } },
    findings: { lines: { standing: set.standing ?? [] }, current: set.shown ?? null },
  };
  bench.advice = new Advice(bench);
  bench.advice.verdicts = set.verdicts ?? {};
  bench.picks.keys = new Set(set.picks ?? []);
  surface.hand.add("paper", (group, view) => {
    const sheet = document.createElementNS("http://www.w3.org/2000/svg", "rect");
    for (const [key, value] of Object.entries({ width: view.width, height: view.height, class: "paper" })) sheet.setAttribute(key, String(value));
    group.append(sheet);
  }, "under");
  installPickMarks(bench);
  installPending(bench);
  installCarry(bench);
  installTags(bench);
  installAdvice(bench);
  surface.hand.add("path", (group, view) => paintPath(group, view, surface.things, set.followed ?? null));
  surface.hand.add("pins", (group, view) => paintPins(group, view, surface.things, set.probes ?? []));
  surface.on("swapped", () => freeLettering(surface.drawing.svg));
  surface.fitted = true;
  surface.view.resize(width, height);
  const drawing = set.drawing ?? "idle";
  const view = drawing.startsWith("changed") ? CHANGES : EDITED;
  frame.dataset.view = view;
  surface.put(drawings[drawing], view);
  surface.view.scale = Number(pitch) / 24;
  const [x, y, w, h] = host.querySelector("[data-part=tc][data-box]").dataset.box.split(/[ ,]+/).map(Number);
  // What became of a wire stands on its last piece, before the screw.
  surface.view.centre({ x: view === CHANGES ? x + BEYOND_EDGE : x + w / 2, y: y + h / 2 });
  if (set.carried) bench.carried = () => ({ anchor: surface.things.get(`terminal:${set.carried[0]}`).at, at: surface.things.get(`terminal:${set.carried[1]}`).at });
  fitLettering(surface);
  surface.hand.refresh();
}

/** @param {Record<string, string>} drawings idle, live, open, and those of two layouts, which begin with `changed` */
export async function show(drawings) {
  await document.fonts.ready;
  const changes = Object.keys(drawings).filter((one) => one.startsWith("changed"));
  const cases = { ...CASES, ...Object.fromEntries(changes.map((drawing) => [drawing, { drawing }])) };
  for (const [name, set] of Object.entries(cases)) for (const pitch of Object.keys(SIZES)) sheetOf(name, set, pitch, drawings);
  await new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)));
}
