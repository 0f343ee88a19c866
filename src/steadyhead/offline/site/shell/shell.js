// The page that stays: it owns the engine's worker and the frame with the app, hands requests from one to the other, and
// never navigates itself (that would stop Python). It holds no data and no words: what it says stands in index.html.
const one = (id) => document.getElementById(id);
const frame = one("app");
const between = new BroadcastChannel("steadyhead-engine"); // between the tabs of this browser
const PATIENCE_MS = 60_000; // without a step for so long the start is called slow
let worker = null;
let watchdog = 0;
let stopping = "moved"; // what to show once the engine has stopped

function show(state, detail = "") {
  document.body.dataset.state = state;
  one("detail").textContent = detail;
  clearTimeout(watchdog);
  if (state === "starting") watchdog = setTimeout(show, PATIENCE_MS, "slow", document.body.dataset.step);
}
const running = () => document.body.dataset.state === "running";

// ---- a request: from the frame through the service worker to here, from here to the engine, which answers it directly
function pass({ data, ports: [port] }) {
  if (data?.type !== "request") return;
  if (!running()) return port.postMessage({ notHere: true });
  worker.postMessage({ ...data, port }, data.body ? [port, data.body] : [port]);
}

async function controlled() {
  const here = navigator.serviceWorker;
  here.addEventListener("message", pass);
  here.startMessages();
  const before = await here.getRegistration();
  const taken = new Promise((done) => here.addEventListener("controllerchange", done, { once: true }));
  await here.register("/sw.js");
  await here.ready;
  if (here.controller) return;
  if (before?.active) location.reload(); // a hard reload goes past the service worker, for good
  await taken;
}

// ---- the engine
const HEARD = {
  step: ({ step }) => { document.body.dataset.step = step; if (!running()) show("starting"); },
  locked: () => { end(); show("locked"); },
  forgetful: ({ detail }) => { end(); show("forgetful", detail); },
  failed: ({ detail }) => { end(); show("failed", detail); },
  stopped: () => { end(); show(stopping); },
  ready: () => { performance.mark("engine-ready"); show("running"); frame.src = location.pathname + location.search + location.hash; },
};

function start(patience) { // "ask": take the lock if it is or comes free now; "wait": until whoever holds it lets it go
  show("starting");
  worker = new Worker("/shell/worker.js", { type: "module", name: patience });
  worker.onerror = (event) => HEARD.failed({ detail: `${event.message ?? event.type} ${event.filename ?? ""}:${event.lineno ?? ""}` });
  worker.onmessage = ({ data }) => HEARD[data.type](data);
}

function end() {
  worker?.terminate();
  worker = null;
  frame.removeAttribute("src");
}

function stop(why) { // an engine that does not run yet has nothing to close: it goes at once, its lock with it
  stopping = why;
  if (running()) worker.postMessage({ type: "stop" });
  else if (worker) HEARD.stopped();
}

between.onmessage = ({ data }) => { if (data === "release") stop("moved"); };
one("take").onclick = () => { between.postMessage("release"); start("wait"); };
one("again").onclick = () => location.reload();
addEventListener("pagehide", (event) => { if (event.persisted) stop("frozen"); }); // set aside whole: let go of the files
addEventListener("pageshow", (event) => { if (event.persisted) location.reload(); });

// ---- the address bar follows the frame
function follow() {
  const inside = frame.contentWindow;
  if (!running() || inside.location.origin !== location.origin) return;
  document.title = inside.document.title;
  history.replaceState(null, "", inside.location.pathname + inside.location.search);
}
frame.addEventListener("load", () => {
  follow();
  if (running()) performance.mark("page-shown");
  frame.contentDocument?.addEventListener("htmx:finally:request", () => setTimeout(follow));
});

if (!navigator.serviceWorker || !navigator.locks) show("plain");
else {
  show("starting");
  navigator.storage?.persist?.().catch(() => {}); // asked, never waited for: some browsers leave it open for ever
  controlled().then(() => start("ask"), (error) => show("failed", String(error)));
}
