/**
 * The job document as the server has it, kept up by the patches that are seen, so that the whole job can be taken away
 * while the server is not there. It is never what is drawn or sent.
 */

import { applied } from "./json-patch.js";
import { timely } from "./requests.js";
import { fitRoom } from "./room.js";

/** @typedef {import("./types.js").Operation} Operation */

export class DocumentCopy {
  constructor() {
    /** @type {any} */
    this.document = null;
    this.revision = 0;
  }

  /** @param {string} address of the job; without an answer the copy stays as it is */
  async fetch(address) {
    try {
      const reply = await fetch(address, { signal: timely(), credentials: "same-origin", redirect: "error" });
      const revision = Number((reply.headers.get("ETag") ?? "").replaceAll(/[^0-9]/g, ""));
      if (!reply.ok || !revision) return;
      this.document = await reply.json();
      this.revision = revision;
    } catch {
      // Nobody asked for it yet.
    }
  }

  /** @param {number} revision that the operations made @param {Operation[]} operations */
  change(revision, operations) {
    if (!this.document || revision <= this.revision) return;
    const next = revision === this.revision + 1 ? applied(this.document, operations) : null;
    this.document = next;
    this.revision = next ? revision : 0;
  }

  /**
   * Whether it is what stands on the page.
   * @param {number} revision
   */
  isAt(revision) {
    return this.document !== null && this.revision === revision;
  }

  /** @param {{operations: Operation[]}[]} edits that wait; one that does not fit is left out @returns {any} */
  with(edits) {
    return edits.reduce((document, { operations }) => applied(document, fitRoom(operations, document)) ?? document, this.document);
  }
}
