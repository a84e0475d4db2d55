/**
 * The bench: what all its modules share. It joins them and does nothing by itself.
 *
 * Reading order: `job/shown.js` (what the server said), `job/acts.js` and `job/outbox.js` (the one way to change it),
 * `sheet/surface.js` (drawing, index, view), `gestures/press/press.js`, then any feature folder.
 */

import { Advice } from "./advice/index.js";
import { AddRegion } from "./add-part/index.js";
import { GoTo } from "./go-to/index.js";
import { InHand } from "./in-hand/index.js";
import { Outbox } from "./job/outbox.js";
import { Shown } from "./job/shown.js";
import { Layouts } from "./layouts/index.js";
import { Loupe } from "./gestures/loupe/index.js";
import { Pinch } from "./gestures/pinch/index.js";
import { Regions } from "./regions/index.js";
import { Focus } from "./sheet/focus.js";
import { Picks } from "./sheet/picks.js";
import { Surface } from "./sheet/surface.js";
import { Speech } from "./speech/index.js";
import { StateLine } from "./state-line/index.js";
import { WhichOne } from "./gestures/tap/index.js";
import { Views } from "./views/index.js";
import { Presses } from "./gestures/press/index.js";

/** @typedef {import("./job/types.js").Point} Point */

export class Bench {
  // What features join to the bench when they are installed; nobody asks for it before that.

  /** @type {(again?: boolean) => Promise<boolean>} what the circuit does in the situation that is asked for */
  look;
  /** @type {() => Promise<void>} */
  loadSteps;
  /** @type {(does: "undo"|"redo") => unknown} */
  step;
  /** @type {(first?: number) => unknown} */
  showHistory;
  /** @type {(press: import("./gestures/press/press.js").Press) => unknown} */
  tap;
  /** @type {() => unknown} */
  removePicked;
  /** @type {() => void} *Picked* tells at once what it would tell after the next paint: somebody goes there */
  showPicked;
  /** @type {() => void} */
  openMenu;
  /** @type {(factor: number) => void} */
  zoomBy;
  /** @type {(values: string[]) => void} `part=call` of each */
  tryCalls;
  /** @type {import("./findings/findings.js").FindingsView} */
  findings;
  /** @type {(key: string) => void} */
  showFinding;
  /** @type {(by: number) => void} */
  stepFinding;
  /** @type {() => void} */
  askForCable;
  /** @type {(cable: string) => void} */
  pickCable;
  /** @type {(checked: boolean) => void} the last checked state in place of the edits that wait */
  showChecked;
  /** @type {import("./why/why.js").Why} */
  why;
  /** @type {import("./meter/meter.js").Meter} */
  meter;
  /** @type {import("./timeline/timeline.js").Timeline} */
  timeline;

  // What a gesture that is under way shows in the hand layer.

  /** @type {(() => {anchor: Point, at: Point})|null} both ends of what is carried */
  carried = null;
  /** @type {{x: number, y: number, w: number, h: number}|null} */
  boxed = null;
  /** @type {{parts: import("./sheet/things.js").Thing[], by: () => Point}|null} */
  outlines = null;

  /** @param {HTMLElement} main @param {HTMLElement} host @param {import("./gestures/press/press.js").Gesture[]} gestures */
  constructor(main, host, gestures) {
    this.shown = new Shown(main);
    this.outbox = new Outbox(this.shown);
    this.surface = new Surface(host);
    this.picks = new Picks();
    this.focus = new Focus(this.surface);
    this.speech = new Speech();
    this.advice = new Advice(this);
    this.inHand = new InHand(this);
    this.pinch = new Pinch(this.surface.view);
    this.loupe = new Loupe(this.surface);
    this.whichOne = new WhichOne(this);
    this.regions = new Regions(this);
    this.views = new Views(this);
    this.layouts = new Layouts(this);
    this.addRegion = new AddRegion(this);
    this.goTo = new GoTo(this);
    this.stateLine = new StateLine(this);
    this.glove = false;
    /** @type {string|null} key of what is under the pointer */
    this.hovered = null;
    /** @type {string|null} the screw from which the keyboard came onto a conductor */
    this.walkedFrom = null;
    this.presses = new Presses(this, gestures);
  }

  /** @param {import("./job/types.js").Act} act @returns {Promise<boolean>} whether it was saved */
  async submit(act) {
    const saved = await this.outbox.submit(act);
    if (saved && act.focus && (this.focus.within || document.activeElement === document.body)) this.focus.to(act.focus, false);
    return saved;
  }

  /** @param {import("./sheet/hit.js").Hit|null} hit */
  hover(hit) {
    const key = hit && hit.sort !== "paper" ? (hit.sort === "end" ? `conductor:${hit.name.slice(0, hit.name.lastIndexOf("."))}` : hit.key) : null;
    this.surface.host.dataset.over = this.views.edits ? (hit?.sort ?? "") : key ? "pick" : "";
    if (this.views.edits && this.inHand.held && this.inHand.by !== "drag") this.inHand.over(hit?.sort === "terminal" ? hit.name : null);
    if (key === this.hovered) return;
    this.hovered = key;
    this.surface.hand.refresh("hover");
  }

  /** The keyboard has come to a screw while something is in hand: say what landing here would mean. */
  targeted() {
    const key = this.focus.key;
    if (!this.views.edits || !this.inHand.held || !key?.startsWith("terminal:")) return;
    const terminal = key.slice(9);
    this.inHand.over(terminal);
    const said = this.advice.of(terminal);
    if (said && said.verdict !== "fine") this.speech.say(`${said.verdict === "danger" ? "Danger" : "Odd"}: ${said.why}`);
  }
}
