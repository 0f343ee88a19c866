"""Which version a database is of, and how it comes to today's: made, migrated, or refused.

Rules
-----
1. The version is read by one question; where it is today's, nothing else happens and Alembic is not even imported.
2. A new database is made from the tables at once, and says that it is of today's version.
3. An older one is migrated in one transaction, after a copy of it was written; its projections are made anew.
4. A newer one is refused and not touched: this program cannot know what it would lose. So is a database of another
   program.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from types import ModuleType

from sqlalchemy import Connection, Engine, inspect, select, text
from sqlalchemy.exc import SQLAlchemyError

from steadyhead.errors import StoreError, StoreVersionError
from steadyhead.messages import message
from steadyhead.store import guards
from steadyhead.store.engines import APPLICATION, reader, writer
from steadyhead.store.projecting import rebuild
from steadyhead.store.tables import DERIVED, LASTING, version

#: The version of `tables.LASTING`; the last of `migrations.REVISIONS` brings a database here.
TODAY = "0002"
#: No table at all: a database that is about to be.
NEW = "0000"


def bring_to_today(engine: Engine, copy: Callable[[str], None], ladder: Sequence[ModuleType] | None = None) -> str:
    """Make or migrate the database where that is needed, and return the version that it had.

    Parameters
    ----------
    engine
        The database.
    copy
        Writes a copy of the database as it stands, given its version; called before a migration.
    ladder
        The revisions to climb; `migrations.REVISIONS` where left out.

    Raises
    ------
    StoreVersionError
        It is newer than this program, or of another program.
    """
    today = TODAY if ladder is None else ladder[-1].revision
    with reader(engine) as connection, connection.begin():
        found = version_of(connection)
    refuse_newer(found, today)
    if found == NEW:
        with writer(engine) as connection, connection.begin():
            make(connection)
    elif found < today:
        copy(found)
        _migrate(engine, ladder)
    return found


def version_of(connection: Connection) -> str:
    """Return the version that a database says it is of; `NEW` where it has no table.

    Raises
    ------
    StoreVersionError
        It has tables, but not ours.
    """
    tables = inspect(connection)
    if tables.has_table(version.name) and tables.has_table("fact") and _is_ours(connection):
        return str(connection.scalar(select(version.c.version_num)))
    if tables.get_table_names():
        raise StoreVersionError(message("data-of-another-program", got=_name(connection)))
    return NEW


def stands(engine: Engine, found: str) -> bool:
    """Tell whether a SQLite database is whole, and of the version that it was found to be of."""
    try:
        with reader(engine) as connection, connection.begin():
            return version_of(connection) == found and connection.scalar(text("PRAGMA quick_check(1)")) == "ok"
    except (StoreError, SQLAlchemyError):
        return False


def refuse_newer(found: str, today: str = TODAY) -> None:
    """Let pass what this program can read.

    Raises
    ------
    StoreVersionError
        It is newer.
    """
    if found > today:
        raise StoreVersionError(message("data-newer", got=found.lstrip("0"), must_be=today.lstrip("0")))


def refuse_other(found: str) -> None:
    """Let pass what is of today's version.

    Raises
    ------
    StoreVersionError
        It is newer, older, or empty.
    """
    refuse_newer(found)
    refuse_empty(found)
    if found < TODAY:
        raise StoreVersionError(message("data-older", got=found.lstrip("0"), must_be=TODAY.lstrip("0")))


def refuse_empty(found: str) -> None:
    """Let pass what has tables.

    Raises
    ------
    StoreVersionError
        It has none.
    """
    if found == NEW:
        raise StoreVersionError(message("data-empty"))


def make(connection: Connection) -> None:
    """Make every table of a new database, unless another did so a moment ago."""
    if inspect(connection).has_table(version.name):
        return
    LASTING.create_all(connection)
    DERIVED.create_all(connection)
    guards.renew(connection)
    connection.execute(version.insert().values(version_num=TODAY))
    if connection.dialect.name == "sqlite":
        connection.execute(text(f"PRAGMA application_id={APPLICATION}"))


def renew_derived(connection: Connection) -> None:
    """Drop what is derived, and make and fill it anew, with the guards."""
    DERIVED.drop_all(connection)
    DERIVED.create_all(connection)
    guards.renew(connection)
    rebuild(connection)


def _migrate(engine: Engine, ladder: Sequence[ModuleType] | None) -> None:
    from steadyhead.store.migrating import climb  # noqa: PLC0415 - Alembic takes its time, and is seldom needed

    with writer(engine) as connection:
        if connection.dialect.name == "sqlite":
            check_foreign_keys(connection, wanted=False)
        with connection.begin():
            climb(connection, version_of(connection), ladder)
            renew_derived(connection)
        connection.invalidate()  # the next connection checks foreign keys again


def check_foreign_keys(connection: Connection, *, wanted: bool) -> None:
    """Let SQLite check foreign keys or not; it hears that only between two transactions."""
    plain = connection.connection.cursor()
    plain.execute(f"PRAGMA foreign_keys={'ON' if wanted else 'OFF'}")
    plain.close()


def _is_ours(connection: Connection) -> bool:
    if connection.dialect.name != "sqlite":
        return True
    return bool(connection.scalar(text("PRAGMA application_id")) == APPLICATION)


def _name(connection: Connection) -> str:
    return str(connection.engine.url.database)
