// The service worker: keeps the files of one build, and hands every other request to the page with the engine. It remembers
// nothing that it could not find again, so that a browser may stop and start it as it likes. Version and list are the build's.
//
// 1. A build is kept whole or not at all: each file's content is held against the digest that the build gives it.
// 2. What an older build has of the same content is taken from there, and what a cut-off try brought is not fetched again.
// 3. A build takes over when no page of the older one is left, or when the page says so; never by itself in between.
// 4. A running page is given files of its own build alone; a file that went missing is fetched and held against its digest.
// 5. The build before stays until this one has started once. Where this one does not start, the one before is handed out
//    again, until a third build comes.
const VERSION = "@VERSION@";
const FILES = ["@FILES@"]; // each file's SHA-256, by its path in this site's folder
const FOLDER = new URL(registration.scope).pathname;
const OURS = `steadyhead-build${FOLDER}:`, CACHE = OURS + VERSION;
const PAGE = "/index.html", LIST = "/files.json";
const SETTLED = "/settled", BACK = "/gone-back"; // marks of a build that started once, and of one that gave way to the one before
// The page that was shown last, which the page that stays keeps (kept.js), and what it is shown with: each of these has its
// content's digest in its name.
const SHOWN = `steadyhead-shown${FOLDER}`, AS_IT_WAS = "/as-it-was", ASSETS = "/assets/", MOST_SHOWN = 40;
const EMPTY = [101, 204, 205, 304];
// The page that stays knows it by its mark, and asks again (opening.js).
const NOT_HERE = `<!doctype html><title>Steadyhead</title><p id="not-here">The app is not running here. Open it anew.<br>
<span lang="es">La aplicación no está en marcha aquí. Ábrala de nuevo.</span>`;

addEventListener("install", (event) => event.waitUntil(keep()));
addEventListener("activate", (event) => event.waitUntil(takeOver()));
addEventListener("message", (event) => {
  const { data, ports: [port] } = event;
  if (data?.type === "take") skipWaiting();
  if (data?.type === "settled") event.waitUntil(settle());
  if (data?.type === "back") event.waitUntil(goBack().then((went) => port.postMessage(went), () => port.postMessage(false)));
});
addEventListener("fetch", (event) => {
  const { request } = event, url = new URL(request.url);
  if (url.origin !== location.origin || !url.pathname.startsWith(FOLDER)) return;
  const path = `/${url.pathname.slice(FOLDER.length)}`;
  if (request.mode === "navigate" && request.destination === "document") event.respondWith(page(path, url));
  else event.respondWith(other(path, request));
});

async function other(path, request) {
  const build = await inUse();
  if (path in build.files || path === LIST) return file(path, build);
  return path === AS_IT_WAS || path.startsWith(ASSETS) ? shown(request) : handed(request);
}

// ---- one build
const address = (path) => FOLDER + path.slice(1);

async function keep() {
  const cache = await caches.open(CACHE), former = await formerFiles();
  await cache.put(address(LIST), Response.json(FILES));
  await Promise.all(Object.keys(FILES).map((path) => keepOne(cache, path, former)));
}

async function keepOne(cache, path, former) {
  if (await sound(FILES[path], await cache.match(address(path)))) return;
  const found = await sound(FILES[path], await former.get(FILES[path])?.()) ?? await fetched(path);
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
  const found = await sound(FILES[path], await fetch(address(path), { cache: "no-store" }));
  if (!found) throw new Error(`${path} is not what the build of ${VERSION} says`);
  return found;
}

async function sound(wanted, response) { // the response, where its content has the digest that is wanted, else nothing
  if (!response?.ok) return null;
  const content = await response.clone().arrayBuffer();
  const digest = Array.from(new Uint8Array(await crypto.subtle.digest("SHA-256", content)), (each) => each.toString(16).padStart(2, "0"));
  if (digest.join("") !== wanted) return null;
  return response.redirected ? new Response(content, { headers: response.headers }) : response; // a page may not be a redirected one
}

const isOther = (name) => name.startsWith(OURS) && name !== CACHE;

async function takeOver() { // what never started is of no use any more; what did is the build before
  for (const name of await others()) if (!await marked(name, SETTLED)) await caches.delete(name);
  await clients.claim();
}

const others = async () => (await caches.keys()).filter(isOther);
const marked = async (name, mark) => (await caches.open(name)).match(address(mark));

let used = null; // found again from the marks
const inUse = () => (used ??= build());

async function build() {
  const own = await caches.open(CACHE), mark = await own.match(address(BACK));
  const cache = mark && await caches.open(await mark.text()), list = await cache?.match(address(LIST));
  return list ? { cache, files: await list.json(), own: false } : { cache: own, files: FILES, own: true };
}

async function settle() { // once: the one before has done its duty; a build that is just being fetched stays
  const { cache, own } = await inUse();
  if (!own || await cache.match(address(SETTLED))) return;
  for (const name of await others()) if (await marked(name, SETTLED)) await caches.delete(name);
  await cache.put(address(SETTLED), new Response(""));
}

async function goBack() { // tells whether there is a build before this one, which never started
  const { cache, own } = await inUse();
  if (!own || await cache.match(address(SETTLED))) return false;
  for (const name of await others()) {
    if (!await marked(name, SETTLED)) continue;
    await cache.put(address(BACK), new Response(name));
    used = null;
    return true;
  }
  return false;
}

async function file(path, { cache, own }) {
  const found = await cache.match(address(path));
  if (found) return found;
  if (!own) return Response.error(); // nobody hands out the build before any more
  const again = await fetched(path);
  await cache.put(address(path), again.clone());
  return again;
}

async function page(path, url) { // a page of the app, asked for by its own address, is shown inside the page that stays
  if (["/", PAGE].includes(path)) return file(PAGE, await inUse());
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
    return new Response(NOT_HERE, { status: 503, headers: { "content-type": "text/html; charset=utf-8" } });
  }
}

function ask(page, asked) {
  return new Promise((done, refused) => {
    const { port1, port2 } = new MessageChannel();
    port1.onmessage = ({ data }) => (data.notHere ? refused() : done(data));
    page.postMessage(asked, [port2]);
  });
}
