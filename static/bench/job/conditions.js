/** What the equipment stands in, for this look only: the weather, the supply, and disconnects that are open. */

export const USUAL = { outdoor: 20, supply: 100 };

export class Conditions {
  constructor() {
    /** °C */
    this.outdoor = USUAL.outdoor;
    /** Percent of rated volts. */
    this.supply = USUAL.supply;
    /** Whether everything that feeds a 24 V source is switched off. */
    this.powerOff = false;
    /** @type {Set<string>} supplies of which the disconnect is open */
    this.open = new Set();
  }

  /** Whether the weather, the supply or one disconnect is not as usual; all power off is said beside it. */
  get areUsual() {
    return this.outdoor === USUAL.outdoor && this.supply === USUAL.supply && this.open.size === 0;
  }

  /** @returns {string[][]} */
  get query() {
    const supply = this.powerOff ? 0 : this.supply;
    return [
      ...(this.outdoor === USUAL.outdoor ? [] : [["outdoor", String(this.outdoor)]]),
      ...(supply === USUAL.supply ? [] : [["supply", String(supply)]]),
      ...[...this.open].map((name) => ["mains", `${name}=off`]),
    ];
  }
}
