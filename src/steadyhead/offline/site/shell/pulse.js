// Whether the engine still lives, and whether it gets on.
//
// 1. A browser may end a worker in the background and say nothing: what is dead holds its lock no more.
// 2. One that was set aside may hang. Whoever has nothing to do answers a ping at once; so one is sent before the first
//    request, and when the page comes to the front. Silence for two seconds is the end of such an engine.
// 3. Python at work hears nothing, and nobody can tell long work from a loop without end. So it is never ended for that: that
//    it takes long is said, and whoever waits may choose.
import { named } from "./place.js";

const ENGINE = named("engine"), PATIENCE_MS = 2000, LONG_MS = 30_000;
const owner = async () => (await navigator.locks.query()).held.find(({ name }) => name === ENGINE)?.clientId;

// Follows an engine that is ready. `died` is called once, where it is found dead: it is looked for when the page comes to the
// front, and every two seconds while something waits. `long` is told whether what waits was not answered for so long.
export function pulse(worker, { died, long }) {
  const own = owner();
  let waiting = 0, pings = 0, unanswered = 0, ended = false, looking = 0, late = 0;

  async function look(patient) {
    const silent = patient ? 0 : unanswered; // sent two seconds ago; another one may be sent while this waits
    const gone = await owner() !== await own || (silent && silent === unanswered);
    if (ended) return;
    clearTimeout(looking);
    if (gone) { end(); died(); } else if (waiting || unanswered) looking = setTimeout(look, PATIENCE_MS);
  }

  function ping() {
    pings += 1;
    unanswered = pings;
    worker.postMessage({ type: "ping" });
  }

  function watch() {
    clearTimeout(late);
    long(false);
    if (waiting) late = setTimeout(long, LONG_MS, true);
  }

  function end() {
    ended = true;
    waiting = 0;
    clearTimeout(looking);
    watch();
  }

  return {
    end,
    idle: () => waiting === 0,
    waits() {
      waiting += 1;
      if (waiting > 1) return;
      ping();
      watch();
      clearTimeout(looking);
      looking = setTimeout(look, PATIENCE_MS);
    },
    heard({ type }) {
      unanswered = 0;
      if (type !== "answered") return;
      waiting -= 1;
      watch();
    },
    front() { // while it was set aside no time went by
      if (!waiting) ping();
      watch();
      look(true);
    },
  };
}
