"""Copies of the record: written whole or not at all, proved before they are trusted, never over what stands there.

Rules
-----
1. A backup is one SQLite file, written while others work on; it gets its name only when it is whole and proved.
2. A restore proves the backup first, sets a copy of the present record aside, and then puts the backup in its place in
   one step: at every moment a whole record stands there.
3. A restore wants the record to itself: while another program has it open, it is refused.
4. What was erased since the backup was made stays erased: purges of the former record are added to the restored one.
5. A database on a server is backed up and restored by the server's own tools.
"""

from __future__ import annotations

import itertools
import os
import shutil
import sqlite3
from collections.abc import Iterator
from contextlib import closing, contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from sqlalchemy import Engine, text

from steadyhead.errors import StoreBusyError, StoreDamagedError, StoreError, StoreVersionError
from steadyhead.messages import message
from steadyhead.store import engines, health, keeping
from steadyhead.store.places import Place
from steadyhead.store.rows import read_facts
from steadyhead.store.tables import fact
from steadyhead.store.versions import bring_to_today, refuse_empty, refuse_other, version_of
from steadyhead.visit.facts import Fact
from steadyhead.visit.union import PURGE

#: How a file of SQLite begins.
_SQLITE = b"SQLite format 3\x00"
#: What SQLite may keep beside a database, by the end of its name.
SIDES = ("-wal", "-shm", "-journal")


@dataclass(frozen=True, slots=True)
class Copied:
    """A copy that was written: where, how large [bytes], how many facts and photos it holds.

    Of a restore also where the former record is now, and how many of its purges the backup did not know.
    """

    file: Path
    size: int
    facts: int
    photos: int
    aside: Path | None = None
    purges: int = 0


def write_copy(engine: Engine, file: Path) -> None:
    """Write a copy of a SQLite database, as it stands at this moment, into a file that is empty or not there yet."""
    with engines.bare(engine) as connection:
        connection.exec_driver_sql("VACUUM INTO ?", (str(file),))
    _to_disk(file)


def put_back(engine: Engine, file: Path) -> None:
    """Write a copy over the record, in one transaction of SQLite's own: cut off, it has not happened."""
    with closing(sqlite3.connect(file)) as before, engines.bare(engine) as connection:
        record: Any = connection.connection.driver_connection
        before.backup(record)


def back_up(engine: Engine, place: Place, file: Path) -> Copied:
    """Write a backup, prove it, and return what it holds.

    Raises
    ------
    StoreError
        The file is there already or cannot be written, or the record lives on a server.
    StoreDamagedError
        The copy is not sound, since the record is not.
    """
    _ = place.file  # a server's record has none
    if file.exists():
        raise StoreError(message("copy-there", file=str(file)))
    with _part_of(file) as part:
        write_copy(engine, part)
        found = _prove(part, file)
        part.rename(file)
    return Copied(file, file.stat().st_size, *found)


def restore(place: Place, file: Path, stamp: str) -> Copied:
    """Put a proved backup in the record's place, and return what it holds and where the former record is.

    Parameters
    ----------
    place
        Where the record lives.
    file
        The backup.
    stamp
        What the name of the former record ends with: a time without colons.

    Raises
    ------
    StoreError
        The backup is not there, damaged, newer or another program's; or another program has the record open.
    """
    target = place.file
    if not file.is_file():
        raise StoreError(message("copy-missing", file=str(file)))
    with _part_of(target) as part:
        shutil.copyfile(file, part)
        found = _prove(part, file)
        purges = _erase_again(part, _purges_of(target)) if _begins_as_sqlite(target) else 0
        _to_disk(part)
        aside = _set_aside(target, stamp) if target.exists() else None
        part.replace(target)
    return Copied(target, target.stat().st_size, *found, aside, purges)


def _purges_of(target: Path) -> list[Fact]:
    """Return the purges of the present record, when nobody else has it open; of one that cannot be read, none.

    Raises
    ------
    StoreBusyError
        Another program has it open.
    """
    _alone(target)
    engine = engines.sqlite_engine(target, "delete")
    try:
        with engines.reader(engine) as connection, connection.begin():
            refuse_other(version_of(connection))
            return read_facts(connection, fact.c.kind == PURGE)
    except (StoreDamagedError, StoreVersionError):
        return []
    finally:
        engine.dispose()


