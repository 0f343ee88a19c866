"""Opens the record: makes it, migrates it after a copy, or refuses it.

Rules
-----
1. A file and its folder are made when they are missing; on POSIX systems nobody but their owner may look into them.
2. Before a migration a copy is written beside the database, named after the version it holds; it overwrites nothing.
   A home with just so many files has one for it (`Place.spare`), which is emptied at the next opening that finds the
   record of today's version.
3. A migration that fails leaves the record as it was; where it nevertheless did not, the spare copy is put back, in one
   transaction. Either way the reason is told in words.
"""

from __future__ import annotations

from collections.abc import Sequence
from types import ModuleType

from sqlalchemy import Engine

from steadyhead.errors import StoreError, StoreVersionError
from steadyhead.messages import message
from steadyhead.store import copies, engines
from steadyhead.store.logbook import Logbook
from steadyhead.store.places import Place
from steadyhead.store.unit import Store
from steadyhead.store.versions import NEW, TODAY, bring_to_today, stands


def open_store(place: Place, ladder: Sequence[ModuleType] | None = None, log: Logbook | None = None) -> Store:
    """Return the store at a place, made or migrated where that is needed.

    Parameters
    ----------
    place
        Where the record lives.
    ladder
        The revisions of the schema; the program's own where left out.
    log
        Where events are noted; nowhere where left out.

    Raises
    ------
    StoreError
        The database is newer, damaged, busy, another program's, or cannot be reached.
    """
    engine = engine_of(place)
    try:
        found = _brought(engine, place, ladder)
    except BaseException:
        engine.dispose()
        raise
    store = Store(engine, log)
    if found not in {NEW, TODAY}:
        store.log.note("migrated", found=found, schema=TODAY)
    return store


def _brought(engine: Engine, place: Place, ladder: Sequence[ModuleType] | None) -> str:
    """Return the version that the record had before it was brought to today's."""
    copied: list[str] = []

    def copy(version: str) -> None:
        _copy(engine, place, version)
        copied.append(version)

    try:
        found = bring_to_today(engine, copy, ladder)
    except Exception as error:
        if not copied:
            raise
        if place.spare is not None and not stands(engine, copied[0]):
            copies.put_back(engine, place.spare)
        if isinstance(error, StoreError):
            raise
        why = str(getattr(error, "orig", error))
        told = message("data-not-migrated", file=str(place.name), version=copied[0].lstrip("0"), got=why)
        raise StoreVersionError(told) from error
    if place.spare is not None and not copied:
        place.spare.unlink(missing_ok=True)
    return found


def engine_of(place: Place) -> Engine:
    """Return the engine of a place; a file and its folder are there.

    Raises
    ------
    StoreError
        The file cannot be made or touched, or what the engine needs is not installed.
    """
    if isinstance(place.address, str):
        return engines.postgresql_engine(place.address)
    try:
        place.file.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
        place.file.touch(mode=0o600)
    except OSError as error:
        raise StoreError(message("data-cannot-open", file=str(place.file), got=str(error.strerror))) from error
    return engines.sqlite_engine(place.file, place.journal)


def _copy(engine: Engine, place: Place, version: str) -> None:
    """Write a copy beside a SQLite file, or into the spare one; a server's own backups are its keeper's care."""
    if isinstance(place.address, str):
        return
    if place.spare is not None:
        place.spare.unlink(missing_ok=True)
        copies.write_copy(engine, place.spare)
        return
    copy = copies.free_name(place.folder / f"{place.file.stem}-before-migration-from-{version}{place.file.suffix}")
    copies.write_copy(engine, copy)
