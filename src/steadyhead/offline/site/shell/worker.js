// The engine: Python, the app and the record, in a worker of the page. It alone opens the record's files, and only while it
// holds the lock, which goes when the worker goes. Requests are answered one after the other, after what they keep is kept.
import { closePool, mountPool, openPool } from "./opfsfs.js";
import { base, named } from "./place.js";
import { begun, copied, mayBegin, mountSlow } from "./slowfs.js";
import * as snapshot from "./snapshot.js";

// The record and its journal; the copy that is made before a migration, and its journal; answers that were worked out.
const KEPT = ["app.db", "app.db-journal", "app.db-before", "app.db-before-journal", "thoughts.db"];
const RECORD = encodeURIComponent(named("record"));
const LOAD = "import sys; sys.path.insert(0, '/site.zip'); from steadyhead.offline.boot import load; load()";
const LATE_MS = 3000; // a page that was left lets go a little late; whoever holds the lock for longer is another tab
const MEMORY_MS = 10_000; // what only makes a start faster may not hold it up for longer
const tell = (type, more) => postMessage({ type, ...more });
const step = (name) => tell("step", { step: name });
const NOTHING = new Uint8Array(0);
const later = (ms) => new Promise((done) => setTimeout(done, ms, NOTHING));
let python, host, pool, letGo;
let last = Promise.resolve();

navigator.locks.request(named("engine"), self.name === "wait" ? {} : { signal: AbortSignal.timeout(LATE_MS) }, () => {
  boot().catch((error) => tell("failed", { detail: String(error) }));
  return new Promise((done) => { letGo = done; });
}).catch(() => tell("locked"));

async function boot() {
  step("storage");
  const archive = fetch(new URL("engine/site.zip", base)).then((found) => found.arrayBuffer());
  const reading = (self.name === "afresh" ? snapshot.thrownAway() : snapshot.read()).catch(() => NOTHING); // no need of it
  try {
    if (!await begun()) pool = await openPool(RECORD, KEPT);
  } catch (error) {
    if (!await mayBegin(error, RECORD, KEPT[0])) return tell("forgetful", { detail: String(error) });
  }
  const kept = await Promise.race([reading, later(MEMORY_MS)]);
  try {
    await wake(kept, new Uint8Array(await archive));
  } catch (error) {
    if (!kept?.length) throw error;
    await snapshot.never();
    if (pool) closePool(pool);
    tell("anew"); // by a worker of its own, which finds no snapshot
  }
}

async function wake(kept, archive) {
  step("python");
  const zone = Intl.DateTimeFormat().resolvedOptions().timeZone;
  const env = { HOME: "/memory", PYTHONDONTWRITEBYTECODE: "1", TZ: zone };
  python = await (kept?.length ? snapshot.restored(kept) : snapshot.fresh(env, kept));
  self.python = python; // for whoever looks into a running engine
  step("app");
  python.FS.writeFile("/site.zip", archive);
  if (!kept?.length) python.runPython(LOAD);
  const made = kept === null ? python.makeMemorySnapshot() : null; // before anything of this very start is in it
  const starting = python.pyimport("steadyhead.offline.boot");
  starting.woken(zone);
  if (pool) mountPool(python.FS, pool, "/data");
  else await mountSlow(python.FS, "/data");
  step("record");
  host = await starting.boot(base.href);
  if (typeof host === "string") return tell("failed", { detail: host });
  if (!pool) await copied(python.FS);
  step("page");
  tell("ready", { store: pool ? "files" : "slow" });
  if (made) snapshot.write(made).catch(() => {}); // no room for it: the next start is as slow as this one
}

onmessage = ({ data }) => {
  if (data.type === "ping") tell("alive"); // at once, whatever waits
  else last = last.then(() => (data.type === "stop" ? stop() : reply(data)));
};

async function reply(asked) {
  try {
    const answer = await answered(asked);
    if (!pool && !["GET", "HEAD"].includes(asked.method)) await copied(python.FS); // only then it is kept
    asked.port.postMessage(answer, [answer.body.buffer]);
  } catch (error) { // Python itself is gone: say so once, and to whoever waits
    asked.port.postMessage({ status: 500, headers: [["content-type", "text/plain"]], body: new TextEncoder().encode(String(error)) });
    await snapshot.never();
    tell("failed", { detail: String(error) });
  } finally {
    tell("answered");
  }
}

async function answered({ method, url, headers, body }) {
  const given = [python.toPy(headers), body ? python.toPy(new Uint8Array(body)) : undefined];
  const answer = await host.answer(method, url, ...given);
  const [names, content] = [answer.headers, answer.body];
  const bytes = content.getBuffer();
  const result = { status: answer.status, headers: names.toJs(), body: bytes.data.slice() };
  bytes.release();
  for (const each of [...given, names, content, answer]) each?.destroy();
  return result;
}

async function stop() {
  try {
    await host.stop();
    if (!pool) await copied(python.FS);
  } finally { // whatever happened: the next one gets the files, and SQLite's journal makes them whole
    if (pool) closePool(pool);
    letGo();
    tell("stopped");
  }
}
