/**
 * The keyboard on the sheet. Letters and digits are for screws, so commands use none.
 *
 * Rules of the file: a table from key to act; what an act does lives with the act. The page-wide keys (undo, redo)
 * also work outside the sheet, but never in a field where one types.
 */

import { openName } from "../picked/index.js";
import { nearEnd, nextConductor, otherEnd } from "./walk.js";
import { go, oneUp, toSideScrew } from "./move.js";
import { LOOKING_KEYS } from "./looking.js";
import { nudge } from "./nudge.js";
import { spell } from "./spell.js";
import { takeOffHere, removeHere } from "./remove-here.js";

/** @typedef {import("../bench.js").Bench} Bench */

/** @type {Record<string, (bench: Bench, event: KeyboardEvent) => unknown>} */
const EVERYWHERE = {
  PageDown: (bench) => bench.stepFinding(1),
  PageUp: (bench) => bench.stepFinding(-1),
  "/": (bench) => bench.goTo.open(),
  "+": (bench) => bench.zoomBy(1.25),
  "=": (bench) => bench.zoomBy(1.25),
  "-": (bench) => bench.zoomBy(0.8),
  "?": () => window.open("/keys", "_blank", "noopener"),
};

/**
 * Where wires are changed.
 * @type {typeof EVERYWHERE}
 */
const EDITING_KEYS = {
  ArrowLeft: (bench, event) => arrow(bench, event, -1, 0),
  ArrowRight: (bench, event) => arrow(bench, event, 1, 0),
  ArrowUp: (bench, event) => arrow(bench, event, 0, -1),
  ArrowDown: (bench, event) => arrow(bench, event, 0, 1),
  Enter: (bench) => enter(bench),
  Escape: (bench) => oneUp(bench),
  " ": (bench, event) => pick(bench, event.shiftKey),
  ".": (bench) => otherEnd(bench),
  ",": (bench) => nextConductor(bench),
  Delete: (bench) => removing(bench),
  Backspace: (bench) => removing(bench),
  Home: (bench) => toSideScrew(bench, 0),
  End: (bench) => toSideScrew(bench, -1),
  F2: (bench) => rename(bench),
};

/** @param {Bench} bench */
export function installKeys(bench) {
  bench.surface.host.addEventListener("keydown", (event) => onSheet(bench, event));
  addEventListener("keydown", (event) => onPage(bench, event));
}

/** @param {Bench} bench @param {KeyboardEvent} event */
function onSheet(bench, event) {
  if (event.altKey || event.defaultPrevented) return undefined;
  if (event.key === "ContextMenu" || (event.key === "F10" && event.shiftKey)) {
    event.preventDefault();
    return bench.openMenu();
  }
  const { looking } = bench.surface.things;
  const command = event.ctrlKey || event.metaKey;
  if (command && !event.key.startsWith("Arrow")) {
    if (event.key.toLowerCase() === "a" && !event.shiftKey && !looking) {
      event.preventDefault();
      bench.picks.only(...bench.surface.things.parts.map((part) => part.key));
    }
    return undefined;
  }
  const keys = { ...EVERYWHERE, ...(looking ? LOOKING_KEYS : EDITING_KEYS) };
  const act = keys[event.key] ?? (/^[A-Za-z0-9]$/.test(event.key) ? () => zeroOrLetter(bench, event.key) : undefined);
  if (!act) return undefined;
  event.preventDefault();
  return act(bench, event);
}

/** @param {Bench} bench @param {KeyboardEvent} event */
function onPage(bench, event) {
  if (!(event.ctrlKey || event.metaKey) || event.altKey || isTyping(event.target)) return;
  const key = event.key.toLowerCase();
  const does = key === "z" ? (event.shiftKey ? "redo" : "undo") : key === "y" ? "redo" : undefined;
  if (!does) return;
  event.preventDefault();
  bench.step(does);
}

/** @param {EventTarget|null} target */
const isTyping = (target) => target instanceof HTMLInputElement && ["text", "number", "search"].includes(target.type);

/**
 * `0` fits the sheet where no screw could be meant.
 * @param {Bench} bench @param {string} key
 */
function zeroOrLetter(bench, key) {
  if (!spell(bench, key) && key === "0") bench.surface.fit();
}

/** @param {Bench} bench @param {KeyboardEvent} event @param {number} dx @param {number} dy */
function arrow(bench, event, dx, dy) {
  const far = event.ctrlKey || event.metaKey;
  if (event.shiftKey) return nudge(bench, dx, dy, far ? 60 : 12);
  return go(bench, dx, dy);
}

/** @param {Bench} bench */
function enter(bench) {
  const thing = bench.surface.things.get(bench.focus.key);
  if (!thing) return bench.focus.to(bench.surface.things.parts[0]?.key ?? null);
  if (thing.sort === "part") return toSideScrew(bench, 0);
  if (thing.sort === "terminal") {
    if (bench.inHand.held) return bench.inHand.land(thing.name);
    return bench.inHand.take({ sort: "start", terminal: thing.name }, "keys");
  }
  const end = thing.sort === "end" ? thing.name : nearEnd(bench, thing);
  return bench.inHand.take({ sort: "end", end }, "keys");
}

/** @param {Bench} bench @param {boolean} more */
function pick(bench, more) {
  const key = bench.focus.key;
  if (!key || !bench.surface.things.get(key)) return;
  const meant = key.startsWith("end:") ? `conductor:${key.slice(4, key.lastIndexOf("."))}` : key;
  if (more) bench.picks.toggle(meant);
  else bench.picks.only(meant);
}

/** @param {Bench} bench */
function removing(bench) {
  const thing = bench.surface.things.get(bench.focus.key);
  if (!thing) return undefined;
  return thing.sort === "terminal" || thing.sort === "end" ? takeOffHere(bench, thing) : removeHere(bench, thing);
}

/** @param {Bench} bench */
function rename(bench) {
  const key = bench.focus.key;
  if (key?.startsWith("part:")) openName(bench, key.slice(5));
}
