"""Texts that can be made anew, kept by their keys in a small file of their own: whoever comes back need not wait.

Rules
-----
1. It is no part of the record: it is never copied, exported or brought in, and may be deleted at any time.
2. It holds so many texts at most; the one that came first gives way.
3. A damaged file, or a damaged text, is thrown away with a line in the log, and the shelf goes on empty; a file that
   cannot be had costs the shelf, with one line too, never the work.
4. No journal stands beside it: what a dead battery does to it is rule 3's.
5. It is opened by whoever uses it first, so that a process of its own has a connection of its own.
"""

from __future__ import annotations

import logging
import sqlite3
import zlib
from collections.abc import Callable
from pathlib import Path
from typing import TypeVar

LOG = logging.getLogger("steadyhead.shelf")

#: Texts at most: some ten kilobytes each.
MOST = 400
#: How long one process waits for another's writing [s].
PATIENCE_S = 2.0

_TABLE = """
CREATE TABLE IF NOT EXISTS kept (number INTEGER PRIMARY KEY AUTOINCREMENT, key TEXT UNIQUE, text BLOB NOT NULL)
"""

T = TypeVar("T")


class Shelf:
    """Keeps texts by their keys.

    Parameters
    ----------
    file
        Where; it is made when it is needed.
    most
        How many texts.

    Examples
    --------
    >>> from tempfile import TemporaryDirectory
    >>> with TemporaryDirectory() as folder:
    ...     shelf = Shelf(Path(folder) / "thoughts.db")
    ...     shelf.put("two and two", "four")
    ...     shelf.get("two and two"), shelf.get("three and three")
    ...     shelf.close()
    ('four', None)
    """

    def __init__(self, file: Path, most: int = MOST) -> None:
        self._file, self._most = file, most
        self._opened: sqlite3.Connection | None = None
        self._without = False

    def get(self, key: str) -> str | None:
        """Return the text of a key, None where there is none."""
        return self._tried(lambda known: _text(known.execute("SELECT text FROM kept WHERE key = ?", (key,)).fetchone()))

    def put(self, key: str, text: str) -> None:
        """Keep a text; the oldest gives way where there are too many."""
        self._tried(lambda known: self._write(known, key, text))

    def _write(self, known: sqlite3.Connection, key: str, text: str) -> None:
        with known:
            known.execute("INSERT OR REPLACE INTO kept (key, text) VALUES (?, ?)", (key, zlib.compress(text.encode())))
            known.execute("DELETE FROM kept WHERE number <= (SELECT max(number) FROM kept) - ?", (self._most,))

    def close(self) -> None:
        """Close the file."""
        if self._opened is not None:
            self._opened.close()
            self._opened = None

    def _tried(self, do: Callable[[sqlite3.Connection], T]) -> T | None:
        """Return what comes of a look at the file; None where there is none to look at."""
        for _ in range(2):
            if self._without:
                return None
            try:
                return do(self._connection())
            except (sqlite3.OperationalError, OSError) as error:
                self._do_without(error)
            except (sqlite3.DatabaseError, zlib.error, UnicodeDecodeError) as error:
                self._throw_away(error)
        return None

    def _connection(self) -> sqlite3.Connection:
        if self._opened is None:
            known = sqlite3.connect(self._file, timeout=PATIENCE_S)
            self._opened = known
            known.execute("PRAGMA journal_mode = MEMORY")
            known.execute("PRAGMA synchronous = OFF")
            known.execute(_TABLE)
        return self._opened

    def _throw_away(self, error: Exception) -> None:
        LOG.warning("the file of kept answers was damaged and is thrown away: %s", type(error).__name__)
        self.close()
        try:
            self._file.write_bytes(b"")
        except OSError as refused:
            self._do_without(refused)

    def _do_without(self, error: Exception) -> None:
        LOG.warning("no answers are kept: %s", type(error).__name__)
        self.close()
        self._without = True


def _text(row: tuple[bytes] | None) -> str | None:
    return None if row is None else zlib.decompress(row[0]).decode()
