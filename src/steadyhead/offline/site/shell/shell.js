// The page that stays: it owns the engine's worker and the frame with the app, hands requests from one to the other, and
// never navigates itself (that would stop Python). It holds no data and no words: what it says stands in index.html.
import { giveWay, keep, next, showKept } from "./kept.js";
import { opener, stands } from "./opening.js";
import { base, inside, named, outside } from "./place.js";
import { printing, readyToPrint } from "./print.js";
import { pulse } from "./pulse.js";
import { free, turn } from "./turn.js";
import { fetching, installed, settled, take, wentBack } from "./updates.js";

const one = (id) => document.getElementById(id);
const frame = one("app");
const ENGINE = named("engine");
const between = new BroadcastChannel(ENGINE); // between the tabs of this browser
const PATIENCE_MS = 60_000, MOST_DOUBLED = 3; // a start without a step for so long is begun anew, and given twice as long
document.documentElement.lang = navigator.language.startsWith("es") ? "es" : "en"; // index.html has the words in both
const WENT_BACK = named("went-back"); // why, for as long as this tab is open
one("why").textContent = document.body.dataset.back = sessionStorage.getItem(WENT_BACK) ?? "";
const TRIES = named("tries"); // how often a start that got nowhere was begun anew
const WITH_MEMORY = ["python", "app"]; // steps that a kept memory may be to blame for
let worker = null;
let beats = null; // tells whether the engine lives, once it is ready
let leaving = false;
let watchdog = 0;
let stopped = () => show("moved"); // what comes once the engine has stopped
const mine = turn(() => start("ask"));

function show(state, detail = "") {
  document.body.dataset.state = state;
  one("detail").textContent = detail;
  watch();
  awaitTurn();
}
const state = () => document.body.dataset.state;
const running = () => ["opening", "running"].includes(state()); // the engine does, whether a page stands there or not yet
const starting = () => ["starting", "opening"].includes(state());
const aside = () => ["locked", "moved"].includes(state()); // another tab has the record
const awaitTurn = () => (aside() ? mine.wait() : mine.end());

// ---- a start that gets nowhere says so, and is begun anew by itself
const tries = () => Number(sessionStorage.getItem(TRIES));
function watch() {
  clearTimeout(watchdog);
  if (starting()) watchdog = setTimeout(late, PATIENCE_MS * 2 ** Math.min(tries(), MOST_DOUBLED));
}

function late() {
  if (document.hidden) return watch(); // nobody waits, and what was set aside is not stuck
  document.body.dataset.late = "yes";
  if (!worker && fetching()) return watch(); // over a thin line
  sessionStorage.setItem(TRIES, tries() + 1);
  if (!worker) return location.reload();
  const { step } = document.body.dataset;
  if (step === "page" && tries() > 1) history.replaceState(null, "", "#/"); // that very page may be what does not come
  end();
  start(WITH_MEMORY.includes(step) ? "afresh" : "ask");
}

function arrived() {
  sessionStorage.removeItem(TRIES);
  delete document.body.dataset.late;
}
if (tries()) document.body.dataset.late = "yes";

// ---- a request: from the frame through the service worker to here, from here to the engine, which answers it directly
function pass({ data, ports: [port] }) {
  if (data?.type !== "request") return;
  if (!running()) return port.postMessage({ notHere: true });
  if (data.method === "POST") askToStay();
  pages.asks();
  beats.waits();
  worker.postMessage({ ...data, port }, data.body ? [port, data.body] : [port]);
}

// Once something is to be kept, the browser is asked to keep it, and the app's page is told what it said: a message
// {type: "storage-stays", stays: true or false}. Asked, never waited for: some browsers leave it open for ever.
let askedToStay = false;
function askToStay() {
  if (askedToStay) return;
  askedToStay = true;
  const tell = (stays) => frame.contentWindow?.postMessage({ type: "storage-stays", stays }, location.origin);
  navigator.storage?.persist?.().then(tell, () => tell(false));
}

