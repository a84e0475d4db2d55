/** What became of the edits that were sent since the outbox was empty, so that it can be said in one sentence. */
export class Batch {
  constructor() {
    this.total = 0;
    /** @type {{entry: import("./types.js").Entry, problem: any}[]} */
    this.refused = [];
    /**
     * Changes from elsewhere that ours were put on top of.
     * @type {{revision: number, patch: import("./types.js").Operation[]}[]}
     */
    this.missed = [];
    /** Whether some of them waited for the server. */
    this.away = false;
  }
}
