"""A PostgreSQL server of a test's own, in a folder that goes again; it takes no connection from any network."""

from __future__ import annotations

import getpass
import os
import shutil
import subprocess
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from tests.support import cannot_run

#: Where Debian keeps the server's programs, newest last; elsewhere they stand on the path.
_DEBIAN = "lib/postgresql/*/bin"
_SETTINGS = ("listen_addresses=''", "fsync=off", "shared_buffers=16MB", "max_connections=10")


def programs() -> Path:
    """Return the folder of the server's programs; without them skip on a laptop, fail in CI."""
    found = shutil.which("initdb")
    if found is not None:
        return Path(found).resolve().parent
    folders = sorted(Path("/usr").glob(_DEBIAN), key=lambda folder: int(folder.parent.name))
    if not folders:
        cannot_run("PostgreSQL's server (`initdb`) is not installed")
    return folders[-1]


@contextmanager
def server(folder: Path) -> Iterator[str]:
    """Give the address of a server that lives in `folder`, with one empty database.

    The server refuses to run for the system's own administrator: then it runs for the user ``postgres``.
    """
    bin_, data = programs(), folder / "data"
    become = _other_user(folder)
    _run(become, bin_ / "initdb", "--no-sync", "--auth=trust", "--encoding=UTF8", "--username=steady", "-D", data)
    options = " ".join(f"-c {setting}" for setting in (*_SETTINGS, f"unix_socket_directories={folder}"))
    _run(become, bin_ / "pg_ctl", "-w", "-D", data, "-l", folder / "log", "-o", options, "start")
    try:
        _run(become, bin_ / "createdb", "-h", folder, "-U", "steady", "record")
        yield f"postgresql://steady@/record?host={folder}"
    finally:
        _run(become, bin_ / "pg_ctl", "-w", "-D", data, "-m", "immediate", "stop")


def _other_user(folder: Path) -> tuple[str, ...]:
    if getpass.getuser() != "root":
        return ()
    shutil.chown(folder, "postgres")
    return ("runuser", "-u", "postgres", "--")


def _run(become: tuple[str, ...], *command: object) -> None:
    """Run a program of the server; what it said is shown where it fails."""
    done = subprocess.run(
        [*become, *map(str, command)], check=False, stdin=subprocess.DEVNULL, stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT, cwd="/", env=os.environ | {"LC_ALL": "C"}, encoding="utf-8",
    )  # fmt: skip
    assert done.returncode == 0, done.stdout
