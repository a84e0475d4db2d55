/**
 * Answers from what this device has kept, only where the server gives no answer.
 *
 * Rules of the file: the server always goes first. Nothing of the API is kept or answered here; changes go through the
 * outbox of the page.
 */

const STORE = "rungwright";
const JOB = /^\/jobs\/[^/]+$/;
const LOOK = /^\/jobs\/[^/]+\/shown$/;

self.addEventListener("install", () => self.skipWaiting());
self.addEventListener("activate", (event) => event.waitUntil(self.clients.claim()));

self.addEventListener("fetch", (event) => {
  const { request } = event;
  const { origin, pathname } = new URL(request.url);
  if (request.method !== "GET" || origin !== location.origin) return;
  if (pathname.startsWith("/static/") || JOB.test(pathname) || LOOK.test(pathname)) event.respondWith(answer(request, pathname));
});

async function answer(request, pathname) {
  try {
    const reply = await fetch(request);
    if (reply.ok && !LOOK.test(pathname)) await keep(pathname, reply.clone());
    return reply;
  } catch {
    const store = await caches.open(STORE);
    const kept = await store.match(LOOK.test(pathname) ? lookOf(request.url) : pathname);
    if (kept) return marked(kept);
    if (request.mode === "navigate") return (await store.match("/away")) ?? Response.error();
    return Response.error();
  }
}

/** Only the look without a call is kept. */
function lookOf(address) {
  const { pathname, searchParams } = new URL(address);
  return `${pathname}?layout=${encodeURIComponent(searchParams.get("layout") ?? "")}`;
}

async function keep(pathname, reply) {
  try {
    await (await caches.open(STORE)).put(pathname, reply);
  } catch {
    // A device that is full keeps what it has.
  }
}

async function marked(reply) {
  const headers = new Headers(reply.headers);
  headers.set("Rungwright-Kept", "yes");
  return new Response(await reply.blob(), { status: 200, headers });
}
