"""Import and test the package inside a browser's Python (Pyodide), run by Node without a network.

Rules
-----
1. What runs is the built wheel and its pure-Python dependencies, never the checkout's own folder.
2. Pyodide's version stands in scripts/pyodide/package.json alone; everything made here stays in build/pyodide.
3. Every module is imported; then every test runs that can: the ones that need processes, other programs or compiled
   libraries are left out and counted by name (scripts/pyodide/portable.py says how they are told).
4. The figures of the examples are those that CPython writes in the same run, to 1e-9
   (tests/diagnosis/test_same_figures.py).

``python3 scripts/in_pyodide.py`` runs all; arguments go to pytest: ``python3 scripts/in_pyodide.py -k messages``.
"""

from __future__ import annotations

import json
import os
import shutil
import subprocess
import sys
import zipfile
from pathlib import Path

import environment
from same_figures import write_figures

HERE = environment.ROOT / "scripts" / "pyodide"
BUILD = environment.ROOT / "build" / "pyodide"
WHEELS = BUILD / "wheels"
SITE = BUILD / "site"

#: What the tests need beside the package, as far as it has a pure-Python wheel; pyproject.toml and the lock say which.
TEST_TOOLS = ("hypothesis", "pytest")
#: Published with a compiled helper only, but works without: built here from its source, without a compiler.
COMPILED_ELSEWHERE = ("MarkupSafe",)
#: Asked of pip: the newest Python that Pyodide brings, and wheels that any machine can run.
ANY_MACHINE = ("--only-binary=:all:", "--platform=any", "--implementation=py", "--abi=none", "--python-version=3.14")


def main(arguments: list[str]) -> int:
    """Prepare Pyodide and the wheels, and run them; return the exit code."""
    environment.ensure("test")
    node = command("node")
    fetch_pyodide()
    unpack(build_wheel(), *fetch_wheels())
    write_figures(environment.python(), BUILD / "figures.json")
    environment.say("$ node scripts/pyodide/run.mjs")
    places = {"STEADYHEAD_ROOT": str(environment.ROOT), "STEADYHEAD_SITE": str(SITE), "STEADYHEAD_BUILD": str(BUILD)}
    done = subprocess.run([node, str(HERE / "run.mjs"), *arguments], check=False, env=os.environ | places)
    return done.returncode


def command(name: str) -> str:
    """Return where a command stands; without it end with a plain word."""
    found = shutil.which(name)
    if found is None:
        environment.say(f"`{name}` is not installed; the run inside Pyodide needs Node.js and npm")
        raise SystemExit(1)
    return found


def fetch_pyodide() -> None:
    """Install the pinned Pyodide, unless it stands there already."""
    manifest = json.loads((HERE / "package.json").read_text(encoding="utf-8"))
    wanted = manifest["devDependencies"]["pyodide"]
    installed = BUILD / "node_modules" / "pyodide" / "package.json"
    if installed.exists() and json.loads(installed.read_text(encoding="utf-8"))["version"] == wanted:
        return
    BUILD.mkdir(parents=True, exist_ok=True)
    shutil.copy(HERE / "package.json", BUILD)
    quiet = ("--no-save", "--no-package-lock", "--no-audit", "--no-fund")
    environment.stop_unless_done([command("npm"), "install", *quiet, "--prefix", str(BUILD)])


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


def unpack(*wheels: Path) -> None:
    """Unpack the wheels side by side, as an installer would."""
    shutil.rmtree(SITE, ignore_errors=True)
    for wheel in wheels:
        with zipfile.ZipFile(wheel) as archive:
            archive.extractall(SITE)
    environment.say("In Pyodide: " + ", ".join("-".join(wheel.name.split("-")[:2]) for wheel in wheels))


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
