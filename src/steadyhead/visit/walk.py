"""Walks the rows of a kind of file (`steadyhead.visit.keys`) over its values, and gathers everything that is wrong.

Rules
-----
1. Nothing stops the walk: a broken value is noted, stands as `BROKEN`, and the next key is read.
2. Every problem has its key in the file's own spelling and its line.
3. The sensor is read first, because every signal in the file has its kind.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from typing import Any, Final, NamedTuple

from steadyhead.errors import InputError, Problem
from steadyhead.messages import Message, Value, message
from steadyhead.visit.keys import SCHEMA, SENSOR, VISIT, Key, Language, Table
from steadyhead.visit.kinds import Known, got_text, wrong_type
from steadyhead.visit.layout import Layout, Path
from steadyhead.visit.nearest import nearest_first, shown
from steadyhead.visit.record import Signal
from steadyhead.visit.toml_text import TomlText

MOST_PROBLEMS = 500  #: problems of one file that are listed

Row = dict[str, Any]


class Broken:
    """Stands where a value could not be read, so that nothing else complains about it."""

    def __repr__(self) -> str:
        return "BROKEN"


BROKEN: Final = Broken()


def usable(row: Mapping[str, Any], key: str) -> Any:  # noqa: ANN401 - each key has its own type
    """Return the value of a key, or None where it is absent or broken."""
    value = row.get(key)
    return None if value is BROKEN else value


class TooMany(Exception):  # noqa: N818 - it ends the walk; nobody outside sees it
    """Raised when a file has more problems than anybody would read."""


class Findings:
    """The problems of one file, in the order in which they were found."""

    def __init__(self, text: TomlText) -> None:
        self.problems: list[Problem] = list(text.problems)
        self._layout: Layout = text.layout
        self._set_aside = text.set_aside

    def add(self, path: Path, told: Message, *, key: str | None = None) -> None:
        """Note one problem, of `key` where that is not how its path is spelled; a line set aside has said its own."""
        line = self._layout.line_of(path)
        if line in self._set_aside:
            return
        self.problems.append(Problem(told, spelled(path) if key is None else key, line))
        if len(self.problems) >= MOST_PROBLEMS:
            self.problems.append(Problem(message("more-problems", most=MOST_PROBLEMS), "", None))
            raise TooMany

    def sorted(self) -> tuple[Problem, ...]:
        """Return the problems in the order of the file; those without a line come last."""
        return tuple(sorted(self.problems, key=lambda problem: problem.line or _LAST))


_LAST = 1 << 40


def spelled(path: Path) -> str:
    """Return a path in the file's own spelling.

    >>> spelled(("reading", 2, "value")), spelled(("instruments", "gauge", "grade")), spelled(("schema",))
    ('[[reading]] 3 value', '[instruments] gauge.grade', 'schema')
    """
    if not path or path == ("schema",):
        return ".".join(str(part) for part in path)
    table, *rest = path
    title = f"[{shown(str(table))}]"
    if rest and isinstance(rest[0], int):
        title = f"[{title}] {rest[0] + 1}"
        rest = rest[1:]
    return f"{title} {'.'.join(shown(str(part)) for part in rest)}".strip()


class Walked(NamedTuple):
    """What a file says, table by table: a row, or a list of rows; `raw` is as the file has it."""

    tables: Mapping[str, Any]
    raw: Mapping[str, Any]


def walk(text: TomlText, findings: Findings, language: Language = VISIT) -> Walked:
    """Return the values of a file's tables; what is wrong goes to `findings`.

    Parameters
    ----------
    text
        The file.
    findings
        Where problems go.
    language
        The tables that such a file has; the sensor is one of them.
    """
    values = text.values or {}
    _check_schema(values, findings)
    _check_tables(values, findings, language)
    known = Known(None, _is_absolute(values), {})
    tables: dict[str, Any] = {}
    raw: dict[str, Any] = {}
    for table in (SENSOR, *(table for table in language.tables if table is not SENSOR)):
        raw[table.name] = _container(values, table, findings)
        tables[table.name] = _Reader(language, findings).table(raw[table.name], table, known)
        if table is SENSOR:
            signal = usable(tables["sensor"], "signal")
            known = known._replace(signal_kind=signal.kind if isinstance(signal, Signal) else None)
    return Walked(tables, raw)


def _is_absolute(values: Mapping[str, Any]) -> bool:
    sensor = values.get("sensor")
    return isinstance(sensor, dict) and sensor.get("reference") == "absolute"


def _check_schema(values: Mapping[str, Any], findings: Findings) -> None:
    if "schema" not in values:
        findings.add(
            ("schema",), message("key-missing", key="schema", must_be=f"schema = {SCHEMA}, before the first table")
        )
    elif values["schema"] != SCHEMA or isinstance(values["schema"], (bool, float)):
        newer = isinstance(values["schema"], int) and values["schema"] > SCHEMA
        id_ = "schema-newer" if newer else "schema-unknown"
        findings.add(("schema",), message(id_, got=got_text(values["schema"]), must_be=SCHEMA))


def _check_tables(values: Mapping[str, Any], findings: Findings, language: Language) -> None:
    """Note tables that no row names, and keys that stand before the first table."""
    names = tuple(table.name for table in language.tables)
    for name, value in values.items():
        if name in {"schema", *names}:
            continue
        if isinstance(value, (dict, list)):
            allowed, nearest = nearest_first(name, names)
            findings.add((name,), message("table-unknown", got=shown(name), must_be=allowed, nearest=nearest))
        else:
            told = message("key-outside-table", got=shown(name), must_be=_tables_with(name, language))
            findings.add((name,), told, key=shown(name))


def _tables_with(name: str, language: Language) -> tuple[str, ...]:
    """Return the titles of the tables that have a key."""
    every = (*language.tables, *language.inner)
    return tuple(table.title for table in every if any(key.name == name for key in table.keys))


def _container(values: Mapping[str, Any], table: Table, findings: Findings) -> Any:  # noqa: ANN401 - row or rows
    """Return the table's row or rows as the file has them, empty where they are no such thing."""
    empty: Any = [] if table.rows else {}
    raw = values.get(table.name, empty)
    if isinstance(raw, type(empty)):
        return raw
    must_be = f"{table.title} on a line of its own"
    if isinstance(raw, dict):
        findings.add((table.name,), message("table-needs-double-brackets", got=f"[{table.name}]", must_be=table.title))
    elif isinstance(raw, list) and raw and all(isinstance(row, dict) for row in raw):
        findings.add(
            (table.name,), message("table-needs-single-brackets", got=f"[[{table.name}]]", must_be=table.title)
        )
    else:
        findings.add((table.name,), wrong_type(raw, must_be))
    return empty


