/** Whether a thing is in the layout that is looked at; a view of two layouts shows what is only in the other one too. */

import { partOf } from "./acts.js";

/** @param {import("./types.js").Words} words @param {string} key */
export function isThere(words, key) {
  const [sort, name] = [key.slice(0, key.indexOf(":")), key.slice(key.indexOf(":") + 1)];
  if (sort === "part") return name in words.parts;
  if (sort === "conductor") return name in words.conductors;
  if (sort === "cable") return name in words.cables;
  return words.parts[partOf(name)]?.terminals.some((one) => one.terminal === name) ?? false;
}
