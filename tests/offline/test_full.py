"""A browser's storage that is full, or fails, is told to SQLite as a disk's would be: Python goes on and says so."""

from __future__ import annotations

import json
import subprocess
from importlib.resources import files

import pytest

from tests.support import require_tool

pytestmark = pytest.mark.laptop

#: A file system as Emscripten's is asked, with one file whose storage answers with an error of that name.
ASKED = """
const { mountPool } = await import(process.argv[1]);
class ErrnoError { constructor(errno) { this.errno = errno; } }
let root;
const FS = { ErrnoError, mkdirTree() {}, createNode: (parent, name, mode) => ({ parent, name, mode, id: 1 }),
  mount: (type) => { root = type.mount(); } };
const fails = () => { throw Object.assign(new Error("no"), { name: process.argv[2] }); };
const pool = new Map([["app.db", { handle: { getSize: () => 0, write: fails, flush: fails }, there: true }]]);
mountPool(FS, pool, "/data");
const node = root.node_ops.lookup(root, "app.db");
const told = (act) => { try { return act(); } catch (error) { return error.errno ?? String(error); } };
const { write, fsync } = root.stream_ops;
const found = [() => write({ node }, new Uint8Array(8), 0, 8, 0), () => fsync({ node })].map(told);
console.log(JSON.stringify(found));
"""


@pytest.mark.parametrize(("error", "errno"), [("QuotaExceededError", 51), ("InvalidStateError", 29)])
def test_a_full_storage_is_no_space_and_a_failing_one_a_failure_of_the_disk(error: str, errno: int) -> None:
    """WASI preview 1: nospc is 51, io is 29; these are Emscripten's numbers."""
    script = str(files("steadyhead.offline") / "site" / "shell" / "opfsfs.js")
    command = [require_tool("node"), "--input-type=module", "-e", ASKED, script, error]
    done = subprocess.run(command, check=True, capture_output=True, encoding="utf-8")
    assert json.loads(done.stdout) == [errno, errno]