// ---- the engine
const HEARD = {
  step: ({ step }) => { document.body.dataset.step = step; if (!running()) show("starting"); },
  locked: () => { end(); show("locked"); },
  forgetful: ({ detail }) => { end(); show("forgetful", detail); },
  failed: ({ detail }) => { const began = running(); end(); arrived(); (began ? Promise.resolve(false) : former(detail)).then((went) => went || show("failed", detail)); },
  stopped: () => { end(); stopped(); },
  ready: ({ store }) => { document.body.dataset.store = store; performance.mark("engine-ready"); settled(); beats = pulse(worker, { died, long }); show("opening"); pages.open(tries() > 1 ? inside(location.hash) : next(location.hash)); },
  anew: () => { end(); start("ask"); },
};

// "ask": take the lock if it is or comes free now; "wait": until whoever holds it lets it go; "afresh": as "ask", and throw
// the kept memory away.
function start(patience) {
  delete document.body.dataset.step;
  show("starting");
  leaving = false;
  worker = new Worker(new URL("shell/worker.js", base), { type: "module", name: patience });
  worker.onerror = (event) => HEARD.failed({ detail: `${event.message ?? event.type} ${event.filename ?? ""}:${event.lineno ?? ""}` });
  worker.onmessage = ({ data }) => { beats?.heard(data); HEARD[data.type]?.(data); };
}

// The page as it was kept stands there until a new engine is ready. What was tapped and not answered is tapped again: sent
// twice it might be kept twice.
function died() {
  if (leaving) return HEARD.stopped();
  HEARD.anew();
  showKept(location.hash).catch(() => {}); // words alone, then
}

// Whoever lets the record go has decided; anybody else is asked.
function long(is) {
  if (is && leaving) died();
  else document.body.toggleAttribute("data-long", is);
}

// Goes on with the build before this one, which did not start, and says why; tells whether there is one.
async function former(detail) {
  if (!await wentBack().catch(() => false)) return false;
  sessionStorage.setItem(WENT_BACK, detail);
  location.reload();
  return true;
}

function end() {
  beats?.end();
  pages.end();
  worker?.terminate();
  worker = beats = null;
  frame.removeAttribute("src");
}

function stop(then) { // an engine that does not run yet has nothing to close: it goes at once, its lock with it
  stopped = then;
  leaving = true;
  if ("long" in document.body.dataset) return died();
  beats?.waits();
  if (running()) worker.postMessage({ type: "stop" });
  else if (worker) HEARD.stopped();
}

between.onmessage = ({ data }) => { if (data === "release") stop(() => show("moved")); };
one("take").onclick = () => { between.postMessage("release"); start("wait"); };
one("anew").onclick = () => died();
one("again").onclick = () => location.reload();
one("renew").onclick = () => stop(() => { show("starting"); take(); });
addEventListener("pagehide", (event) => { if (event.persisted) stop(() => show("frozen")); }); // set aside whole: let go of the files
addEventListener("pageshow", (event) => { if (event.persisted) location.reload(); });
document.addEventListener("visibilitychange", () => { awaitTurn(); if (!document.hidden) { beats?.front(); watch(); } });

// ---- the address bar follows the frame, and the frame an address that somebody typed
const pages = opener(frame, {
  idle: () => beats.idle(),
  away: () => show("opening"),
  lost: () => HEARD.failed({ detail: "no page of the app came" }),
  came() {
    const first = state() === "opening";
    if (first) show("running");
    giveWay(frame);
    arrived();
    if (first) performance.mark("page-shown");
    shown();
  },
});
function follow() {
  const within = frame.contentWindow;
  if (!running() || !stands(frame)) return;
  document.title = within.document.title;
  history.replaceState(null, "", outside(within.location));
}
function shown() {
  follow();
  keep(frame.contentDocument).catch(() => {}); // no room for it: the next start shows words alone
  readyToPrint(frame.contentDocument);
}
frame.addEventListener("load", () => {
  if (!running()) return;
  pages.loaded();
  frame.contentDocument?.addEventListener("htmx:finally:request", () => setTimeout(shown));
});
printing(() => (state() === "running" ? frame : one("kept")).contentDocument);
addEventListener("hashchange", () => { if (running()) frame.src = inside(location.hash); });

if (!navigator.serviceWorker || !navigator.locks) show("plain");
else {
  show("starting");
  navigator.serviceWorker.addEventListener("message", pass);
  navigator.serviceWorker.startMessages();
  showKept(location.hash).catch(() => {}); // nothing to show yet
  const news = () => { document.body.dataset.news = "ready"; };
  installed(free, news).then(() => start("ask"), (error) => show("failed", String(error)));
}
