/** The *Findings* region. */

import { byId, make } from "../shared/dom.js";
import { Gathered } from "./gathered.js";
import { FindingLines } from "./list.js";
import { fillRow } from "./row.js";

const CLEAR_AFTER_MS = 5000;
const NOTHING_THERE = "Nothing is on the sheet yet.";
const NOTHING_WRONG = "Nothing wrong was found. Try each call to see what it runs.";

/** @param {import("../bench.js").Bench} bench */
export function installFindings(bench) {
  const view = new FindingsView(bench);
  bench.findings = view;
  bench.shown.on("shown", () => view.update());
  bench.layouts.on("turned", () => view.reset());
}

export class FindingsView {
  /** @param {import("../bench.js").Bench} bench */
  constructor(bench) {
    this.bench = bench;
    this.region = byId("findings");
    this.list = byId("finding-rows");
    this.folded = byId("finding-folded");
    this.lines = new FindingLines();
    /** @type {Map<string, HTMLElement>} */
    this.nodes = new Map();
    this.gathered = new Gathered();
    this.aside = byId("finding-aside");
    /** @type {string|null} the finding for which a reason is being written */
    this.asking = null;
    /** @type {string|null} the finding that is shown on the sheet */
    this.current = null;
    /** @type {string|null} the finding that was mended last */
    this.mended = null;
    /** @type {number|undefined} */
    this.timer = undefined;
    for (const name of ["pointerleave", "focusout"]) this.region.addEventListener(name, () => this.sweepLater());
  }

  reset() {
    this.lines = new FindingLines();
    this.gathered = new Gathered();
    this.nodes.clear();
    this.current = null;
    this.asking = null;
    for (const id of ["finding-rows", "folded-rows", "aside-rows"]) byId(id).replaceChildren();
  }

  get busy() {
    return this.region.matches(":hover") || this.region.contains(document.activeElement);
  }

  update() {
    const { words } = this.bench.shown;
    const at = this.region.querySelector(".finding:focus-within") ?? this.region.querySelector(".finding:hover");
    this.lines.update(words.findings, this.busy, /** @type {HTMLElement|null} */ (at)?.dataset.finding ?? null);
    if (!words.findings.some((row) => row.key === this.current)) this.current = null;
    this.fill();
    this.sweepLater();
  }

  /** Whoever is in the list keeps the row that she is at where it is on the screen. */
  fill() {
    const row = this.region.querySelector(".finding:focus-within") ?? this.region.querySelector(".finding:hover");
    const before = row?.getBoundingClientRect().top ?? 0;
    const within = this.region.contains(document.activeElement);
    this.fillRows();
    // A row that goes to another list takes its focus out of the page; then the region has it.
    if (within && !this.region.contains(document.activeElement)) byId("findings-content").focus({ preventScroll: true });
    if (row?.isConnected) byId("findings-content").scrollTop += row.getBoundingClientRect().top - before;
  }

  fillRows() {
    const { words } = this.bench.shown;
    byId("finding-counts").textContent = words.counts;
    byId("bar-findings").textContent = `Findings (${words.findings.filter((row) => !row.aside).length})`;
    const open = this.lines.lines.filter((line) => !line.row.folded && !line.below);
    const folded = this.lines.lines.filter((line) => line.row.folded && !line.below);
    const aside = this.lines.lines.filter((line) => line.below);
    place(this.list, this.gathered.order(open, this.busy).map((one) => ("lines" in one ? this.together(one) : this.row(one))));
    place(byId("folded-rows"), folded.map((line) => this.row(line)));
    place(byId("aside-rows"), aside.map((line) => this.row(line)));
    const listed = new Set(this.lines.lines.map((line) => line.row.key));
    for (const key of this.nodes.keys()) if (!listed.has(key)) this.nodes.delete(key);
    this.aside.hidden = aside.length === 0;
    byId("aside-words").textContent = `Set aside (${aside.length})`;
    this.folded.hidden = words.to_wire.parts.length === 0;
    byId("folded-words").textContent = words.to_wire.words;
    byId("folded-names").textContent = words.to_wire.names ? `Nothing is landed on ${words.to_wire.names} yet.` : "";
    byId("no-findings").textContent = Object.keys(words.parts).length === 0 ? NOTHING_THERE : NOTHING_WRONG;
    byId("no-findings").hidden = open.length > 0 || words.to_wire.parts.length > 0;
    this.bench.surface.hand.refresh("tags");
  }

  /** @param {import("./list.js").Line} line */
  row(line) {
    const { key } = line.row;
    const node = this.nodes.get(key) ?? make("li", { "data-finding": key });
    this.nodes.set(key, node);
    fillRow(this.bench, line, node, key === this.current);
    return node;
  }

  /** @param {import("./gathered.js").Together} one */
  together(one) {
    const { node, list } = this.gathered.row(one);
    place(list, one.lines.map((line) => this.row(line)));
    return node;
  }

  /**
   * Ask for the reason for which a finding is set aside; null to ask no more.
   * @param {string|null} key
   */
  ask(key) {
    this.asking = key;
    this.fill();
    const field = key === null ? null : /** @type {HTMLElement|null} */ (this.region.querySelector(`[data-f="${CSS.escape(`${key}:reason`)}"]`));
    field?.focus();
  }

  sweepLater() {
    clearTimeout(this.timer);
    this.timer = setTimeout(() => {
      if (this.busy) return;
      if (this.lines.sweep()) this.fill();
    }, CLEAR_AFTER_MS);
  }
}

/** @param {HTMLElement} list @param {HTMLElement[]} wanted */
function place(list, wanted) {
  for (const child of [...list.children]) {
    if (wanted.includes(/** @type {HTMLElement} */ (child))) continue;
    if (child.contains(document.activeElement)) byId("findings-content").focus({ preventScroll: true });
    child.remove();
  }
  wanted.forEach((node, index) => {
    if (list.children[index] !== node) list.insertBefore(node, list.children[index] ?? null);
  });
}
