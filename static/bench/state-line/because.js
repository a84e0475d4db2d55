/** Why an edit no longer fits: what of the things that it names was removed elsewhere, else what the server says. */

import { partOf } from "../job/acts.js";
import { stepsOf } from "../job/pointers.js";
import { lower } from "./words.js";

/** @typedef {import("../job/types.js").Operation} Operation */

/** @type {Record<string, string>} */
const SORTS = { parts: "part", conductors: "conductor", cables: "cable" };

/**
 * The things that operations name, as `part:tc`.
 * @param {Operation[]} operations @returns {string[]}
 */
export function namedIn(operations) {
  const found = new Set();
  for (const { path, value } of operations) {
    const [, , among, id] = stepsOf(path);
    if (SORTS[among] && id) found.add(`${SORTS[among]}:${id}`);
    const ends = among === "conductors" ? [value, ...(value?.ends ?? [])] : [];
    for (const end of ends) if (typeof end === "string" && end.includes(".")) found.add(`part:${partOf(end)}`);
    if (value?.cable) found.add(`cable:${value.cable}`);
  }
  return [...found];
}

/** @param {{patch: Operation[]}[]} missed @returns {Set<string>} what was removed elsewhere */
function removedIn(missed) {
  const removals = missed.flatMap(({ patch }) => patch).filter(({ op }) => op === "remove");
  return new Set(removals.map(({ path }) => stepsOf(path)).filter(({ length }) => length === 4).map(([, , among, id]) => `${SORTS[among]}:${id}`));
}

/**
 * @param {{entry: import("../job/types.js").Entry, problem: any}} refusal @param {{patch: Operation[]}[]} missed
 * @param {Map<string, string>} names what things are, or were, called
 */
export function because({ entry, problem }, missed, names) {
  const removed = removedIn(missed);
  const gone = namedIn(entry.operations).find((key) => removed.has(key));
  if (!gone) return lower((problem.detail ?? problem.title ?? "the server did not take it").replace(/\.$/, ""));
  const [sort, id] = gone.split(":");
  const name = names.get(gone);
  if (sort === "part") return `${name || "part"} ${id} was removed`;
  return `${name ?? id} was removed`;
}
