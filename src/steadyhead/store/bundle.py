"""A bundle for a bug report that a person can send without a second thought: figures and versions, no word of theirs.

Rules
-----
1. What goes in is listed, never what stays out: versions, the schema, counts, the doctor's checks, known events.
2. Of the log only lines pass that are an event of `logbook.EVENTS`; of their figures only numbers, ULIDs, digests,
   versions and our own ids. All else is counted, not shown.
3. A kind of fact that this version does not know is counted as ``other``: its name may be anything.
4. It is one JSON file, so that its sender can read it first.
"""

from __future__ import annotations

import platform
import re
import sqlite3
from collections import Counter
from collections.abc import Iterable
from importlib.metadata import version
from pathlib import Path
from typing import Any

from sqlalchemy import Connection, Engine, func, inspect, select

from steadyhead import __version__
from steadyhead.store import logbook
from steadyhead.store.engines import reader
from steadyhead.store.health import Report
from steadyhead.store.tables import DERIVED, LASTING, fact
from steadyhead.visit.fact_kinds import KIND

#: The kinds of fact that this version writes.
KINDS = frozenset(KIND)
LIBRARIES = ("sqlalchemy", "alembic")
#: Lines of the log, the last ones.
TAIL = 500

_LOG_LINE = re.compile(r"(\d{4}-\d\d-\d\dT\d\d:\d\d:\d\dZ) (INFO|WARNING|ERROR) ([a-z-]+)((?: [a-z0-9_]+=\S*)*)")
#: A number or a version, a ULID, a SHA-256.
_FIGURE = re.compile(r"\d{1,19}(\.\d{1,9}){0,3}|[0-7][0-9A-HJKMNP-TV-Z]{25}|[0-9a-f]{64}")
#: Figures whose values are our own words.
_OWN_WORDS = {
    "message": re.compile(r"[a-z]{1,20}(-[a-z]{1,20}){1,4}"),
    "error": re.compile(r"[A-Z][A-Za-z]{1,40}Error"),
    "backend": re.compile(r"sqlite|postgresql"),
}


def bundle_of(engine: Engine, report: Report, log: Path) -> dict[str, Any]:
    """Return the bundle.

    Parameters
    ----------
    engine
        The database.
    report
        What the doctor found.
    log
        The log's file; it need not be there.
    """
    with reader(engine) as connection, connection.begin():
        kinds, schema = _kinds(connection), _schema(connection)
    return {
        "schema": 1,
        "steadyhead": __version__,
        "python": platform.python_version(),
        "system": platform.system(),
        "machine": platform.machine(),
        "sqlite": sqlite3.sqlite_version,
        "libraries": {name: version(name) for name in LIBRARIES},
        "database": {"backend": report.backend, "version": report.version, "tables": schema},
        "rows": report.rows,
        "kinds": kinds,
        "checks": [{"id": check.id, "looked_at": check.looked_at, "wrong": check.wrong} for check in report.checks],
        "log": log_tail(log),
    }


def log_tail(log: Path) -> dict[str, Any]:
    """Return the last events of a log, and how many of its lines were no event of ours."""
    if not log.is_file():
        return {"lines": [], "left_out": 0}
    lines = log.read_text(encoding="utf-8", errors="replace").splitlines()[-TAIL:]
    kept = [safe for line in lines if (safe := safe_line(line)) is not None]
    return {"lines": kept, "left_out": len(lines) - len(kept)}


def safe_line(line: str) -> str | None:
    """Return what may be passed on of a log's line, None where nothing may.

    >>> safe_line("2026-05-04T07:09:31Z INFO added facts=3 collided=Fernhill name=Ann")
    '2026-05-04T07:09:31Z INFO added facts=3 collided=?'
    >>> safe_line("2026-05-04T07:09:31Z INFO pump house flooded") is None
    True
    """
    found = _LOG_LINE.fullmatch(line)
    if found is None or found[3] not in logbook.EVENTS:
        return None
    pairs = (pair.partition("=") for pair in found[4].split())
    figures = [f"{name}={_safe(name, value)}" for name, _, value in pairs if name in logbook.EVENTS[found[3]]]
    return " ".join([found[1], found[2], found[3], *figures])


def _safe(name: str, value: str) -> str:
    return value if _OWN_WORDS.get(name, _FIGURE).fullmatch(value) else "?"


def _kinds(connection: Connection) -> dict[str, int]:
    counts: Counter[str] = Counter()
    for kind, count in connection.execute(select(fact.c.kind, func.count()).group_by(fact.c.kind)):
        counts[kind if kind in KINDS else "other"] += count
    return dict(sorted(counts.items()))


def _schema(connection: Connection) -> dict[str, list[str]]:
    """Return the columns of our own tables, as the database has them."""
    found = inspect(connection)
    ours = {table.name for table in (*LASTING.sorted_tables, *DERIVED.sorted_tables)}
    return {table: _columns(found.get_columns(table)) for table in sorted(ours & set(found.get_table_names()))}


def _columns(columns: Iterable[Any]) -> list[str]:
    return [f"{column['name']} {column['type']}" for column in columns]
