"""Build the folder that lets the app run in a browser with nobody serving it, and prove it in a real Chromium.

Rules
-----
1. The folder is build/offline, made by ``steadyhead offline build`` as anybody makes it; what that fetches is kept in
   build/ and fetched once.
2. What goes over the way is `MOST_MB` at the most, where the server compresses.
3. The proof makes the folder a second time, elsewhere, and wants the same bytes. It serves the folder once, makes a
   visit, takes the server away, kills the browser, and looks for the visit in another one
   (tests/offline/in_chromium.py); what else it proves stands in the files beside that one.

``python3 scripts/offline.py`` builds and says how large it is; ``--prove`` runs the proof as well, and ``--prove
--whole`` proves the seldom troubles too.
"""

from __future__ import annotations

import hashlib
import json
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path

import browser_python
import environment

FOLDER = environment.ROOT / "build" / "offline"
WHEELS = browser_python.BUILD / "phone-wheels"
PROOFS = "tests/offline/*in_chromium.py"
#: The largest download [MB]; the same as steadyhead.offline.make.size says.
MOST_MB = 14.0
FETCH = "import sys, pathlib, steadyhead.offline.make.fetching as f; f.fetch_wheels(pathlib.Path(sys.argv[1]))"


def main(arguments: list[str]) -> int:
    """Build, say the sizes, and prove where that is asked for; return the exit code."""
    environment.ensure("test")
    prepare()
    shutil.rmtree(FOLDER, ignore_errors=True)
    code = say_sizes(build(FOLDER))
    if code or "--prove" not in arguments:
        return code
    code = build_again()
    told = [] if "--whole" in arguments else ["-m", "not rare"]
    return code or environment.check(["pytest", "-q", "-s", *told, *map(str, sorted(environment.ROOT.glob(PROOFS)))])


def prepare() -> None:
    """Fetch Pyodide and the pinned wheels, unless they stand there already."""
    browser_python.fetch_pyodide()
    pins = environment.ROOT / "src" / "steadyhead" / "offline" / "make" / "pinned.json"
    stamp, wanted = WHEELS / "pins", hashlib.sha256(pins.read_bytes()).hexdigest()
    if not stamp.exists() or stamp.read_text(encoding="utf-8") != wanted:
        environment.stop_unless_done([str(environment.python()), "-c", FETCH, str(WHEELS)])
        stamp.write_text(wanted, encoding="utf-8")


def build(folder: Path) -> list[dict[str, int | str]]:
    """Build a folder anew, and return its files with their sizes."""
    parts = ["--pyodide", str(browser_python.PYODIDE), "--wheels", str(WHEELS), "--json"]
    command = [str(environment.python()), "-m", "steadyhead", "offline", "build", str(folder), *parts]
    environment.say(f"$ steadyhead offline build {folder.name}")
    done = subprocess.run(command, check=False, stdout=subprocess.PIPE, encoding="utf-8")
    if done.returncode:
        raise SystemExit(done.returncode)
    files: list[dict[str, int | str]] = json.loads(done.stdout)["files"]
    return files


def build_again() -> int:
    """Build the folder a second time, elsewhere; return 1 where a byte differs."""
    with tempfile.TemporaryDirectory() as name:
        again = Path(name) / "another folder" / "phone"
        build(again)
        first, second = contents(FOLDER), contents(again)
    other = sorted(path for path in first.keys() | second.keys() if first.get(path) != second.get(path))
    environment.say(f"other bytes in a second build: {', '.join(other)}" if other else "a second build: the same bytes")
    return int(bool(other))


def contents(folder: Path) -> dict[str, str]:
    """Return the digest of each file of a folder."""
    there = (file for file in folder.rglob("*") if file.is_file())
    return {file.relative_to(folder).as_posix(): hashlib.sha256(file.read_bytes()).hexdigest() for file in there}


def say_sizes(files: list[dict[str, int | str]]) -> int:
    """Say how large each file is, and on the way where a server compresses; return 1 where that is too much."""
    for each in files:
        environment.say(f"{each['bytes']:>10} bytes, {each['compressed']:>10} compressed  {each['file']}")
    whole, sent = (sum(int(each[what]) for each in files) / 1e6 for what in ("bytes", "compressed"))
    environment.say(f"{whole:.1f} MB, {sent:.1f} MB on the way")
    if sent > MOST_MB:
        environment.say(f"more than {MOST_MB} MB; src/steadyhead/offline/make/left_out.py tells what stays behind")
    return int(sent > MOST_MB)


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
