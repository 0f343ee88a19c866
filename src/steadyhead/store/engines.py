"""How a database is reached: one engine for each kind, and how a transaction begins in it.

Rules
-----
1. SQLite: every commit reaches the disk (``synchronous=FULL``); on a laptop with a write-ahead log, so that readers and
   the writer do not wait for each other; in a browser, which has no shared memory, with a rollback journal.
2. A writer asks for the right to write before it reads (BEGIN IMMEDIATE, or one advisory lock in PostgreSQL), so that
   what it read still holds when it writes. A reader sees one moment from its first question to its last.
3. Pages that deletes set free are overwritten and given back: a purge leaves nothing in the file.
4. What the database refuses is told in words: busy, full, damaged, not there (`REFUSALS`).
"""

from __future__ import annotations

import sqlite3
from functools import partial
from pathlib import Path
from typing import Any, Literal

from sqlalchemy import URL, Connection, Engine, ExceptionContext, create_engine, event, make_url, text

from steadyhead.errors import StoreBusyError, StoreDamagedError, StoreError, StoreFullError
from steadyhead.messages import message

Journal = Literal["wal", "truncate", "delete"]

#: What the file says of itself in its header: "STDH".
APPLICATION = 0x53544448
#: The oldest SQLite that the store is tested with: the one inside the browser's Python.
FLOOR = (3, 39)
#: How long one writer waits for another [s].
PATIENCE_S = 10
#: The one advisory lock of all writers in PostgreSQL.
WRITERS = APPLICATION

#: The execution option that says how a connection begins: to write, to read, or (SQLite alone) not at all.
_BEGINS = "steadyhead_begins"
_WRITING, _BARE = "writing", "bare"

#: What SQLite's error codes (https://www.sqlite.org/rescode.html, the last byte) mean to the person.
REFUSALS: dict[int, tuple[type[StoreError], str]] = {
    sqlite3.SQLITE_BUSY: (StoreBusyError, "data-busy"),
    sqlite3.SQLITE_LOCKED: (StoreBusyError, "data-busy"),
    sqlite3.SQLITE_READONLY: (StoreError, "data-read-only"),
    sqlite3.SQLITE_IOERR: (StoreDamagedError, "data-disk-fails"),
    sqlite3.SQLITE_CORRUPT: (StoreDamagedError, "data-damaged"),
    sqlite3.SQLITE_FULL: (StoreFullError, "data-disk-full"),
    sqlite3.SQLITE_CANTOPEN: (StoreError, "data-cannot-open"),
    sqlite3.SQLITE_NOTADB: (StoreDamagedError, "data-not-a-database"),
}

#: The messages among them.
REFUSED = tuple(id_ for _, id_ in REFUSALS.values())


def sqlite_engine(file: Path, journal: Journal = "wal", patience_s: float = PATIENCE_S) -> Engine:
    """Return the engine of a SQLite file, which waits so long for another writer [s]; nothing is opened yet.

    Raises
    ------
    StoreError
        This Python's SQLite is older than 3.39.
    """
    if sqlite3.sqlite_version_info < FLOOR:
        raise StoreError(message("sqlite-too-old", got=sqlite3.sqlite_version, must_be="3.39"))
    url = URL.create("sqlite+pysqlite", database=str(file))
    engine = create_engine(url, connect_args={"timeout": patience_s})
    event.listen(engine, "connect", partial(_prepare_sqlite, journal))
    event.listen(engine, "begin", _begin_sqlite)
    event.listen(engine, "handle_error", partial(_refuse_sqlite, str(file)))
    return engine


def postgresql_engine(address: str) -> Engine:
    """Return the engine of a PostgreSQL database, ``postgresql://...``; nothing is opened yet.

    Raises
    ------
    StoreError
        The library for it is not installed.
    """
    url = make_url(address).set(drivername="postgresql+psycopg")
    try:
        engine = create_engine(url)
    except ImportError as error:
        raise StoreError(message("postgresql-not-installed", got=str(error))) from error
    event.listen(engine, "begin", _begin_postgresql)
    event.listen(engine, "handle_error", partial(_refuse_postgresql, url.render_as_string(hide_password=True)))
    return engine


def writer(engine: Engine) -> Connection:
    """Return a connection whose transaction has the right to write from its beginning."""
    return engine.connect().execution_options(**{_BEGINS: _WRITING})


def reader(engine: Engine) -> Connection:
    """Return a connection whose transaction sees one moment."""
    return engine.connect()


def bare(engine: Engine) -> Connection:
    """Return a connection to SQLite without a transaction, for what cannot stand in one: VACUUM and some PRAGMAs."""
    return engine.connect().execution_options(**{_BEGINS: _BARE})


def give_back(engine: Engine) -> None:
    """Give back what a purge set free in a SQLite file, as far as nobody reads; a server does that by itself."""
    if engine.dialect.name != "sqlite":
        return
    with bare(engine) as connection:
        plain: Any = connection.connection.driver_connection
        plain.executescript("PRAGMA incremental_vacuum")  # a plain execute would give back one page of them all
        plain.execute("PRAGMA wal_checkpoint(TRUNCATE)").close()


def _prepare_sqlite(journal: Journal, connection: sqlite3.Connection, _record: object) -> None:
    connection.isolation_level = None  # SQLAlchemy says when a transaction begins, not this library
    for pragma in (
        "auto_vacuum=INCREMENTAL",  # heard only by a new file
        f"journal_mode={journal}",
        "synchronous=FULL",
        "foreign_keys=ON",
        "recursive_triggers=ON",  # else INSERT OR REPLACE would delete behind the guards' back
        "secure_delete=ON",
        "temp_store=MEMORY",
    ):
        connection.execute(f"PRAGMA {pragma}").close()


def _begin_sqlite(connection: Connection) -> None:
    begin = {_WRITING: "BEGIN IMMEDIATE", _BARE: ""}.get(connection.get_execution_options().get(_BEGINS, ""), "BEGIN")
    if begin:
        connection.exec_driver_sql(begin)


def _begin_postgresql(connection: Connection) -> None:
    if connection.get_execution_options().get(_BEGINS) == _WRITING:
        connection.execute(text("SELECT pg_advisory_xact_lock(:key)"), {"key": WRITERS})
    else:
        connection.exec_driver_sql("SET TRANSACTION ISOLATION LEVEL REPEATABLE READ, READ ONLY")


def _refuse_sqlite(file: str, context: ExceptionContext) -> None:
    code = getattr(context.original_exception, "sqlite_errorcode", None)
    found = None if code is None else REFUSALS.get(code & 0xFF)
    if found is not None:
        kind, id_ = found
        raise kind(message(id_, file=file, got=str(context.original_exception))) from context.original_exception


def _refuse_postgresql(address: str, context: ExceptionContext) -> None:
    original: Any = context.original_exception
    if getattr(original, "sqlstate", "") is None or context.connection is None:
        raise StoreError(message("no-server", address=address, got=str(original).strip())) from original
