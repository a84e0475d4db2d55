/**
 * Undo and redo of this editor: inverses as the server gave them, so that the page never works out how to go back.
 *
 * Rules of the file: joined nudges share a gesture and are one step. The stacks are made from the log of the server,
 * of which only as many of the newest changes are here as are needed; a reload loses nothing.
 */

/** @typedef {{step: string, gesture: string, inverse: import("./types.js").Operation[]}} Step */
/** @typedef {{revision: number, does: "do"|"undo"|"redo", step: string, gesture: string, editor?: string,
 *   inverse: import("./types.js").Operation[]}} Change */

export class Steps {
  constructor() {
    /**
     * The newest changes of this editor, oldest first.
     * @type {Change[]}
     */
    this.changes = [];
    /**
     * The revision before which there are more of them.
     * @type {number|null}
     */
    this.earlier = null;
    /** @type {Step[]} */
    this.done = [];
    /** @type {Step[]} */
    this.undone = [];
  }

  /** @param {Change} change a change of this editor that the server has taken */
  record(change) {
    if (change.revision <= this.revision) return;
    this.changes.push(change);
    this.stack(change);
  }

  get revision() {
    return this.changes.at(-1)?.revision ?? 0;
  }

  /** @param {Change} change */
  stack({ does, step, gesture, inverse }) {
    if (does === "undo") {
      this.done.pop();
      this.undone.push({ step, gesture, inverse });
    } else if (does === "redo") {
      this.undone.pop();
      this.done.push({ step, gesture, inverse });
    } else {
      this.undone = [];
      const last = this.done.at(-1);
      if (last && gesture && last.gesture === gesture) last.inverse = [...inverse, ...last.inverse];
      else this.done.push({ step, gesture, inverse });
    }
  }

  /** @param {{changes: Change[], earlier: number|null}} page of changes before those that are here */
  prepend({ changes, earlier }) {
    this.changes = [...changes, ...this.changes];
    this.earlier = earlier;
    Object.assign(this, { done: [], undone: [] });
    for (const change of this.changes) this.stack(change);
  }

  /**
   * Whether the step that comes next may not be here whole: it, or the rest of its gesture, was made before.
   * @returns {boolean}
   */
  get isShort() {
    return this.earlier !== null && (this.done.length < 2 || this.changes.every(({ does }) => does !== "do"));
  }

  /** @param {"undo"|"redo"} does @returns {Step|undefined} */
  next(does) {
    return (does === "undo" ? this.done : this.undone).at(-1);
  }

  /**
   * Leave out the next step: the job has changed so that it cannot be taken back any more.
   * @param {string} does
   */
  drop(does) {
    (does === "undo" ? this.done : this.undone).pop();
  }
}
