// A tab that waits for its turn: another one has the record open. Once that one is gone, this one comes to life by itself.
//
// 1. The lock is waited for only while this tab is looked at: one in the background may be set aside at any time, and would
//    then keep the lock from everybody.
// 2. Who gets it lets go at once and looks again a little later: the other tab may just be opened anew, or start its engine
//    anew. Where it has the lock again by then, the wait goes on.
import { named } from "./place.js";

const ENGINE = named("engine"), GRACE_MS = 5000;

// Tells whether no tab has the record open.
export async function free() {
  return !(await navigator.locks.query()).held.some(({ name }) => name === ENGINE);
}

// `comes` is called once it is this tab's turn.
export function turn(comes) {
  let waits = new AbortController();

  async function wait() {
    end();
    if (document.hidden) return;
    waits = new AbortController();
    const { signal } = waits;
    try {
      do {
        await navigator.locks.request(ENGINE, { signal }, () => {});
        await new Promise((done) => setTimeout(done, GRACE_MS));
      } while (!await free());
      signal.throwIfAborted();
    } catch (error) {
      if (signal.aborted) return;
      throw error;
    }
    comes();
  }

  const end = () => waits.abort();

  return { wait, end };
}
