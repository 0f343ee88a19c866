// Whether the engine still lives. A browser may end a worker in the background and say nothing: what is dead holds its lock
// no more. One that was set aside may hang: it is silent, though nothing keeps it busy. Python at work hears nothing either,
// for seconds; so silence counts only where no request waits.
import { named } from "./place.js";

const ENGINE = named("engine"), PATIENCE_MS = 2000;
const owner = async () => (await navigator.locks.query()).held.find(({ name }) => name === ENGINE)?.clientId;

// Follows an engine that is ready; `died` is called once, where it is found dead. It is looked at when the page comes to
// the front, and every two seconds while something waits for it.
export function pulse(worker, died) {
  const own = owner();
  let waiting = 0, asked = false, ended = false, timer = 0;

  async function look(patient) {
    const gone = await owner() !== await own || (!patient && asked && !waiting);
    if (ended) return;
    clearTimeout(timer);
    if (gone) { end(); died(); } else if (waiting || asked) timer = setTimeout(look, PATIENCE_MS);
  }

  function end() {
    ended = true;
    clearTimeout(timer);
  }

  return {
    end,
    idle: () => waiting === 0,
    waits() {
      waiting += 1;
      if (waiting === 1 && !asked) timer = setTimeout(look, PATIENCE_MS);
    },
    heard({ type }) {
      asked = false;
      if (type === "answered") waiting -= 1;
    },
    front() {
      asked = true;
      worker.postMessage({ type: "ping" });
      look(true);
    },
  };
}
