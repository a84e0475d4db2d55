/** Who wants to know of a change, by the change's name. */
export class Emitter {
  constructor() {
    /** @type {Map<string, Array<(value: any) => void>>} */
    this.listeners = new Map();
  }

  /** @param {string} name @param {(value: any) => void} listener */
  on(name, listener) {
    this.listeners.set(name, [...(this.listeners.get(name) ?? []), listener]);
  }

  /** @param {string} name @param {any} [value] */
  emit(name, value) {
    for (const listener of this.listeners.get(name) ?? []) listener(value);
  }
}
