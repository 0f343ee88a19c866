"""Write the pins of what a phone's site is made of beside the app: src/steadyhead/offline/make/pinned.json.

``python3 builders/phone_pins.py`` says what it would write; ``--write`` writes it. The versions of the libraries are
those of constraints.txt, Pyodide's that of scripts/pyodide/package.json; the digests are those of what npm and pip
fetch. The names are those that stand there already: add a library by its name alone, with empty values.
"""

from __future__ import annotations

import hashlib
import json
import re
import subprocess
import sys
import tempfile
from pathlib import Path

from steadyhead.offline.make.fetching import PACKED, WHEELS

ROOT = Path(__file__).resolve().parent.parent
FILE = ROOT / "src" / "steadyhead" / "offline" / "make" / "pinned.json"
ENGINE = ("pyodide-lock.json", "pyodide.asm.mjs", "pyodide.asm.wasm", "pyodide.mjs", "python_stdlib.zip")
#: Published for some machines alone; the rest is taken as the wheel that any machine can run.
COMPILED_ALONE = frozenset({"markupsafe"})
ONE_MACHINES = ("=manylinux2014_x86_64", "=cp", "=cp314")


def main(arguments: list[str]) -> int:
    """Fetch, and write or say."""
    manifest = json.loads((ROOT / "scripts" / "pyodide" / "package.json").read_text(encoding="utf-8"))
    version = manifest["devDependencies"]["pyodide"]
    names = [each["name"] for each in json.loads(FILE.read_text(encoding="utf-8"))["libraries"]]
    with tempfile.TemporaryDirectory() as name:
        engine, libraries = engine_of(version, Path(name)), [library(each, Path(name)) for each in sorted(names)]
    text = json.dumps({"pyodide": version, "engine": engine, "libraries": libraries}, indent=2) + "\n"
    if arguments == ["--write"]:
        FILE.write_text(text, encoding="utf-8")
    else:
        print(text)
    return 0


def engine_of(version: str, folder: Path) -> dict[str, str]:
    """Return the digests of Pyodide's files."""
    command = ["npm", "pack", f"pyodide@{version}", "--silent", "--pack-destination", str(folder)]
    subprocess.run(command, check=True, stdout=subprocess.DEVNULL)
    packed = next(folder.glob("*.tgz"))
    subprocess.run(["tar", "xzf", str(packed), "-C", str(folder)], check=True)
    return {name: digest(folder / PACKED / name) for name in ENGINE}


def library(name: str, folder: Path) -> dict[str, str]:
    """Return one library's pin."""
    into = folder / name
    version = locked(name)
    compiled = name in COMPILED_ALONE
    asked = [each for each in WHEELS if each != "--require-hashes" and (compiled or not each.endswith(ONE_MACHINES))]
    command = [sys.executable, "-m", "pip", "download", "-qq", *asked, "-d", str(into), f"{name}=={version}"]
    subprocess.run(command, check=True)
    wheel = next(into.glob("*.whl"))
    return {"name": name, "version": version, "file": wheel.name, "sha256": digest(wheel)}


def locked(name: str) -> str:
    """Return the version that constraints.txt says."""
    lines = (ROOT / "constraints.txt").read_text(encoding="utf-8").splitlines()
    pairs = dict(line.split("==") for line in lines if "==" in line)
    return {re.sub(r"[-_.]+", "-", each).lower(): version for each, version in pairs.items()}[name]


def digest(file: Path) -> str:
    """Return a file's SHA-256."""
    return hashlib.sha256(file.read_bytes()).hexdigest()


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
