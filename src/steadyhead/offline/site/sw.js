// The service worker: keeps the files of one build, and hands every other request to the page with the engine. It remembers
// nothing between two requests, so that a browser may stop and start it as it likes. Version and list are the build's.
const VERSION = "@VERSION@";
const FILES = ["@FILES@"];
const OURS = "steadyhead-", CACHE = OURS + VERSION, SHELL = "/index.html";
const EMPTY = [101, 204, 205, 304];

addEventListener("install", (event) => event.waitUntil(keep()));
addEventListener("activate", (event) => event.waitUntil(takeOver()));
addEventListener("message", ({ data }) => { if (data === "skipWaiting") skipWaiting(); });
addEventListener("fetch", (event) => {
  const { origin, pathname } = new URL(event.request.url);
  if (origin !== location.origin) return;
  const page = event.request.mode === "navigate" && event.request.destination === "document";
  if (page || FILES.includes(pathname)) event.respondWith(kept(page ? SHELL : pathname));
  else event.respondWith(handed(event.request));
});

async function keep() { // all or none: an installation that lacks a file has failed
  const cache = await caches.open(CACHE);
  await cache.addAll(FILES.map((file) => new Request(file, { cache: "reload" })));
}

async function takeOver() {
  const old = (await caches.keys()).filter((name) => name.startsWith(OURS) && name !== CACHE);
  await Promise.all(old.map((name) => caches.delete(name)));
  await clients.claim();
}

async function kept(path) {
  const cache = await caches.open(CACHE);
  return (await cache.match(path)) ?? fetch(path);
}

async function handed(request) {
  const body = ["GET", "HEAD"].includes(request.method) ? null : await request.arrayBuffer();
  const asked = { type: "request", method: request.method, url: request.url, headers: [...request.headers], body };
  const windows = await clients.matchAll({ type: "window", includeUncontrolled: true });
  const pages = windows.filter((each) => each.frameType === "top-level");
  try {
    const answer = await Promise.any(pages.map((page) => ask(page, asked)));
    const content = EMPTY.includes(answer.status) ? null : answer.body;
    return new Response(content, { status: answer.status, headers: answer.headers });
  } catch { // no page has the engine
    return new Response("The app is not running here. Open it anew.", { status: 503 });
  }
}

function ask(page, asked) {
  return new Promise((done, refused) => {
    const { port1, port2 } = new MessageChannel();
    port1.onmessage = ({ data }) => (data.notHere ? refused() : done(data));
    page.postMessage(asked, [port2]);
  });
}
