"""Reads a company's own estimates from a TOML text, and tells everything that is wrong with it.

Rules
-----
1. ``schema = 1`` comes first. Each section of the estimates is a table; a key is a row. What is left out stays as
   shipped, so a file with nothing else in it changes nothing.
2. Shares are bare numbers; minutes are text with their unit. A row is its figure, or
   ``{ value = ..., reason = "..." }``.
3. ``[[learnt]]`` rows are written by ``steadyhead learn``, one a closed visit.
4. A file is read whole or not at all: every problem is told, with its key and its line.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from contextlib import suppress
from typing import Any

from steadyhead.diagnosis.company import LEARNT, NO_COMPANY, SCHEMA, Company
from steadyhead.diagnosis.estimates import SECTIONS, SHIPPED, Row, Section
from steadyhead.diagnosis.learning import Learnt, Place
from steadyhead.errors import CompanyFileError, InputError, Problem
from steadyhead.loop.faults import FAULTS
from steadyhead.messages import message
from steadyhead.visit.kinds import Flag, Joined, Kind, Known, Text, got_text, wrong_type
from steadyhead.visit.kinds_of_quantity import Size
from steadyhead.visit.layout import Path
from steadyhead.visit.nearest import nearest_first, shown
from steadyhead.visit.toml_text import decode, parse
from steadyhead.visit.walk import Findings, TooMany

OWN_REASON = "the company's own figure"
_NOTHING = Known(None, absolute=False, row={})


class Figure(Kind):
    """A bare number between two ends: a share, or a count."""

    def __init__(self, least: float, most: float) -> None:
        self.least = least
        self.most = most

    def read(self, raw: object, known: Known) -> float:  # noqa: ARG002 - a plain figure needs nothing else
        """Return the number."""
        if isinstance(raw, bool) or not isinstance(raw, (int, float)):
            raise InputError(wrong_type(raw, self.says()))
        if not self.least <= raw <= self.most:
            ends = {"least": f"{self.least:g}", "most": f"{self.most:g}"}
            raise InputError(message("outside-limits", got=got_text(raw), **ends))
        return float(raw)

    def write(self, value: float) -> str:
        """Return the number."""
        return repr(float(value))

    def says(self) -> str:
        """Return what may be written."""
        return f"a number from {self.least:g} to {self.most:g}, without quotes"

    def schema(self) -> dict[str, Any]:
        """Return a number between its ends."""
        return {"type": "number", "minimum": self.least, "maximum": self.most}


class Minutes(Size):
    """A time with its unit, read as minutes."""

    def __init__(self, section: Section) -> None:
        super().__init__("time", least=f"{section.least:g} min", most=f"{section.most:g} min")

    def read(self, raw: object, known: Known) -> float:
        """Return the minutes."""
        return super().read(raw, known) / 60.0

    def write(self, value: float) -> str:
        """Return the minutes as a text that reads back."""
        return super().write(value * 60.0)


def kind_of(section: Section) -> Kind:
    """Return how a section's figures are written."""
    return Minutes(section) if section.unit == "min" else Figure(section.least, section.most)


_FAULT = Joined(*(fault.id for fault in FAULTS), "none-of-these")
#: Keys of a row of what was learnt, and those that it needs.
LEARNT_KEYS: dict[str, Kind] = {
    "visit": Text(), "fault": _FAULT, "counts": Figure(0.0, 1.0), "second_trip": Flag(),
}  # fmt: skip
NEEDED = ("visit", "fault", "counts")
#: Minutes that one timing may say.
_TIMING = Minutes(Section("took", "min", 0.0, 600.0, "What was taken once."))


def parse_company(text: str | bytes, name: str = "company.toml") -> Company:
    r"""Return the company's estimates that a text says.

    Raises
    ------
    FileUnreadableError
        Larger than 1 MiB, or no UTF-8 text.
    CompanyFileError
        `problems` holds everything that is wrong, in the order of the file.

    Examples
    --------
    >>> own = parse_company('schema = 1\n[arrangements]\nvented = "25 min"\n')
    >>> own.estimates.arrangements["vented"]
    25.0
    """
    plain = decode(text if isinstance(text, bytes) else text.encode("utf-8", "surrogatepass"), name)
    toml = parse(plain)
    findings = Findings(toml)
    company = NO_COMPANY
    if toml.values is not None:
        with suppress(TooMany):
            company = Company(*_walked(toml.values, findings), plain, name)
    problems: tuple[Problem, ...] = findings.sorted()
    if problems:
        raise CompanyFileError(message("company-file-refused", file=name, problems=len(problems)), problems)
    return company


