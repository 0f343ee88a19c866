"""Writes a file so that a power cut leaves either the old one or the new one, whole.

Rules
-----
1. The new file is written beside the old one, forced to the disk, and only then takes its name.
2. A link stays a link, and the file keeps its rights.
3. Whatever fails, nothing is left lying about.
"""

from __future__ import annotations

import os
from pathlib import Path

from steadyhead.errors import FileUnreadableError
from steadyhead.messages import message


def save_bytes(data: bytes, path: Path | str) -> None:
    """Write `data` to the file `path`.

    Raises
    ------
    FileUnreadableError
        It is a folder, or cannot be written there.
    """
    try:
        target = Path(os.path.realpath(path))
        if target.is_dir():
            raise FileUnreadableError(message("file-is-folder", file=str(path)))
        _replace(target, data)
    except (OSError, ValueError) as error:
        reason = (error.strerror if isinstance(error, OSError) else None) or str(error)
        raise FileUnreadableError(message("file-unwritable", file=str(path), reason=reason)) from error


def _replace(target: Path, data: bytes) -> None:
    beside = target.with_name(f".{target.name}.{os.getpid()}.part")
    try:
        _write_to_disk(beside, data)
        if target.exists():
            beside.chmod(target.stat().st_mode & 0o7777)
        beside.replace(target)
    except OSError:
        beside.unlink(missing_ok=True)
        raise
    _force_folder(target.parent)


def _write_to_disk(path: Path, data: bytes) -> None:
    with path.open("wb") as stream:
        stream.write(data)
        stream.flush()
        os.fsync(stream.fileno())


def _force_folder(folder: Path) -> None:
    """Force the new name to the disk, where the system lets a folder be opened."""
    if os.name != "posix":
        return
    handle = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)
