/** JSON Pointers (RFC 6901): made from steps, and taken apart into them. */

/** @param {...string|number} steps @returns {string} */
export function pointer(...steps) {
  return steps.map((step) => "/" + String(step).replaceAll("~", "~0").replaceAll("/", "~1")).join("");
}

/** @param {string} path @returns {string[]} */
export function stepsOf(path) {
  return path.split("/").slice(1).map((step) => step.replaceAll("~1", "/").replaceAll("~0", "~"));
}
