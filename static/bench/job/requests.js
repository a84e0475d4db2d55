/**
 * Talking to the server. An answer is always a value: `{sort: "answer"|"refused"|"failed"|"away", …}`, never a throw.
 */

/** On an answer from before, which this device had kept. */
const KEPT = "Rungwright-Kept";
/** After so long the server counts as away: a network that swallows everything never says so. */
const LONGEST_MS = 20_000;

/** @typedef {{sort: "answer", body: any, isKept: boolean}|{sort: "refused", status: number, problem: any}|
 *   {sort: "failed", status: number, problem: any}|{sort: "away"}} Outcome */

/** @returns {AbortSignal} that gives up when the server counts as away */
export const timely = () => /** @type {{timeout(ms: number): AbortSignal}} */ (/** @type {unknown} */ (AbortSignal)).timeout(LONGEST_MS);

/** @param {string} address @param {RequestInit} [options] @returns {Promise<Outcome>} */
export async function ask(address, options = {}) {
  let reply;
  try {
    reply = await fetch(address, { ...options, signal: timely(), credentials: "same-origin", redirect: "error", cache: "no-store" });
  } catch {
    return { sort: "away" };
  }
  const body = await readJson(reply);
  if (reply.ok) return body === null ? { sort: "away" } : { sort: "answer", body, isKept: reply.headers.has(KEPT) };
  if (reply.status >= 500) return { sort: "failed", status: reply.status, problem: body ?? {} };
  // What does not refuse in our own form is something between here and the server.
  return body?.code ? { sort: "refused", status: reply.status, problem: body } : { sort: "away" };
}

/** @param {Response} reply */
async function readJson(reply) {
  try {
    return await reply.json();
  } catch {
    return null;
  }
}

/**
 * @param {string} address the job's, with its query
 * @param {{operations: object[], key: string, step: string, gesture: string, does: string}} entry
 * @param {number} revision @param {string} editor
 */
export function sendPatch(address, entry, revision, editor) {
  return ask(address, {
    method: "PATCH",
    headers: {
      "Content-Type": "application/json-patch+json",
      "If-Match": `"${revision}"`,
      "Idempotency-Key": entry.key,
      "Rungwright-Editor": editor,
      "Rungwright-Step": encodeURIComponent(entry.step.slice(0, 200)),
      "Rungwright-Gesture": entry.gesture,
      "Rungwright-Does": entry.does,
    },
    body: JSON.stringify(entry.operations),
  });
}

/** @param {string} address @param {object} question */
export function post(address, question) {
  return ask(address, {
    method: "POST",
    headers: { "Content-Type": "application/json" },
    body: JSON.stringify(question),
  });
}