def _walked(values: Mapping[str, Any], findings: Findings) -> tuple[dict[Place, Row], tuple[Learnt, ...]]:
    if values.get("schema") != SCHEMA or isinstance(values["schema"], (bool, float)):
        got = got_text(values["schema"]) if "schema" in values else "nothing"
        findings.add(("schema",), message("company-schema", got=got, must_be=SCHEMA))
    own: dict[Place, Row] = {}
    for name, table in values.items():
        if name in SECTIONS:
            own |= dict(_rows(SECTIONS[name], table, findings))
        elif name not in {"schema", LEARNT}:
            words, nearest = nearest_first(name, (*SECTIONS, LEARNT))
            findings.add((name,), message("table-unknown", got=shown(name), must_be=words, nearest=nearest))
    return own, tuple(_learnt_rows(values.get(LEARNT, []), findings))


def _rows(section: Section, table: object, findings: Findings) -> Iterator[tuple[Place, Row]]:
    """Yield the sound rows of one section."""
    if not isinstance(table, dict):
        findings.add((section.name,), wrong_type(table, f"a table: [{section.name}]"))
        return
    known = SHIPPED.rows[section.name]
    for name, raw in table.items():
        path: Path = (section.name, name)
        if name not in known:
            words, nearest = nearest_first(name, known)
            told = message(
                "key-unknown", got=shown(name), table=f"[{section.name}]", must_be=words, nearest=nearest
            )
            findings.add(path, told)
            continue
        row = _row(kind_of(section), raw, path, findings)
        if row is not None:
            yield (section.name, name), row


def _row(kind: Kind, raw: object, path: Path, findings: Findings) -> Row | None:
    if not isinstance(raw, dict):
        value = _read(kind, raw, path, findings)
        return None if value is None else Row(value, OWN_REASON)
    for name in raw:
        if name not in {"value", "reason"}:
            words, nearest = nearest_first(name, ("value", "reason"))
            row = f"[{path[0]}] {path[1]}"
            told = message("key-unknown", got=shown(name), table=row, must_be=words, nearest=nearest)
            findings.add((*path, name), told)
    if "value" not in raw:
        findings.add(path, message("key-missing", key="value", must_be=kind.says()))
        return None
    value = _read(kind, raw["value"], (*path, "value"), findings)
    reason = _read(Text(), raw.get("reason", OWN_REASON), (*path, "reason"), findings)
    return None if value is None or reason is None else Row(value, reason)


def _read(kind: Kind, raw: object, path: Path, findings: Findings) -> Any:  # noqa: ANN401 - each kind has its own
    """Return a value, or None where it is refused."""
    try:
        return kind.read(raw, _NOTHING)
    except InputError as error:
        findings.add(path, error.message)
        return None


def _learnt_rows(rows: object, findings: Findings) -> Iterator[Learnt]:
    if not isinstance(rows, list):
        findings.add((LEARNT,), wrong_type(rows, f"[[{LEARNT}]], once for each visit"))
        return
    for index, raw in enumerate(rows):
        path: Path = (LEARNT, index)
        if not isinstance(raw, dict):
            findings.add(path, wrong_type(raw, f"a table: [[{LEARNT}]]"))
            continue
        row = _learnt_row(raw, path, findings)
        if row is not None:
            yield row


def _learnt_row(raw: Mapping[str, Any], path: Path, findings: Findings) -> Learnt | None:
    values: dict[str, Any] = {}
    for name, value in raw.items():
        if name in LEARNT_KEYS:
            values[name] = _read(LEARNT_KEYS[name], value, (*path, name), findings)
        elif name != "took":
            words, nearest = nearest_first(name, (*LEARNT_KEYS, "took"))
            told = message("key-unknown", got=shown(name), table=f"[[{LEARNT}]]", must_be=words, nearest=nearest)
            findings.add((*path, name), told)
    for name in NEEDED:
        if name not in raw:
            findings.add(path, message("key-missing", key=name, must_be=LEARNT_KEYS[name].says()))
    took = tuple(_timings(raw.get("took", {}), (*path, "took"), findings))
    sound = all(values.get(name) is not None for name in NEEDED)
    return Learnt(**values, took=took) if sound else None


def _timings(raw: object, path: Path, findings: Findings) -> Iterator[tuple[Place, float]]:
    """Yield what was taken for each row, from ``{ "arrangements.vented" = ["25 min"] }``."""
    if not isinstance(raw, dict):
        findings.add(path, wrong_type(raw, 'a table such as { "arrangements.vented" = ["25 min"] }'))
        return
    timed = [section.name for section in SECTIONS.values() if section.unit == "min"]
    places = {f"{name}.{row}": (name, row) for name in timed for row in SHIPPED.rows[name]}
    for name, times in raw.items():
        if name not in places or not isinstance(times, list):
            words, nearest = nearest_first(name, places)
            findings.add((*path, name), message("took-unknown", got=shown(name), must_be=words, nearest=nearest))
            continue
        for number, time in enumerate(times):
            minutes = _read(_TIMING, time, (*path, name, number), findings)
            if minutes is not None:
                yield places[name], minutes
