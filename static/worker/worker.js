/**
 * Answers from what this device has kept, only where the server gives no answer.
 *
 * Rules of the file: the server always goes first. Nothing of the API is kept or answered here; changes go through the
 * outbox of the page.
 */

/** @typedef {Event & {waitUntil(done: Promise<unknown>): void}} Lifted a worker comes to life or into charge */
/** @typedef {Event & {request: Request, respondWith(reply: Promise<Response>): void}} Asked */

const worker = /** @type {{skipWaiting(): void, clients: {claim(): Promise<void>}}} */ (/** @type {unknown} */ (self));
const STORE = "rungwright";
const JOB = /^\/jobs\/[^/]+$/;
const LOOK = /^\/jobs\/[^/]+\/shown$/;

self.addEventListener("install", () => worker.skipWaiting());
self.addEventListener("activate", (event) => /** @type {Lifted} */ (event).waitUntil(worker.clients.claim()));

self.addEventListener("fetch", (event) => {
  const asked = /** @type {Asked} */ (event);
  const { request } = asked;
  const { origin, pathname } = new URL(request.url);
  if (request.method !== "GET" || origin !== location.origin) return;
  if (pathname.startsWith("/static/") || JOB.test(pathname) || LOOK.test(pathname)) asked.respondWith(answer(request, pathname));
});

/** @param {Request} request @param {string} pathname @returns {Promise<Response>} */
async function answer(request, pathname) {
  try {
    const reply = await fetch(request);
    if (reply.ok && !reply.redirected && !LOOK.test(pathname)) await keep(pathname, reply.clone());
    return reply;
  } catch {
    const store = await caches.open(STORE);
    const kept = await store.match(LOOK.test(pathname) ? lookOf(request.url) : pathname);
    if (kept) return marked(kept);
    if (request.mode === "navigate") return (await store.match("/away")) ?? Response.error();
    return Response.error();
  }
}

/**
 * Only the look without a call is kept.
 * @param {string} address
 */
function lookOf(address) {
  const { pathname, searchParams } = new URL(address);
  return `${pathname}?layout=${encodeURIComponent(searchParams.get("layout") ?? "")}`;
}

/** @param {string} pathname @param {Response} reply */
async function keep(pathname, reply) {
  try {
    await (await caches.open(STORE)).put(pathname, reply);
  } catch {
    // A device that is full keeps what it has.
  }
}

/** @param {Response} reply */
async function marked(reply) {
  const headers = new Headers(reply.headers);
  headers.set("Rungwright-Kept", "yes");
  return new Response(await reply.blob(), { status: 200, headers });
}
