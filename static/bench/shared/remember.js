/**
 * What this device keeps between visits. Storage may be full or forbidden: then reading gives nothing and keeping
 * answers false, so that whoever must not lose something can say so.
 */

/** @param {string} name @returns {any} */
export function recall(name) {
  try {
    const text = localStorage.getItem(`rungwright:${name}`);
    return text === null ? null : JSON.parse(text);
  } catch {
    return null;
  }
}

/** @param {string} name @param {any} value @returns {boolean} whether it is kept */
export function keep(name, value) {
  try {
    if (value === null) localStorage.removeItem(`rungwright:${name}`);
    else localStorage.setItem(`rungwright:${name}`, JSON.stringify(value));
    return true;
  } catch {
    return false;
  }
}

/** @param {string} start @returns {string[]} names of what is kept, in order */
export function namesOf(start) {
  try {
    const whole = `rungwright:${start}`;
    return Object.keys(localStorage).filter((name) => name.startsWith(whole)).map((name) => name.slice("rungwright:".length)).sort();
  } catch {
    return [];
  }
}
