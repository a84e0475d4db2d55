/**
 * Undo and redo of this editor: inverses as the server gave them, so that the page never works out how to go back.
 *
 * Rules of the file: joined nudges share a gesture and are one step. The stacks can be rebuilt from the server's
 * history at any time, so a reload loses nothing.
 */

/** @typedef {{step: string, gesture: string, inverse: import("./types.js").Operation[]}} Step */
/** @typedef {{does: "do"|"undo"|"redo", step: string, gesture: string, editor?: string,
 *   inverse: import("./types.js").Operation[]}} Change */

export class Steps {
  constructor() {
    /** @type {Step[]} */
    this.done = [];
    /** @type {Step[]} */
    this.undone = [];
  }

  /** @param {Change} change a change of this editor that the server has taken */
  record({ does, step, gesture, inverse }) {
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

  /** @param {"undo"|"redo"} does @returns {Step|undefined} */
  next(does) {
    return (does === "undo" ? this.done : this.undone).at(-1);
  }

  /** Leave out the next step: the job has changed so that it cannot be taken back any more. @param {string} does */
  drop(does) {
    (does === "undo" ? this.done : this.undone).pop();
  }

  /** @param {Change[]} changes oldest first @param {string} editor @returns {Steps} */
  static from(changes, editor) {
    const steps = new Steps();
    for (const change of changes) if (change.editor === editor) steps.record(change);
    return steps;
  }
}
