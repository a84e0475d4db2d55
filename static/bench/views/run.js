/**
 * What happens in the timing chart: the chosen calls are asked for at 0 s and taken away again, and a safety may open.
 * Times are seconds from the beginning; the server works out all that follows.
 */

export class Run {
  constructor() {
    this.endsAt = 600;
    this.lasts = 900;
    /** @type {string} `part.switch`, empty where none opens */
    this.opens = "";
    this.opensAt = 300;
  }

  /** @param {string[]} asked parts that ask for something @returns {string[][]} what the query says of it */
  query(asked) {
    const changes = asked.map((part) => ({ at: this.endsAt, does: `${part}=idle` }));
    if (this.opens) changes.push({ at: this.opensAt, does: `${this.opens}=open` });
    const within = changes.filter(({ at }) => at > 0 && at <= this.lasts);
    return [["begin", "rest"], ["for", String(this.lasts)], ...within.map(({ at, does }) => ["at", `${at}:${does}`])];
  }
}
