"""Build the folder that lets the app run in a browser with nobody serving it, and prove it in a real Chromium.

Rules
-----
1. The folder is build/offline, made of the built wheel and the libraries that the app needs, as Pyodide compiles them,
   of the published Pyodide, and of the pages in src/steadyhead/offline/site.
2. What goes over the way is `MOST` at the most, where the server compresses.
3. The proof serves the folder once, makes a visit, takes the server away, kills the browser, and looks for the visit in
   another one (tests/offline/in_chromium.py); what else it proves stands in the files beside that one.

``python3 scripts/offline.py`` builds and says how large it is; ``--prove`` runs the proof as well.
"""

from __future__ import annotations

import gzip
import re
import subprocess
import sys
from pathlib import Path

import browser_python
import environment

FOLDER = environment.ROOT / "build" / "offline"
SITE = browser_python.BUILD / "offline-site"
PROOFS = "tests/offline/*in_chromium.py"
#: What the command and its server need, and a browser does not.
NOT_IN_A_BROWSER = frozenset({"rich", "typer", "uvicorn"})
MEGABYTE = 1e6
#: The largest download [MB]: some half a minute in a car park with two bars.
MOST = 14.0
COMPILE = environment.ROOT / "src" / "steadyhead" / "offline" / "make" / "compile.mjs"


def main(arguments: list[str]) -> int:
    """Build, say the sizes, and prove where that is asked for; return the exit code."""
    environment.ensure("test")
    code = build()
    if code or arguments != ["--prove"]:
        return code
    return environment.check(["pytest", "-q", "-s", *map(str, sorted(environment.ROOT.glob(PROOFS)))])


def build() -> int:
    """Build the folder anew; return the exit code."""
    browser_python.fetch_pyodide()
    browser_python.fetch_wheels()
    wheels = browser_python.wheels_for(needed(), browser_python.BUILD / "offline-wheels")
    browser_python.unpack(SITE, browser_python.build_wheel(), *wheels)
    places = [str(browser_python.PYODIDE), str(SITE), str(browser_python.BUILD / "site.zip")]
    code = subprocess.run([browser_python.tool("node"), str(COMPILE), *places], check=False).returncode
    return code or lay_out()


def needed() -> list[str]:
    """Return the requirements of the app alone."""
    wanted = environment.project()["dependencies"]
    return [each for each in wanted if re.split(r"[^\w-]", each)[0] not in NOT_IN_A_BROWSER]


def lay_out() -> int:
    """Lay the folder out with the package's own function, in the environment that has it; return the exit code."""
    code = "import sys, pathlib, steadyhead.offline.build as b; b.build(*map(pathlib.Path, sys.argv[1:]))"
    archive = browser_python.BUILD / "site.zip"
    places = [str(browser_python.PYODIDE), str(archive), str(FOLDER)]
    environment.stop_unless_done([str(environment.python()), "-c", code, *places])
    return 0 if say_sizes(FOLDER) <= MOST else too_large()


def too_large() -> int:
    """Say that it is; return the exit code."""
    environment.say(f"that is more than {MOST} MB; src/steadyhead/offline/make/left_out.py tells what stays behind")
    return 1


def say_sizes(folder: Path) -> float:
    """Say how large each file is, and how large on the way where a server compresses; return the whole [MB]."""
    whole = wire = 0
    for file in sorted(folder.rglob("*")):
        if file.is_file():
            content = file.read_bytes()
            packed = min(len(content), len(gzip.compress(content, 6)))
            whole, wire = whole + len(content), wire + packed
            name = file.relative_to(folder).as_posix()
            environment.say(f"{len(content):>10} bytes, {packed:>10} compressed  {name}")
    environment.say(f"{whole / MEGABYTE:.1f} MB, {wire / MEGABYTE:.1f} MB on the way")
    return wire / MEGABYTE


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
