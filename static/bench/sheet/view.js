/**
 * What part of the sheet is seen: the sheet point at the host's upper left corner, and screen pixels per sheet unit.
 */

import { Emitter } from "../shared/emitter.js";
import { clamp } from "./geometry.js";

/** Small enough for a job of a few hundred parts to be seen whole. */
export const LEAST = 0.04;
export const MOST = 4;
/** Screws are this far apart on the sheet. */
export const PITCH = 24;
/** Screws that are nearer to each other on screen have no letters, px. */
export const LETTERED_PITCH = 9.5;

/** @typedef {import("../job/types.js").Point} Point @typedef {{x: number, y: number, w: number, h: number}} Box */

export class View extends Emitter {
  constructor() {
    super();
    this.x = 0;
    this.y = 0;
    this.scale = 1;
    this.width = 1;
    this.height = 1;
    /** @type {{x: number, y: number, scale: number}|null} */
    this.left = null;
    /** Whether nobody has panned or zoomed since everything was fitted in. */
    this.fitted = false;
  }

  /** @param {Point} screen px in the host @returns {Point} */
  toSheet(screen) {
    return { x: this.x + screen.x / this.scale, y: this.y + screen.y / this.scale };
  }

  /** @param {Point} sheet @returns {Point} px in the host */
  toScreen(sheet) {
    return { x: (sheet.x - this.x) * this.scale, y: (sheet.y - this.y) * this.scale };
  }

  /** @param {number} width @param {number} height px of the host */
  resize(width, height) {
    this.width = Math.max(1, width);
    this.height = Math.max(1, height);
    this.emit("changed");
  }

  /** @param {number} dx @param {number} dy px by which the paper moves */
  pan(dx, dy) {
    this.fitted = false;
    this.x -= dx / this.scale;
    this.y -= dy / this.scale;
    this.emit("changed");
  }

  /** @param {number} factor @param {Point} screen what stays in its place */
  zoom(factor, screen) {
    this.fitted = false;
    const kept = this.toSheet(screen);
    this.scale = clamp(this.scale * factor, LEAST, MOST);
    this.x = kept.x - screen.x / this.scale;
    this.y = kept.y - screen.y / this.scale;
    this.emit("changed");
  }

  /** @param {Box} box @param {number} [most] greatest scale @param {number} [margin] px */
  fit(box, most = 1.25, margin = 16) {
    this.scale = this.scaleFor(box, most, margin);
    this.centre({ x: box.x + box.w / 2, y: box.y + box.h / 2 });
  }

  /** @param {Box} box @param {number} [most] @param {number} [margin] px @returns {number} the scale at which it fits */
  scaleFor(box, most = 1.25, margin = 16) {
    const across = (this.width - 2 * margin) / Math.max(1, box.w);
    const down = (this.height - 2 * margin) / Math.max(1, box.h);
    return clamp(Math.min(across, down), LEAST, most);
  }

  /**
   * Show the upper left corner of a box, as wide as there is room.
   * @param {Box} box @param {number} least scale
   */
  readFrom(box, least, margin = 12) {
    this.fitted = false;
    this.scale = clamp((this.width - 2 * margin) / Math.max(1, box.w), least, 1.25);
    this.x = box.x - margin / this.scale;
    this.y = box.y - margin / this.scale;
    this.emit("changed");
  }

  /** @param {Point} sheet */
  centre(sheet) {
    this.fitted = false;
    this.x = sheet.x - this.width / 2 / this.scale;
    this.y = sheet.y - this.height / 2 / this.scale;
    this.emit("changed");
  }

  /** Remember where one is, for *Back to where I was*. */
  leave() {
    this.left = { x: this.x, y: this.y, scale: this.scale };
    this.emit("left");
  }

  back() {
    if (!this.left) return;
    Object.assign(this, this.left);
    this.left = null;
    this.emit("left");
    this.emit("changed");
  }

  /** @param {Point} sheet @param {number} [margin] px */
  sees(sheet, margin = 12) {
    const at = this.toScreen(sheet);
    return at.x >= margin && at.y >= margin && at.x <= this.width - margin && at.y <= this.height - margin;
  }

  /**
   * Bring a point into view by the shortest pan.
   * @param {Point} sheet @param {number} [margin] px
   */
  reveal(sheet, margin = 48) {
    const at = this.toScreen(sheet);
    const right = Math.max(margin, this.width - margin);
    const low = Math.max(margin, this.height - margin);
    const dx = at.x < margin ? margin - at.x : at.x > right ? right - at.x : 0;
    const dy = at.y < margin ? margin - at.y : at.y > low ? low - at.y : 0;
    if (dx !== 0 || dy !== 0) this.pan(dx, dy);
  }

  /**
   * How far screws are apart on screen decides how much is written.
   * @returns {"far"|"middle"|"near"|"close"}
   */
  get detail() {
    const pitch = PITCH * this.scale;
    if (pitch < LETTERED_PITCH) return "far";
    if (pitch < 22) return "middle";
    return pitch <= 44 ? "near" : "close";
  }
}
