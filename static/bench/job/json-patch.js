/**
 * Applying a JSON Patch (RFC 6902) to a copy. The server judges patches; this only repeats one that it has taken, or
 * lays one that waits into a file to take away.
 */

import { stepsOf } from "./pointers.js";

/** @typedef {import("./types.js").Operation} Operation */

/** @param {any} document @param {Operation[]} operations @returns {any} a new document, null where one does not fit */
export function applied(document, operations) {
  const root = { document: structuredClone(document) };
  try {
    for (const operation of operations) apply(root, operation);
  } catch {
    return null;
  }
  return root.document;
}

/** @param {{document: any}} root @param {any} operation */
function apply(root, { op, path, value, from }) {
  if (op === "test") return;
  if (op === "move" || op === "copy") {
    const source = placeOf(root, from);
    const found = structuredClone(source.at[source.key]);
    if (op === "move") takeOut(source);
    return put(placeOf(root, path), found);
  }
  const place = placeOf(root, path);
  if (op === "remove") return takeOut(place);
  if (op === "replace") return void (place.at[place.key] = structuredClone(value));
  return put(place, structuredClone(value));
}

/** @param {{document: any}} root @param {string} path */
function placeOf(root, path) {
  const steps = ["document", ...stepsOf(path)];
  let at = /** @type {any} */ (root);
  for (const step of steps.slice(0, -1)) {
    if (at === null || typeof at !== "object" || !Object.hasOwn(at, step)) throw new Error(`nothing at ${path}`);
    at = at[step];
  }
  return { at, key: /** @type {string} */ (steps.at(-1)) };
}

/** @param {{at: any, key: string}} place @param {any} value */
function put({ at, key }, value) {
  if (Array.isArray(at)) at.splice(key === "-" ? at.length : Number(key), 0, value);
  else at[key] = value;
}

/** @param {{at: any, key: string}} place */
function takeOut({ at, key }) {
  if (!Object.hasOwn(at, key)) throw new Error(`there is no ${key}`);
  if (Array.isArray(at)) at.splice(Number(key), 1);
  else delete at[key];
}
