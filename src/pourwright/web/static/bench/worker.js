// Keeps the bench page and its parts: from the laptop while it answers, from the cache when not.
const CACHE = "bench-1";
const PATIENCE_MS = 3000;
// Parts of a page whose laptop was silent a moment ago are not waited for one after the other.
const GIVEN_UP_MS = 10_000;
const PAGE = /^\/sheets\/\d+\/bench$/;

const isOurs = (request) => {
  const url = new URL(request.url);
  if (request.method !== "GET" || url.origin !== location.origin) return false;
  return request.mode === "navigate" ? PAGE.test(url.pathname) : url.pathname.startsWith("/static/");
};

let silentSince = -Infinity;

async function fetched(request) {
  const cache = await caches.open(CACHE);
  const answer = await fetch(request, { signal: AbortSignal.timeout(PATIENCE_MS) });
  if (answer.ok && !answer.redirected) await cache.put(new URL(request.url).pathname, answer.clone());
  return answer;
}

const kept = (request) => caches.match(new URL(request.url).pathname, { cacheName: CACHE });

async function answered(request) {
  const silent = request.mode !== "navigate" && Date.now() - silentSince < GIVEN_UP_MS;
  const spare = silent && (await kept(request));
  if (spare) return spare;
  try {
    return await fetched(request);
  } catch (problem) {
    silentSince = Date.now();
    const found = await kept(request);
    if (found) return found;
    throw problem;
  }
}

async function keepAll(paths) {
  await Promise.all(paths.map((path) => fetched(new Request(path, { credentials: "same-origin" })).catch(() => null)));
}

addEventListener("install", () => skipWaiting());
addEventListener("activate", (event) => event.waitUntil(claimed()));
addEventListener("fetch", (event) => {
  if (isOurs(event.request)) event.respondWith(answered(event.request));
});
addEventListener("message", (event) => {
  event.waitUntil(keepAll(event.data.keep).then(() => event.ports[0].postMessage("kept")));
});

async function claimed() {
  for (const name of await caches.keys()) {
    if (name.startsWith("bench-") && name !== CACHE) await caches.delete(name);
  }
  await clients.claim();
}
