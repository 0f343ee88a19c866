// The service worker: keeps the files of one build, and hands every other request to the page with the engine. It remembers
// nothing between two requests, so that a browser may stop and start it as it likes. Version and list are the build's.
//
// 1. A build is kept whole or not at all: each file's content is held against the digest that the build gives it.
// 2. What an older build has of the same content is taken from there, and what a cut-off try brought is not fetched again.
// 3. A build takes over when no page of the older one is left, or when the page says so; never by itself in between.
// 4. A running page is given files of its own build alone; a file that went missing is fetched and held against its digest.
const VERSION = "@VERSION@";
const FILES = ["@FILES@"]; // each file's SHA-256, by its path in this site's folder
const FOLDER = new URL(registration.scope).pathname;
const OURS = `steadyhead-build${FOLDER}:`, CACHE = OURS + VERSION;
const PAGE = "/index.html", LIST = "/files.json";
// The page that was shown last, which the page that stays keeps (kept.js), and what it is shown with: each of these has its
// content's digest in its name.
const SHOWN = `steadyhead-shown${FOLDER}`, AS_IT_WAS = "/as-it-was", ASSETS = "/assets/", MOST_SHOWN = 40;
const EMPTY = [101, 204, 205, 304];

addEventListener("install", (event) => event.waitUntil(keep()));
addEventListener("activate", (event) => event.waitUntil(takeOver()));
addEventListener("message", ({ data }) => { if (data?.type === "take") skipWaiting(); });
addEventListener("fetch", (event) => {
  const { request } = event, url = new URL(request.url);
  if (url.origin !== location.origin || !url.pathname.startsWith(FOLDER)) return;
  const path = `/${url.pathname.slice(FOLDER.length)}`;
  if (request.mode === "navigate" && request.destination === "document") event.respondWith(page(path, url));
  else if (path in FILES || path === LIST) event.respondWith(file(path));
  else if (path === AS_IT_WAS || path.startsWith(ASSETS)) event.respondWith(shown(request));
  else event.respondWith(handed(request));
});

// ---- one build
const address = (path) => FOLDER + path.slice(1);

async function keep() {
  const cache = await caches.open(CACHE), former = await formerFiles();
  await cache.put(address(LIST), Response.json(FILES));
  await Promise.all(Object.keys(FILES).map((path) => keepOne(cache, path, former)));
}

async function keepOne(cache, path, former) {
  if (await sound(path, await cache.match(address(path)))) return;
  const found = await sound(path, await former.get(FILES[path])?.()) ?? await fetched(path);
  await cache.put(address(path), found);
}

async function formerFiles() { // what other builds keep here, by its digest
  const found = new Map();
  for (const name of (await caches.keys()).filter(isOther)) {
    const cache = await caches.open(name), list = await cache.match(address(LIST));
    for (const [path, digest] of Object.entries(list ? await list.json() : {})) found.set(digest, () => cache.match(address(path)));
  }
  return found;
}

async function fetched(path) {
  const found = await sound(path, await fetch(address(path), { cache: "no-store" }));
  if (!found) throw new Error(`${path} is not what the build of ${VERSION} says`);
  return found;
}

async function sound(path, response) { // the response, where its content is what the build says, else nothing
  if (!response?.ok) return null;
  const content = await response.clone().arrayBuffer();
  const digest = Array.from(new Uint8Array(await crypto.subtle.digest("SHA-256", content)), (each) => each.toString(16).padStart(2, "0"));
  if (digest.join("") !== FILES[path]) return null;
  return response.redirected ? new Response(content, { headers: response.headers }) : response; // a page may not be a redirected one
}

const isOther = (name) => name.startsWith(OURS) && name !== CACHE;

async function takeOver() {
  await Promise.all((await caches.keys()).filter(isOther).map((name) => caches.delete(name)));
  await clients.claim();
}

async function file(path) {
  const cache = await caches.open(CACHE), found = await cache.match(address(path));
  if (found) return found;
  const again = await fetched(path);
  await cache.put(address(path), again.clone());
  return again;
}

async function page(path, url) { // a page of the app, asked for by its own address, is shown inside the page that stays
  if (["/", PAGE].includes(path)) return file(PAGE);
  return Response.redirect(`${FOLDER}#${path}${url.search}`);
}

async function shown(request) {
  const cache = await caches.open(SHOWN), found = await cache.match(request);
  if (found) return found;
  const answer = await handed(request);
  if (answer.ok && request.url.includes(ASSETS)) {
    for (const old of (await cache.keys()).filter(({ url }) => url.includes(ASSETS)).slice(0, -MOST_SHOWN)) await cache.delete(old);
    await cache.put(request, answer.clone());
  }
  return answer;
}

// ---- everything else
async function handed(request) {
  const body = ["GET", "HEAD"].includes(request.method) ? null : await request.arrayBuffer();
  const asked = { type: "request", method: request.method, url: request.url, headers: [...request.headers], body };
  const windows = await clients.matchAll({ type: "window", includeUncontrolled: true });
  const pages = windows.filter((each) => each.frameType === "top-level" && new URL(each.url).pathname.startsWith(FOLDER));
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
