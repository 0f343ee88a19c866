// Starts the browser's Python under Node and lets it compile the unpacked wheels into one archive, and its own library into
// another one beside it, for itself to read.
// Nothing is fetched: a request to any network is an error. It is told: Pyodide's folder, the wheels', the archive's name.
import path from "node:path";
import { pathToFileURL } from "node:url";

const [engine, site, archive] = process.argv.slice(2).map((each) => path.resolve(each));
const { loadPyodide } = await import(pathToFileURL(path.join(engine, "pyodide.mjs")).href);

globalThis.fetch = (what) => {
  throw new Error(`no network here: ${what}`);
};

// The same chance, and no columns of what was compiled (they serve an error's underlining alone): the same bytes, fewer.
const env = { PYTHONDONTWRITEBYTECODE: "1", PYTHONHASHSEED: "0", PYTHONNODEBUGRANGES: "1" };
const pyodide = await loadPyodide({ env });
for (const [there, here] of [["/site", site], ["/made", path.dirname(archive)]]) {
  pyodide.FS.mkdirTree(there);
  pyodide.mountNodeFS(there, here);
}
pyodide.globals.set("named", path.basename(archive));
try {
  pyodide.runPython(`
import sys
from pathlib import Path
sys.path.insert(0, "/site")
from steadyhead.offline.make import archive
archive.pack(Path("/site"), Path("/made", named))
archive.pack_library(Path("/made", "python_stdlib.zip"))
`);
} catch (error) {
  console.error(error.message); // the message holds Python's traceback; Node's own would print a megabyte of source
  process.exit(1);
}