def _erase_again(part: Path, purges: list[Fact]) -> int:
    """Add purges to a copy of our own, and return how many it did not know."""
    engine = engines.sqlite_engine(part, "truncate")
    try:
        with engines.writer(engine) as connection, connection.begin():
            added = keeping.add(connection, purges)
        engines.give_back(engine)
    finally:
        engine.dispose()
    return len(added.new)


@contextmanager
def _part_of(file: Path) -> Iterator[Path]:
    """Give the name under which a file is made, in a folder that is there; what is left under it in the end goes.

    Raises
    ------
    StoreError
        The system refuses to write there.
    """
    part = free_name(file.with_name(file.name + ".part"))
    try:
        file.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
        part.touch(mode=0o600)  # as the record: for nobody but its owner
        yield part
    except OSError as error:
        raise StoreError(message("copy-not-written", file=str(file), got=str(error.strerror))) from error
    finally:
        for end in ("", *SIDES):
            part.with_name(part.name + end).unlink(missing_ok=True)


def _prove(part: Path, named: Path) -> tuple[int, int]:
    """Return how many facts and photos a copy of our own holds, brought to today's version and with every check passed.

    Raises
    ------
    StoreError
        It is damaged, newer, empty, or another program's; the error names the file that a person named.
    """
    engine = engines.sqlite_engine(part, "truncate")
    try:
        with engines.reader(engine) as connection, connection.begin():
            refuse_empty(version_of(connection))
        bring_to_today(engine, copy=lambda _: None)
        report = health.examine(engine)
    except StoreDamagedError as error:
        raise StoreDamagedError(message("copy-damaged", file=str(named), got=str(error))) from error
    finally:
        engine.dispose()
    if wrong := [check.id for check in report.checks if not check.fine and check.id in health.GRAVE]:
        raise StoreDamagedError(message("copy-damaged", file=str(named), got=", ".join(wrong)))
    return report.facts, report.photos


def free_name(wanted: Path) -> Path:
    """Return a file's name that is not taken: the wanted one, or with the first number that is free.

    >>> free_name(Path("nowhere-at-all.db")).name
    'nowhere-at-all.db'
    """
    numbered = (wanted.with_stem(f"{wanted.stem}-{count}") for count in itertools.count(2))
    return next(name for name in itertools.chain([wanted], numbered) if not name.exists())


def _set_aside(target: Path, stamp: str) -> Path:
    """Copy the present record aside, whatever state it is in; a log that belongs to it goes along."""
    aside = free_name(target.with_name(f"{target.stem}-before-restore-{stamp}{target.suffix}"))
    aside.touch(mode=0o600)
    shutil.copyfile(target, aside)
    _to_disk(aside)
    for end in SIDES:  # left beside the restored record they would be taken for its own
        side = target.with_name(target.name + end)
        if side.exists():
            side.replace(aside.with_name(aside.name + end))
    return aside


def _alone(target: Path) -> None:
    """Gather the write-ahead log into the file; SQLite does that only for one who has the database alone.

    Raises
    ------
    StoreBusyError
        Another program has it open.
    """
    engine = engines.sqlite_engine(target, "delete", patience_s=0.5)
    try:
        with engines.bare(engine) as connection:
            connection.execute(text("SELECT count(*) FROM sqlite_master"))
    except StoreBusyError as error:
        raise StoreBusyError(message("data-in-use", file=str(target))) from error
    except StoreDamagedError:
        return  # it is set aside as it is
    finally:
        engine.dispose()


def _begins_as_sqlite(file: Path) -> bool:
    """Tell whether a file is there that SQLite may open; of any other it would throw away the log beside it."""
    if not file.is_file():
        return False
    with file.open("rb") as stream:
        return stream.read(len(_SQLITE)) == _SQLITE


def _to_disk(file: Path) -> None:
    """Let the system write a file to the disk now."""
    with file.open("rb+") as stream:
        os.fsync(stream.fileno())
