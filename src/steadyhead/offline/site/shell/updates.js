// The service worker, and builds that come after this one: fetched by the browser while the app goes on, taken at a start
// or by a tap, never in between. What is fetched is checked in sw.js; a build that is not whole never comes to be taken.
import { base, named } from "./place.js";

const ASK_AGAIN_MS = 3_600_000; // a page that is looked at again asks for a new build at most once an hour
const TAKEN_MS = 5000;
const RELOADED = named("reloaded"); // once: a second time it would be of no use either
const here = navigator.serviceWorker;
let registration, asked = Date.now();

// Resolves once the service worker answers for this page; `free` tells whether no tab has the record open, `news` is called
// whenever a whole new build lies ready.
export async function installed(free, news) {
  const before = await here.getRegistration(base);
  // Registering waits for a look for a new build that is under way, and that one for a network that may be dead.
  registration = before?.active ? before : await here.register(new URL("sw.js", base), { scope: base.pathname, updateViaCache: "none" });
  await active(registration);
  if (!here.controller && before?.active) await passed(); // a hard reload goes past the service worker, for good
  sessionStorage.removeItem(RELOADED);
  if (!here.controller) await changed();
  else if (registration.waiting && await free()) await Promise.race([take(), new Promise((done) => setTimeout(done, TAKEN_MS))]);
  here.addEventListener("controllerchange", () => location.reload());
  watch(news);
}

// Hands over to the build that lies ready; the page is loaded anew when it has taken over.
export async function take() {
  const taken = changed();
  registration.waiting?.postMessage({ type: "take" });
  await taken;
  await reloaded();
}

// This build has started: the one before it need not stay.
export const settled = () => here.controller?.postMessage({ type: "settled" });

// Tells whether the build before this one, which did not start, is handed out again.
export function wentBack() {
  if (!here.controller) return Promise.resolve(false);
  const { port1, port2 } = new MessageChannel();
  const told = new Promise((done) => { port1.onmessage = ({ data }) => done(data); });
  here.controller.postMessage({ type: "back" }, [port2]);
  return Promise.race([told, new Promise((done) => setTimeout(done, TAKEN_MS, false))]);
}

// Tells whether a build's files are just being fetched and kept.
export const fetching = () => Boolean(registration?.installing);

function passed() {
  const again = sessionStorage.getItem(RELOADED);
  sessionStorage.removeItem(RELOADED);
  if (again) throw new Error("the service worker does not answer");
  sessionStorage.setItem(RELOADED, "yes");
  return reloaded();
}

const changed = () => new Promise((done) => here.addEventListener("controllerchange", done, { once: true }));

function reloaded() { // never resolves: the page goes
  location.reload();
  return new Promise(() => {});
}

function active({ active: there, installing, waiting }) {
  const coming = installing ?? waiting;
  if (there || !coming) return here.ready;
  return new Promise((done, failed) => coming.addEventListener("statechange", () => {
    if (coming.state === "activated") done();
    if (coming.state === "redundant") failed(new Error("not all files of the app could be fetched and kept"));
  }));
}

function watch(news) {
  const tell = () => { if (registration.waiting && here.controller) news(); };
  const follow = (coming) => coming?.addEventListener("statechange", tell);
  tell();
  follow(registration.installing);
  registration.addEventListener("updatefound", () => follow(registration.installing));
  document.addEventListener("visibilitychange", () => {
    if (document.hidden || Date.now() - asked < ASK_AGAIN_MS) return;
    asked = Date.now();
    registration.update().catch(() => {}); // no network: the build that is here goes on
  });
}
