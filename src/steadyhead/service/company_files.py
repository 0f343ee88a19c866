"""Keeps a company's file on the disk: read, written whole, and taken back to the very bytes that stood there before.

Rules
-----
1. Before a company's file is changed its bytes are kept beside it, in a file named after what the change makes of it.
   So taking back finds its way step by step, and refuses where somebody has edited the file since.
2. What is written is complete on the disk before it takes the old one's place.
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from hashlib import sha256
from pathlib import Path

from steadyhead.diagnosis.company import Company
from steadyhead.diagnosis.company_file import parse_company
from steadyhead.errors import FileUnreadableError
from steadyhead.messages import message
from steadyhead.visit.save import save_bytes
from steadyhead.visit.toml_text import read_bytes


def load_company(path: Path) -> Company:
    """Return the company's estimates in a file.

    Raises
    ------
    FileUnreadableError
        No file, a folder, larger than 1 MiB, or no UTF-8 text.
    CompanyFileError
        `problems` holds everything that is wrong.
    """
    return parse_company(read_bytes(path), str(path))


def change_company(path: Path, text: str) -> None:
    """Write a company's file so that `undo_company` brings the present bytes back; its folder is made where needed.

    Raises
    ------
    FileUnreadableError
        It cannot be written there.
    """
    data = text.encode("utf-8")
    with _refusing(path):
        path.parent.mkdir(parents=True, exist_ok=True)
        before = path.read_bytes() if path.is_file() else b""
    save_bytes(before, _kept(path, data))
    save_bytes(data, path)


def undo_company(path: Path) -> None:
    """Bring back the bytes that stood in a company's file before its last change; a file that was new goes.

    Raises
    ------
    FileUnreadableError
        There is nothing to take back: the file was never changed by a command, or was edited since.
    """
    kept = _kept(path, read_bytes(path))
    if not kept.is_file():
        raise FileUnreadableError(message("nothing-to-undo", file=str(path)))
    with _refusing(path):
        before = kept.read_bytes()
        if before:
            save_bytes(before, path)
        else:
            path.unlink()
        kept.unlink()


@contextmanager
def _refusing(path: Path) -> Iterator[None]:
    """Tell what the system refuses as a file that cannot be written."""
    try:
        yield
    except OSError as error:
        reason = error.strerror or str(error)
        raise FileUnreadableError(message("file-unwritable", file=str(path), reason=reason)) from error


def _kept(path: Path, after: bytes) -> Path:
    """Return where the bytes are kept that stood there before `after`."""
    return path.with_name(f"{path.name}.before-{sha256(after).hexdigest()[:12]}")
