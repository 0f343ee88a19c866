"""The rotating log beside the data: what happened, never whom it happened to.

Rules
-----
1. A line at INFO or above holds an event's name and figures, ULIDs, versions and digests: nothing that a person typed.
2. Each open home has a logger of its own, in no registry of the process; closing the home closes the file.
3. The file is kept below 256 KiB, with three older ones beside it.
4. A folder that cannot be written costs the log, not the work: the first line that fails is the last that is tried.
"""

from __future__ import annotations

import logging
import time
from logging.handlers import RotatingFileHandler
from pathlib import Path

FILE = "steadyhead.log"
MOST_BYTES = 256 * 1024
OLDER_FILES = 3
#: Every event, with the figures that it may have; a bundle for a bug report passes on nothing else.
EVENTS: dict[str, tuple[str, ...]] = {
    "opened": ("program", "backend"),
    "migrated": ("found", "schema"),
    "added": ("facts", "collided"),
    "backed-up": ("size", "facts", "photos"),
    "restored": ("size", "facts", "photos"),
    "examined": ("wrong",),
    "rebuilt": ("wrong",),
    "refused": ("message",),
    "failed": ("error", "visit"),
    "closed": (),
}
_LINE = "%(asctime)s %(levelname)s %(message)s"
_TIME = "%Y-%m-%dT%H:%M:%SZ"


class Logbook:
    """Writes events, each with its figures.

    Parameters
    ----------
    folder
        Where the file stands; None for a log that nobody reads.
    """

    def __init__(self, folder: Path | None) -> None:
        self._logger = logging.Logger("steadyhead", logging.INFO)  # noqa: LOG001 - in no registry (rule 2)
        self._handler = logging.NullHandler() if folder is None else _file_handler(folder / FILE)
        self._logger.addHandler(self._handler)

    def note(self, event: str, **figures: str | int | float | None) -> None:
        """Write one event of `EVENTS` with its figures: counts, ids, versions, digests; never what a person typed."""
        said = [event, *(f"{name}={value}" for name, value in figures.items() if value is not None)]
        self._logger.info("%s", " ".join(said))

    def close(self) -> None:
        """Close the file."""
        self._handler.close()


class _QuietHandler(RotatingFileHandler):
    """Gives up, instead of printing into somebody's page, where the folder cannot be written."""

    def handleError(self, record: logging.LogRecord) -> None:  # noqa: N802 - the library's own name
        """Write no more."""
        del record
        self.setLevel(logging.CRITICAL + 1)


def _file_handler(file: Path) -> logging.Handler:
    handler = _QuietHandler(file, maxBytes=MOST_BYTES, backupCount=OLDER_FILES, encoding="utf-8", delay=True)
    formatter = logging.Formatter(_LINE, _TIME)
    formatter.converter = time.gmtime
    handler.setFormatter(formatter)
    return handler
