// A file system for the record: each of its files is a file of the browser's own storage, opened once and for as long as
// the engine runs. Reading, writing and flushing are immediate, so that SQLite's journal means here what it means on a disk.
const BUSY = "NoModificationAllowedError"; // a tab that is closing lets go a little late
const FIRST_WAIT_MS = 50, LAST_WAIT_MS = 3200;
const ENOENT = 44, EPERM = 63, EINVAL = 28, ENOSPC = 51, EIO = 29;
const FULL = "QuotaExceededError";
const FILE = 0o100600, FOLDER = 0o40700;
const EPOCH = new Date(0);

export async function openPool(folder, names) {
  const root = await navigator.storage.getDirectory();
  const directory = await root.getDirectoryHandle(folder, { create: true });
  const pool = new Map();
  for (const name of names) {
    const handle = await opened(await directory.getFileHandle(name, { create: true }));
    pool.set(name, { handle, there: handle.getSize() > 0 });
  }
  return pool;
}

async function opened(file) {
  for (let wait = FIRST_WAIT_MS; ; wait *= 2) {
    try {
      return await file.createSyncAccessHandle();
    } catch (error) {
      if (error.name !== BUSY || wait > LAST_WAIT_MS) throw error;
      await new Promise((done) => setTimeout(done, wait));
    }
  }
}

export function closePool(pool) {
  for (const { handle } of pool.values()) {
    handle.flush();
    handle.close();
  }
}

export function mountPool(FS, pool, at) {
  const fail = (code) => { throw new FS.ErrnoError(code); };
  const refuse = () => fail(EPERM);
  // Storage that is full or fails is an error that SQLite understands; any other would end Python.
  const tried = (act) => { try { return act(); } catch (error) { return fail(error.name === FULL ? ENOSPC : EIO); } };
  const size = (node) => (node.kept ? node.kept.handle.getSize() : 0);

  function made(parent, name, mode) {
    const node = FS.createNode(parent, name, mode, 0);
    return Object.assign(node, { node_ops, stream_ops, kept: pool.get(name) });
  }
  const node_ops = {
    getattr: (node) => ({
      dev: 1, ino: node.id, mode: node.mode, nlink: 1, uid: 0, gid: 0, rdev: 0, size: size(node),
      atime: EPOCH, mtime: EPOCH, ctime: EPOCH, blksize: 4096, blocks: Math.ceil(size(node) / 4096),
    }),
    setattr(node, wanted) {
      if (wanted.mode !== undefined) node.mode = wanted.mode;
      if (wanted.size !== undefined) node.kept.handle.truncate(wanted.size);
    },
    lookup: (parent, name) => (pool.get(name)?.there ? made(parent, name, FILE) : fail(ENOENT)),
    mknod(parent, name, mode) {
      (pool.get(name) ?? refuse()).there = true;
      return made(parent, name, mode);
    },
    unlink(parent, name) {
      const kept = pool.get(name);
      kept.handle.truncate(0);
      kept.handle.flush();
      kept.there = false;
    },
    readdir: () => [".", "..", ...[...pool].filter(([, kept]) => kept.there).map(([name]) => name)],
    rename: refuse, rmdir: refuse, symlink: refuse,
  };
  const stream_ops = {
    read: ({ node }, into, from, length, position) => node.kept.handle.read(into.subarray(from, from + length), { at: position }),
    write: ({ node }, what, from, length, position) => (
      tried(() => node.kept.handle.write(what.subarray(from, from + length), { at: position }))),
    llseek(stream, by, whence) {
      const position = by + [0, stream.position, size(stream.node)][whence];
      return position < 0 ? fail(EINVAL) : position;
    },
    fsync({ node }) {
      tried(() => node.kept?.handle.flush());
      return 0;
    },
  };
  FS.mkdirTree(at);
  FS.mount({ mount: () => made(null, "/", FOLDER) }, {}, at);
}
