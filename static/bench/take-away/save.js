/** Fetching a file and handing it to the browser to keep; a refusal is told in words instead of being kept as a file. */

import { make } from "../shared/dom.js";

/** @param {string} address @param {string} name of the file @returns {Promise<string>} what came of it, in words */
export async function save(address, name) {
  let reply;
  try {
    reply = await fetch(address, { credentials: "same-origin", redirect: "error", cache: "no-store" });
    if (reply.ok) {
      hand(await reply.blob(), name);
      return `Made: ${name}`;
    }
  } catch {
    return "The server cannot be reached. Try again when connected.";
  }
  const problem = await reply.json().catch(() => ({}));
  const right = problem.would_be_right ? ` Right would be: ${problem.would_be_right}.` : "";
  return `Not made: ${problem.detail ?? "the server could not answer."}${right}`;
}

/** @param {Blob} blob @param {string} name */
function hand(blob, name) {
  const address = URL.createObjectURL(blob);
  make("a", { href: address, download: name }).click();
  // The browser reads it in its own time.
  setTimeout(() => URL.revokeObjectURL(address), 60_000);
}
