/**
 * A document may lack a collection that nothing stood in yet; a patch that adds to it makes it first, and its undo
 * takes it away again. Somebody else may have put something there meanwhile, which must stay.
 */

import { applied } from "./json-patch.js";
import { pointer, stepsOf } from "./pointers.js";

/** @typedef {import("./types.js").Operation} Operation */

const ROOMS = [/^\/layouts\/[^/]+\/(parts|cables|conductors)$/, /^\/layouts\/[^/]+\/parts\/[^/]+\/settings$/, /^\/records(\/accepted)?$/];

/** @param {import("./types.js").Words} words @param {...string} names @returns {Operation[]} */
export function roomFor(words, ...names) {
  const lacking = names.filter((name) => words.lacks?.includes(name));
  return lacking.map((name) => ({ op: "add", path: pointer("layouts", words.layout, name), value: {} }));
}

/** @param {Operation} operation */
const makes = ({ op, path, value }) => op === "add" && isRoom(path) && isEmpty(value);
/** @param {Operation} operation */
const clears = ({ op, path }) => op === "remove" && isRoom(path);

/** @param {Operation[]} operations @returns {boolean} whether what others did decides which of them may be made */
export const touchesRoom = (operations) => operations.some((one) => makes(one) || clears(one));

/**
 * Leave out what would make room where there is some; of room that is in use, take away only what was put there.
 * @param {Operation[]} operations @param {any} document that they are put on @returns {Operation[]}
 */
export function fitRoom(operations, document) {
  /** @type {Operation[]} */
  const fitting = [];
  let [now, replaced] = [document, false];
  for (const [number, operation] of operations.entries()) {
    const there = valueAt(now, operation.path);
    const isDone = replaced || (makes(operation) && there !== undefined);
    // An undo tests what stood in the room before it takes the room away.
    replaced = !isDone && operation.op === "test" && isCleared(operation.path, operations[number + 1]) && there !== undefined && !isSame(there, operation.value);
    if (isDone) continue;
    fitting.push(...(replaced ? takenOut(operation.path, operation.value, there) : [operation]));
    // Where one does not fit, the server says so.
    now = applied(document, fitting);
  }
  return fitting;
}

/** @param {string} path @param {Operation|undefined} next */
const isCleared = (path, next) => next !== undefined && clears(next) && next.path === path;

/**
 * @param {string} path of a collection @param {any} value what was put there @param {any} there what stands there now
 * @returns {Operation[]}
 */
function takenOut(path, value, there) {
  const out = (/** @type {string} */ at, /** @type {any} */ was) => [{ op: "test", path: at, value: was }, { op: "remove", path: at }];
  // From the last, so that no place moves before its turn.
  if (Array.isArray(value)) return there.flatMap((/** @type {any} */ one, /** @type {number} */ place) => (value.some((was) => isSame(was, one)) ? [out(`${path}/${place}`, one)] : [])).reverse().flat();
  return Object.entries(value).flatMap(([key, was]) => {
    const at = path + pointer(key);
    return Array.isArray(was) && Array.isArray(there[key]) ? takenOut(at, was, there[key]) : out(at, was);
  });
}

/** @param {string} path */
const isRoom = (path) => ROOMS.some((room) => room.test(path));

/**
 * Whether nothing stands in it, nor in what it holds.
 * @param {any} value @returns {boolean}
 */
function isEmpty(value) {
  return value !== null && typeof value === "object" && Object.values(value).every(isEmpty);
}

/** @param {any} one @param {any} other @returns {boolean} */
function isSame(one, other) {
  if (one === null || other === null || typeof one !== "object" || typeof other !== "object") return one === other;
  const keys = Object.keys(one);
  return Array.isArray(one) === Array.isArray(other) && keys.length === Object.keys(other).length && keys.every((key) => Object.hasOwn(other, key) && isSame(one[key], other[key]));
}

/** @param {any} document @param {string} path */
function valueAt(document, path) {
  let at = document;
  for (const step of stepsOf(path)) {
    if (at === null || typeof at !== "object" || !Object.hasOwn(at, step)) return undefined;
    at = at[step];
  }
  return at;
}