class _Reader(NamedTuple):
    """Reads tables of one kind of file."""

    language: Language
    findings: Findings

    def table(self, raw: Any, table: Table, known: Known) -> Any:  # noqa: ANN401 - row or rows
        """Return the values of a table, or of its rows."""
        if not table.rows:
            return self.row(raw, table, (table.name,), known)
        rows = []
        for index, row in enumerate(raw):
            path = (table.name, index)
            if isinstance(row, dict):
                rows.append(self.row(row, table, path, known))
            else:
                self.findings.add(path, wrong_type(row, f"a table: {table.title}"))
                rows.append({})
        return rows

    def row(self, raw: Row, table: Table, path: Path, known: Known) -> Row:
        """Return the values of one table's keys; those of inner tables are rows themselves."""
        inner = self.language.inside(table)
        keys = {key.name: key for key in table.keys}
        row: Row = {}
        for name, value in raw.items():
            if name in keys:
                row[name] = self._key(value, keys[name], (*path, name), known._replace(row=raw))
            elif name in inner:
                row[name] = self._inner(value, inner[name], (*path, name), known)
            else:
                self.findings.add((*path, name), self._unknown_key(name, (*keys, *inner), table))
        for key in _missing(table.keys, raw):
            self.findings.add((*path, key.name), message("key-missing", key=key.name, must_be=key.kind.says()))
            row[key.name] = BROKEN
        return row

    def _unknown_key(self, name: str, allowed: tuple[str, ...], table: Table) -> Message:
        words, nearest = nearest_first(name, allowed)
        told: dict[str, Value] = {"got": shown(name), "table": table.title, "must_be": words, "nearest": nearest}
        elsewhere = _tables_with(name, self.language)
        if elsewhere:
            return message("key-of-another-table", belongs_to=elsewhere, **told)
        return message("key-unknown", **told)

    def _inner(self, raw: object, table: Table, path: Path, known: Known) -> Any:  # noqa: ANN401 - row or BROKEN
        if isinstance(raw, dict):
            return self.row(raw, table, path, known)
        must_be = f"{table.name} = {{ {table.keys[0].name} = ... }}"
        self.findings.add(path, wrong_type(raw, f"a table such as {must_be}"))
        return BROKEN

    def _key(self, raw: object, key: Key, path: Path, known: Known) -> Any:  # noqa: ANN401 - of the key
        try:
            return key.kind.read(raw, known)
        except InputError as error:
            self.findings.add(path, error.message)
            return BROKEN


def _missing(keys: Iterable[Key], raw: Row) -> Iterator[Key]:
    return (key for key in keys if key.required and key.name not in raw)


Rule = Callable[[Walked], Iterator[tuple[Path, Message]]]
