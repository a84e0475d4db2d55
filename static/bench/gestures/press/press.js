/**
 * One pointer's way from down to up, and which gesture it becomes. A tap is what never went farther than its slop.
 *
 * Rules of the file: listeners sit on the host alone, and the host captures the pointer, so a swap of the drawing
 * cannot end a drag. A gesture shows; only its drop changes the job. Esc, a second button, a drop outside the sheet
 * and a pointer that the system takes away end a gesture with nothing sent.
 */

import { hitOf, hitTest, reachOf, reachOn } from "../../sheet/hit.js";
import { spotAt } from "../../sheet/spots.js";
import { edgeScroll } from "./edge-scroll.js";

const SLOP = { mouse: 4, pen: 6, touch: 12, glove: 20 };
const PALM_PX = 60;
const SECOND_TOUCH_MS = 80;

/** @typedef {import("../../bench.js").Bench} Bench @typedef {import("../../job/types.js").Point} Point */
/** @typedef {{id: number, pointer: string, screen: Point, at: Point, hit: import("../../sheet/hit.js").Hit,
 *   button: number, shift: boolean, since: number}} Press */
/** @typedef {{screen: Point, at: Point, shift: boolean}} Where */
/** @typedef {{move(where: Where): void, drop(where: Where): void, cancel(): void, scrolls?: boolean}} Drag */
/** `looks` is true of a gesture that changes nothing. */
/** @typedef {{name: string, looks?: boolean, suits(press: Press, bench: Bench): boolean, begin(press: Press, bench: Bench): Drag}} Gesture */

export class Presses {
  /** @param {import("../../bench.js").Bench} bench @param {Gesture[]} gestures the first that suits is taken */
  constructor(bench, gestures) {
    this.bench = bench;
    this.gestures = gestures;
    this.host = bench.surface.host;
    /** @type {Press|null} */
    this.press = null;
    /** @type {Drag|null} */
    this.drag = null;
    /** @type {Map<number, Point>} fingers on the sheet */
    this.touches = new Map();
    /** @type {Where|null} where the pointer was last, for the scroll at the edge */
    this.edge = null;
    this.scrolling = false;
    this.listen();
  }

  listen() {
    /** @type {<K extends keyof HTMLElementEventMap>(name: K, act: (event: HTMLElementEventMap[K]) => void) => void} */
    const on = (name, act) => this.host.addEventListener(name, act);
    on("pointerdown", (event) => this.down(event));
    on("pointermove", (event) => this.move(event));
    on("pointerup", (event) => this.up(event));
    on("pointercancel", (event) => this.lost(event));
    on("lostpointercapture", (event) => this.lost(event));
    on("pointerleave", () => this.bench.hover(null));
    on("contextmenu", (event) => event.preventDefault());
    addEventListener("keydown", (event) => {
      if (event.key === "Escape" && this.drag) {
        event.stopPropagation();
        this.cancel();
      }
    }, true);
  }

  /** @param {PointerEvent} event */
  down(event) {
    if (event.pointerType === "touch") this.touches.set(event.pointerId, this.bench.surface.screenPoint(event));
    if (this.touches.size > 1) return this.secondFinger(event);
    if (this.press || Math.max(event.width, event.height) > PALM_PX) return;
    if (event.button > 1) return;
    const where = this.where(event);
    const pointer = event.pointerType || "mouse";
    this.press = { id: event.pointerId, pointer, button: event.button, since: event.timeStamp, hit: this.hitAt(where.at, pointer), ...where };
    this.host.setPointerCapture(event.pointerId);
    if (event.button === 1) event.preventDefault();
  }

  /**
   * Two fingers pan and zoom. A drag under way waits for the second finger to leave.
   * @param {PointerEvent} event
   */
  secondFinger(event) {
    if (this.press && !this.drag && event.timeStamp - this.press.since < SECOND_TOUCH_MS) this.press = null;
    if (!this.drag) this.press = null;
    this.host.setPointerCapture(event.pointerId);
    this.bench.pinch.begin([...this.touches.values()]);
  }

  /** @param {PointerEvent} event */
  move(event) {
    if (this.touches.has(event.pointerId)) this.touches.set(event.pointerId, this.bench.surface.screenPoint(event));
    if (this.touches.size > 1) return this.bench.pinch.move([...this.touches.values()]);
    const where = this.where(event);
    if (!this.press) return this.hover(event, where);
    if (event.pointerId !== this.press.id) return;
    if (this.drag && event.buttons & 2) return this.cancel();
    if (!this.drag && !this.begin(where)) return;
    this.drag?.move(where);
    if (this.drag?.scrolls) edgeScroll(this, where);
  }

  /** @param {Where} where @returns {boolean} whether the press has become a gesture */
  begin(where) {
    const press = /** @type {Press} */ (this.press);
    const slop = this.bench.glove ? SLOP.glove : (SLOP[/** @type {keyof SLOP} */ (press.pointer)] ?? SLOP.mouse);
    if (Math.hypot(where.screen.x - press.screen.x, where.screen.y - press.screen.y) < slop) return false;
    const gesture = this.gestures.find((one) => (one.looks || this.bench.views.edits) && one.suits(press, this.bench));
    if (!gesture) return false;
    this.bench.hover(null);
    this.bench.focus.grabbed(press.hit.key);
    this.bench.surface.hold(true);
    this.drag = gesture.begin(press, this.bench);
    return true;
  }

  /** @param {PointerEvent} event */
  up(event) {
    const pinching = this.touches.size > 1;
    this.touches.delete(event.pointerId);
    if (pinching) {
      if (this.press?.id === event.pointerId) this.cancel();
      return;
    }
    const press = this.press;
    if (!press || press.id !== event.pointerId) return;
    const drag = this.drag;
    this.press = null;
    this.drag = null;
    const where = this.where(event);
    if (drag) {
      if (this.isOutside(where.screen)) drag.cancel();
      else drag.drop(where);
      this.bench.surface.hold(false);
    } else if (press.button === 0) this.bench.tap(press);
  }

  /** @param {PointerEvent} event */
  lost(event) {
    this.touches.delete(event.pointerId);
    if (this.press?.id === event.pointerId) this.cancel();
  }

  cancel() {
    const drag = this.drag;
    this.press = null;
    this.drag = null;
    drag?.cancel();
    this.bench.surface.hold(false);
  }

  /** @param {PointerEvent} event @param {Where} where */
  hover(event, where) {
    if (event.pointerType !== "touch") this.bench.hover(this.hitAt(where.at, event.pointerType));
  }

  /** @param {PointerEvent} event @returns {Where} */
  where(event) {
    const screen = this.bench.surface.screenPoint(event);
    return { screen, at: this.bench.surface.view.toSheet(screen), shift: event.shiftKey };
  }

  /** @param {Point} at @param {string} pointer */
  hitAt(at, pointer) {
    const { surface, picks, glove } = this.bench;
    const { scale } = surface.view;
    if (surface.things.looking) return hitOf(spotAt(surface.things.spots, at, reachOf(pointer, glove).screw / scale));
    return hitTest(surface.things, at, scale, reachOn(pointer, glove, scale), picks.keys);
  }

  /** @param {Point} screen */
  isOutside(screen) {
    const { width, height } = this.bench.surface.view;
    return screen.x < 0 || screen.y < 0 || screen.x > width || screen.y > height;
  }
}
