// Python's memory as it stood once the app was loaded, so that a reopened app need not load it again. An accelerator, never
// a need: it is made on this device for these very files, and one that fails once is never tried again.
import createModule from "../engine/pyodide.asm.mjs";
import { loadPyodide } from "../engine/pyodide.mjs";
import { base, named } from "./place.js";

const SMALL_GB = 4; // below it the memory for a second copy, for a moment, is not to be had for sure
const OF = ["/engine/", "/shell/snapshot.js"]; // files on which the memory depends
const NAME = named("snapshot"), engine = new URL("engine/", base).href;
const LENGTH = "x-length";
let address = null;

async function addressed() {
  const files = await (await fetch(new URL("files.json", base))).json();
  const ours = Object.entries(files).filter(([path]) => OF.some((each) => path.startsWith(each))).sort();
  const digest = await crypto.subtle.digest("SHA-256", new TextEncoder().encode(JSON.stringify(ours)));
  return new URL(`snapshot/${Array.from(new Uint8Array(digest).slice(0, 16), (each) => each.toString(16).padStart(2, "0")).join("")}`, base);
}

// What is kept for these files: bytes, none of them where it failed before, null where nothing is kept, or not all of it: a
// browser may be killed while it writes.
export async function read() {
  if ((navigator.deviceMemory ?? SMALL_GB) < SMALL_GB) return new Uint8Array(0);
  address = await addressed();
  const found = await whole().catch(() => null);
  return found && new Uint8Array(found);
}

async function whole() {
  const found = await (await caches.open(NAME)).match(address), content = await found?.arrayBuffer();
  return content?.byteLength === Number(found?.headers.get(LENGTH)) ? content : null;
}

export async function write(bytes) {
  const cache = await caches.open(NAME);
  for (const old of await cache.keys()) await cache.delete(old);
  await cache.put(address, new Response(bytes, { headers: { [LENGTH]: bytes.length } }));
}

export const never = () => (address ? write(new Uint8Array(0)) : undefined);

// The same before anything is read: a start that it hangs gets nowhere.
export async function thrownAway() {
  address = await addressed();
  await never();
  return new Uint8Array(0);
}

export const fresh = (env, kept) => loadPyodide({ indexURL: engine, env, _makeSnapshot: kept === null });

// Pyodide itself does not make room for a memory that has grown: it is let grow first (pyodide#6254).
export function restored(bytes) {
  const createPyodideModule = async (settings) => {
    const module = await createModule(settings);
    module._free(module._malloc(bytes.length));
    return module;
  };
  return loadPyodide({ indexURL: engine, _loadSnapshot: bytes, createPyodideModule });
}
