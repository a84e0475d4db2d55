/** A document may lack a collection that nothing stood in yet; a patch that adds to it makes it first. */

import { pointer } from "./pointers.js";

/** @param {import("./types.js").Words} words @param {...string} names @returns {import("./types.js").Operation[]} */
export function roomFor(words, ...names) {
  const lacking = names.filter((name) => words.lacks?.includes(name));
  return lacking.map((name) => ({ op: "add", path: pointer("layouts", words.layout, name), value: {} }));
}
