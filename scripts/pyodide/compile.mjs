// Starts the browser's Python under Node and lets it compile the unpacked wheels into one archive, for itself to read.
// Nothing is fetched: a request to any network is an error.
import path from "node:path";
import { pathToFileURL } from "node:url";

const { STEADYHEAD_ROOT: root, STEADYHEAD_SITE: site, STEADYHEAD_BUILD: build } = process.env;
const { loadPyodide } = await import(pathToFileURL(path.join(build, "node_modules", "pyodide", "pyodide.mjs")).href);

globalThis.fetch = (what) => {
  throw new Error(`no network here: ${what}`);
};

const pyodide = await loadPyodide({ env: { PYTHONDONTWRITEBYTECODE: "1", PYTHONHASHSEED: "0" } });
for (const [there, here] of [["/site", site], ["/scripts", path.join(root, "scripts", "pyodide")], ["/build", build]]) {
  pyodide.FS.mkdirTree(there);
  pyodide.mountNodeFS(there, here);
}
try {
  pyodide.runPython(`
import sys
sys.path.insert(0, "/scripts")
import archive
archive.main()
`);
} catch (error) {
  console.error(error.message); // the message holds Python's traceback; Node's own would print a megabyte of source
  process.exit(1);
}
