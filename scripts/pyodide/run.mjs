// Starts the browser's Python under Node, hands it the unpacked wheels and the checkout's tests, and ends with its exit code.
// Nothing is fetched: a request to any network is an error.
import path from "node:path";
import { pathToFileURL } from "node:url";

const { STEADYHEAD_ROOT: root, STEADYHEAD_SITE: site, STEADYHEAD_BUILD: build } = process.env;
const { loadPyodide } = await import(pathToFileURL(path.join(build, "node_modules", "pyodide", "pyodide.mjs")).href);

globalThis.fetch = (what) => {
  throw new Error(`no network here: ${what}`);
};

const started = performance.now();
const env = { HOME: "/home/pyodide", PYTHONDONTWRITEBYTECODE: "1", COLUMNS: "120", STEADYHEAD_FIGURES: "/build/figures.json" };
const pyodide = await loadPyodide({ env });
for (const [there, here] of [["/site", site], ["/checkout", root], ["/build", build]]) {
  pyodide.FS.mkdirTree(there);
  pyodide.mountNodeFS(there, here);
}
console.log(`Pyodide ${pyodide.version} started in ${((performance.now() - started) / 1000).toFixed(1)} s`);

pyodide.globals.set("arguments", pyodide.toPy(process.argv.slice(2)));
try {
  process.exit(pyodide.runPython(`
import sys
sys.path[:0] = ["/site", "/checkout/scripts/pyodide"]
import portable
portable.main(list(arguments))
`));
} catch (error) {
  console.error(error.message); // the message holds Python's traceback; Node's own would print a megabyte of source
  process.exit(1);
}
