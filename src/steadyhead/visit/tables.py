"""A visit from the tables of a visit file as plain values, by the loader's own rows; and the text that spells them.

Rules
-----
1. The tables are those that a TOML file would have: texts, flags, whole numbers, lists and tables inside tables.
2. What is wrong is told with its path, so that whoever made the tables knows from where it came.
3. What a table of this version does not know is left out beforehand (`known_only`), never guessed at.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from steadyhead.messages import Message
from steadyhead.visit.build import build
from steadyhead.visit.edit import statement
from steadyhead.visit.keys import INNER_TABLES, SCHEMA, TABLES, Table
from steadyhead.visit.layout import Layout, Path
from steadyhead.visit.record import Visit
from steadyhead.visit.rules_of_readings import READING_RULES
from steadyhead.visit.rules_of_system import SYSTEM_RULES
from steadyhead.visit.toml_text import TomlText
from steadyhead.visit.walk import Findings, TooMany, walk

Tables = Mapping[str, Any]
Problems = tuple[tuple[Path, Message], ...]

_NOWHERE = Layout({}, {}, (), None)


class Kept(Findings):
    """Findings that keep their paths."""

    def __init__(self, text: TomlText) -> None:
        super().__init__(text)
        self.told: list[tuple[Path, Message]] = []

    def add(self, path: Path, told: Message, *, key: str | None = None) -> None:
        """Note one problem with its path."""
        self.told.append((path, told))
        super().add(path, told, key=key)


def read_tables(tables: Tables) -> tuple[Visit | None, Problems]:
    """Return the visit that tables say, or None and everything that is wrong with them.

    Examples
    --------
    >>> visit, problems = read_tables({"sensor": {"signal": "4..20 mA", "range": "0..10 barr"}})
    >>> visit, [path for path, _ in problems]
    (None, [('sensor', 'range')])
    """
    text = TomlText("", {"schema": SCHEMA, **plain(tables)}, _NOWHERE, (), frozenset())
    findings = Kept(text)
    try:
        walked = walk(text, findings)
        for rule in (*SYSTEM_RULES, *READING_RULES):
            for path, told in rule(walked):
                findings.add(path, told)
    except TooMany:
        return None, tuple(findings.told)
    return (None, tuple(findings.told)) if findings.told else (build(walked), ())


def plain(value: Any) -> Any:  # noqa: ANN401 - any value of a table
    """Return values as the TOML reader would give them: dict and list, no other mapping or sequence."""
    if isinstance(value, Mapping):
        return {str(key): plain(inner) for key, inner in value.items()}
    return [plain(inner) for inner in value] if isinstance(value, (list, tuple)) else value


def known_only(row: Mapping[str, Any], table: Table) -> dict[str, Any]:
    """Return the keys of a row that this version's table has, those of tables inside it too.

    >>> from steadyhead.visit.keys import CABLE
    >>> known_only({"length": "12 m", "colour": "grey"}, CABLE)
    {'length': '12 m'}
    """
    inner = {each.name: each for each in INNER_TABLES if each.inside == table.name}
    names = {key.name for key in table.keys}
    found: dict[str, Any] = {}
    for name, value in row.items():
        if name in names:
            found[name] = value
        elif name in inner and isinstance(value, Mapping):
            found[name] = known_only(value, inner[name])
    return found


def text_of_tables(tables: Tables) -> str:
    """Return the text of a visit file that says the tables, each value as it was written.

    Examples
    --------
    >>> print(text_of_tables({"sensor": {"signal": "4..20 mA"}, "reading": [{"value": "OL"}]}), end="")
    schema = 1
    <BLANKLINE>
    [sensor]
    signal = "4..20 mA"
    <BLANKLINE>
    [[reading]]
    value = "OL"
    """
    blocks = [f"schema = {SCHEMA}\n"]
    for table in TABLES:
        rows = tables.get(table.name, ())
        every = rows if table.rows else [rows] if rows else []
        blocks += ["".join(f"{line}\n" for line in (table.title, *_lines(row))) for row in every]
    return "\n".join(blocks)


def _lines(row: Mapping[str, Any]) -> Iterator[str]:
    for name, value in row.items():
        if isinstance(value, Mapping):
            yield f"{name} = {{ {', '.join(_lines(value))} }}"
        else:
            yield statement(name, tuple(value) if isinstance(value, list) else value)
