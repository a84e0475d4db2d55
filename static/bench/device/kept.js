/**
 * What this device keeps so that the job opens again without the server: the page, its files, the last look at the
 * job (where the browser allows it, which is only at secure addresses), and a copy of the document to take away.
 */

const STORE = "rungwright";
const QUIET_MS = 1500;
/** The address of what never changes: another edition has other addresses. */
const OF_AN_EDITION = /^\/static\/[0-9a-f]{12}\//;
/** The page is at rest so long after it was opened. */
const REST_MS = 4000;

/** @param {import("../bench.js").Bench} bench */
export function installKept(bench) {
  const { shown, outbox } = bench;
  /** @type {number|undefined} */
  let timer;
  shown.on("shown", () => {
    clearTimeout(timer);
    timer = setTimeout(() => outbox.count === 0 && !outbox.away && keepCopy(bench), QUIET_MS);
  });
  navigator.serviceWorker?.register("/worker.js").then(() => setTimeout(keepPage, REST_MS), () => undefined);
}

/** @param {import("../bench.js").Bench} bench */
async function keepCopy({ shown }) {
  if (!shown.document.isAt(shown.revision)) await shown.document.fetch(shown.address);
  if (!("caches" in globalThis) || !shown.said || shown.calls.size > 0 || shown.sets.size > 0) return;
  const { revision, said, drawing, drawn } = shown;
  const look = { revision, words: said, drawing, view: drawn };
  await put(`/jobs/${shown.job}/shown?layout=${encodeURIComponent(shown.layout)}`, new Response(JSON.stringify(look), { headers: { "Content-Type": "application/json" } }));
}

/** The page itself and its files, which the browser has just had; a file that is kept already is as it was. */
async function keepPage() {
  if (!("caches" in globalThis)) return;
  const files = performance.getEntriesByType("resource").map(({ name }) => new URL(name)).filter((one) => one.origin === location.origin && one.pathname.startsWith("/static/"));
  const lacking = await notKept([...new Set(files.map((one) => one.pathname))]);
  // The page comes last: where it is kept, all that it needs is.
  for (const address of [...lacking, "/away", location.pathname]) {
    await quiet();
    const reply = await fetch(address, { cache: "force-cache", credentials: "same-origin" }).catch(() => null);
    if (reply?.ok && !reply.redirected) await put(address, reply);
  }
}

/** @param {string[]} addresses */
async function notKept(addresses) {
  try {
    const kept = await (await caches.open(STORE)).keys();
    const lasting = new Set(kept.map(({ url }) => new URL(url).pathname).filter((address) => OF_AN_EDITION.test(address)));
    return addresses.filter((address) => !lasting.has(address));
  } catch {
    return addresses;
  }
}

/** Whoever works on the sheet goes first. */
function quiet() {
  return new Promise((done) => ("requestIdleCallback" in globalThis ? requestIdleCallback(done, { timeout: QUIET_MS }) : setTimeout(done)));
}

/** @param {string} address @param {Response} reply */
async function put(address, reply) {
  try {
    await (await caches.open(STORE)).put(address, reply);
  } catch {
    // A device that is full keeps what it has.
  }
}
