"""Fetches what a site is made of, by the person's own npm and pip, with whatever registry and proxy they are set to.

Rules
-----
1. Only the pinned files are fetched, none of what they may ask for themselves; nothing of what is fetched is run.
2. Where a tool is missing, or cannot reach its registry, it is said which, and what to give instead.
"""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
import tarfile
from collections.abc import Sequence
from importlib.util import find_spec
from pathlib import Path

from steadyhead.errors import InputError
from steadyhead.messages import message
from steadyhead.offline.make.pinned import pins

#: Asked of pip: wheels that any machine can run, and one of a compiled library, the same for whoever makes the site.
WHEELS = (
    "--no-deps", "--only-binary=:all:", "--platform=any", "--platform=manylinux2014_x86_64", "--implementation=cp",
    "--abi=none", "--abi=cp314", "--python-version=3.14", "--require-hashes",
)  # fmt: skip
#: The folder that npm packs everything into.
PACKED = "package"
#: What a tool said last tells why it failed.
LAST = 300


def tool(name: str) -> str:
    """Return where a program stands.

    Raises
    ------
    InputError
        ``offline-no-tool``: it is not installed.
    """
    found = shutil.which(name)
    if found is None:
        raise InputError(message("offline-no-tool", name=name))
    return found


def fetch_engine(folder: Path) -> Path:
    """Fetch the pinned Pyodide into a folder, and return where its files stand.

    Raises
    ------
    InputError
        npm is missing, or could not fetch it.
    """
    wanted = f"pyodide@{pins().pyodide}"
    folder = folder.absolute()
    folder.mkdir(parents=True, exist_ok=True)
    run([tool("npm"), "pack", wanted, "--silent", "--pack-destination", str(folder)], folder, "npm")
    for packed in folder.glob("*.tgz"):
        unpack_engine(packed, folder)
    return folder


def unpack_engine(packed: Path, folder: Path) -> None:
    """Take of Pyodide's package the files that a site holds."""
    with tarfile.open(packed) as archive:
        for name in pins().engine:
            content = archive.extractfile(f"{PACKED}/{name}")
            if content is not None:
                (folder / name).write_bytes(content.read())


def fetch_wheels(folder: Path) -> Path:
    """Fetch the pinned wheels into a folder, and return it.

    Raises
    ------
    InputError
        pip is missing, or could not fetch them.
    """
    if find_spec("pip") is None:
        raise InputError(message("offline-no-tool", name="pip"))
    folder = folder.absolute()
    folder.mkdir(parents=True, exist_ok=True)
    asked = folder / "wanted.txt"
    lines = (f"{each.name}=={each.version} --hash=sha256:{each.sha256}\n" for each in pins().libraries)
    asked.write_text("".join(lines), encoding="utf-8")
    run([sys.executable, "-m", "pip", "download", "-qq", *WHEELS, "-d", str(folder), "-r", str(asked)], folder, "pip")
    return folder


def run(command: Sequence[str], folder: Path, name: str) -> None:
    """Run a program to its end.

    Parameters
    ----------
    command
        The program and what it is given.
    folder
        Where it runs.
    name
        What it is called.

    Raises
    ------
    InputError
        ``offline-tool-failed``: it ended with an error.
    """
    quiet = {"PIP_DISABLE_PIP_VERSION_CHECK": "1", "npm_config_update_notifier": "false"}
    done = subprocess.run(
        command, check=False, cwd=folder, env=os.environ | quiet, stdin=subprocess.DEVNULL,
        capture_output=True, encoding="utf-8", errors="replace",
    )  # fmt: skip
    if done.returncode:
        said = " ".join((done.stderr or done.stdout).split())[-LAST:]
        raise InputError(message("offline-tool-failed", name=name, code=done.returncode, said=said))
