// The record where a browser lacks files that stay open (some private windows, older browsers): in its own database, copied
// there whole before each form is answered. Slower, and as durable. A record that was begun in one way stays there: with two
// of them one would seem lost.
import { base } from "./place.js";

const AT = `/kept${base.pathname.replace(/\/$/, "")}`; // it is also the name of the database
const BUSY = "NoModificationAllowedError";

export async function begun() {
  const there = await indexedDB.databases?.().catch(() => []) ?? [];
  return there.some(({ name }) => name === AT);
}

// Tells whether nothing stands in the way of another store: no record in files, and none that another tab has open.
export async function mayBegin(error, folder, file) {
  if (error.name === BUSY) return false;
  try {
    const directory = await (await navigator.storage.getDirectory()).getDirectoryHandle(folder);
    return (await (await directory.getFileHandle(file)).getFile()).size === 0;
  } catch { // no such folder, no such file, or no such storage at all
    return true;
  }
}

export async function mountSlow(FS, at) {
  FS.mkdirTree(AT);
  FS.mount(FS.filesystems.IDBFS, {}, AT);
  await copied(FS, true);
  FS.symlink(AT, at);
}

export function copied(FS, here = false) {
  return new Promise((done, failed) => FS.syncfs(here, (error) => (error ? failed(error) : done())));
}
