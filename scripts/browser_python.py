"""The browser's Python (Pyodide) and the package as it runs there: fetched, built, unpacked for whoever runs it.

Rules
-----
1. Pyodide's version stands in scripts/pyodide/package.json, and in the pins of a phone's site, which a test holds to
   it; everything made here stays in build/pyodide.
2. ``python3 scripts/browser_python.py`` sets up the checkout's own environment and fetches all of this, so that checks
   which run at the same time find it there.
3. What is unpacked is the built wheel and pure-Python wheels of the locked versions, never the checkout's own folder.
"""

from __future__ import annotations

import json
import os
import shutil
import subprocess
import sys
import zipfile
from collections.abc import Mapping, Sequence
from pathlib import Path

import environment

HERE = environment.ROOT / "scripts" / "pyodide"
BUILD = environment.ROOT / "build" / "pyodide"
PYODIDE = BUILD / "node_modules" / "pyodide"
WHEELS = BUILD / "wheels"

#: What the tests need beside the package, as far as it has a pure-Python wheel; pyproject.toml and the lock say which.
TEST_TOOLS = ("hypothesis", "pytest")
#: Published with a compiled helper only, but works without: built here from its source, without a compiler.
COMPILED_ELSEWHERE = ("MarkupSafe",)
#: Asked of pip: the newest Python that Pyodide brings, and wheels that any machine can run.
ANY_MACHINE = ("--only-binary=:all:", "--platform=any", "--implementation=py", "--abi=none", "--python-version=3.14")


def run_node(script: str, arguments: Sequence[str], places: Mapping[str, str]) -> int:
    """Run one of the scripts of scripts/pyodide, told where things are by its environment; return its exit code."""
    environment.say(f"$ node scripts/pyodide/{script}")
    told = {"STEADYHEAD_BUILD": str(BUILD), **places}
    command = [tool("node"), str(HERE / script), *arguments]
    return subprocess.run(command, check=False, env=os.environ | told).returncode


def tool(name: str) -> str:
    """Return where a command stands; without it end with a plain word."""
    found = shutil.which(name)
    if found is None:
        environment.say(f"`{name}` is not installed; the browser's Python needs Node.js and npm")
        raise SystemExit(1)
    return found


def fetch_pyodide() -> None:
    """Install the pinned Pyodide, unless it stands there already."""
    manifest = json.loads((HERE / "package.json").read_text(encoding="utf-8"))
    wanted = manifest["devDependencies"]["pyodide"]
    installed = PYODIDE / "package.json"
    if installed.exists() and json.loads(installed.read_text(encoding="utf-8"))["version"] == wanted:
        return
    BUILD.mkdir(parents=True, exist_ok=True)
    shutil.copy(HERE / "package.json", BUILD)
    quiet = ("--no-save", "--no-package-lock", "--no-audit", "--no-fund")
    environment.stop_unless_done([tool("npm"), "install", *quiet, "--prefix", str(BUILD)])


def build_wheel() -> Path:
    """Build the package's own wheel."""
    own = BUILD / "own"
    shutil.rmtree(own, ignore_errors=True)
    environment.stop_unless_done([*pip(), "wheel", "-qq", "--no-deps", "-w", str(own), str(environment.ROOT)])
    return next(own.glob("*.whl"))


def fetch_wheels() -> list[Path]:
    """Fetch the locked pure-Python wheels of the dependencies and the test tools, unless the lock is unchanged."""
    stamp = WHEELS / "lock"
    if not stamp.exists() or stamp.read_text(encoding="utf-8") != environment.digest():
        shutil.rmtree(WHEELS, ignore_errors=True)
        constraints = str(environment.ROOT / "constraints.txt")
        build_without_compiler(constraints)
        wanted = [*environment.project()["dependencies"], *TEST_TOOLS]
        places = ("--find-links", str(WHEELS), "-d", str(WHEELS))
        environment.stop_unless_done([*pip(), "download", "-qq", *ANY_MACHINE, "-c", constraints, *places, *wanted])
        stamp.write_text(environment.digest(), encoding="utf-8")
    return sorted(WHEELS.glob("*.whl"))


def build_without_compiler(constraints: str) -> None:
    """Build the plain Python wheels of what is published compiled: the C compiler is one that always fails."""
    source = (*pip(), "wheel", "-qq", "--no-deps", "--no-cache-dir", "-c", constraints, "-w", str(WHEELS))
    command = [*source, f"--no-binary={','.join(COMPILED_ELSEWHERE)}", *COMPILED_ELSEWHERE]
    done = subprocess.run(command, check=False, stdin=subprocess.DEVNULL, env=os.environ | {"CC": "false"})
    if done.returncode:
        raise SystemExit(done.returncode)


def pip() -> list[str]:
    """Return how pip is started."""
    return [str(environment.python()), "-m", "pip"]


def unpack(folder: Path, *wheels: Path) -> None:
    """Unpack the wheels side by side, as an installer would."""
    shutil.rmtree(folder, ignore_errors=True)
    for wheel in wheels:
        with zipfile.ZipFile(wheel) as archive:
            archive.extractall(folder)
    environment.say("For Pyodide: " + ", ".join("-".join(wheel.name.split("-")[:2]) for wheel in wheels))


def main() -> int:
    """Set up and fetch; return the exit code."""
    environment.ensure("dev")
    fetch_pyodide()
    fetch_wheels()
    return 0


if __name__ == "__main__":
    sys.exit(main())
