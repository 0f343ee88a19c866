"""Import and test the package inside a browser's Python (Pyodide), run by Node without a network.

Rules
-----
1. What runs is the built wheel and its pure-Python dependencies (scripts/browser_python.py).
2. Every module is imported; then every test runs that can: the ones that need processes, other programs or compiled
   libraries are left out and counted by name (scripts/pyodide/portable.py says how they are told). So are the engine's
   own, but with ``--whole``: its figures are compared all the same.
3. The figures of the examples are those that CPython writes in the same run, to 1e-9
   (tests/diagnosis/test_same_figures.py).

``python3 scripts/in_pyodide.py`` runs all; arguments go to pytest: ``python3 scripts/in_pyodide.py -k messages``.
"""

from __future__ import annotations

import sys

import browser_python
import environment
from same_figures import write_figures

SITE = browser_python.BUILD / "site"


def main(arguments: list[str]) -> int:
    """Prepare Pyodide and the wheels, and run them; return the exit code."""
    environment.ensure("test")
    browser_python.fetch_pyodide()
    browser_python.unpack(SITE, browser_python.build_wheel(), *browser_python.fetch_wheels())
    write_figures(environment.python(), browser_python.BUILD / "figures.json")
    places = {"STEADYHEAD_ROOT": str(environment.ROOT), "STEADYHEAD_SITE": str(SITE)}
    return browser_python.run_node("run.mjs", arguments, places)


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
