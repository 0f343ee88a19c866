"""Writes the table of keys into the manual of the visit file from the tables that the loader walks.

Run it after a change to ``steadyhead/visit/keys.py``: ``python -m builders.visit_manual``. A test compares.
"""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from steadyhead.visit.keys import INNER_TABLES, SCHEMA, TABLES, Key, Table
from steadyhead.visit.measures import MEASURE, Measure, keys_of

TARGET = Path(__file__).parent.parent / "docs" / "visit-file.md"
BEGINS = "<!-- the tables of keys below are written by builders/visit_manual.py -->\n"
ENDS = "<!-- the tables of keys end here -->\n"


def keys_text() -> str:
    """Return the manual's tables of keys and of measures."""
    tables = [table for outer in TABLES for table in (outer, *_inside(outer))]
    blocks = [f"`schema = {SCHEMA}` stands before the first table and is needed.\n"]
    blocks += [section(table) for table in tables]
    return "\n".join([*blocks, _measures()])


def _inside(outer: Table) -> Iterator[Table]:
    return (inner for inner in INNER_TABLES if inner.inside == outer.name)


def section(table: Table) -> str:
    """Return a table of the keys of one table."""
    columns = "| key | what it is | what may be written | left out |\n| --- | --- | --- | --- |\n"
    head = f"### `{table.title}`\n\n{table.says}\n\n{columns}"
    return head + "".join(_row(key) for key in table.keys)


def _row(key: Key) -> str:
    name = f'`"{key.name}"`' if "." in key.name else f"`{key.name}`"
    default = "**needed**" if key.required else key.default
    return f"| {name} | {key.says} | {key.kind.says()} | {default} |\n"


def _measures() -> str:
    head = "### Measures\n\n| measure | value | its own keys | where |\n| --- | --- | --- | --- |\n"
    return head + "".join(_measure(measure) for measure in MEASURE.values())


def _measure(measure: Measure) -> str:
    value = ", ".join(f"`{word}`" for word in measure.words) or " or ".join(measure.dimensions)
    keys = ", ".join(f"`{key}`" for key in keys_of(measure)) or "none"
    where = ", ".join(f"`{place}`" for place in measure.arrangements) or "anywhere"
    return f"| `{measure.id}` | {value} | {keys} | {where} |\n"


def with_keys(manual: str) -> str:
    """Return the manual with its tables of keys as they are now."""
    before, _, rest = manual.partition(BEGINS)
    _, _, after = rest.partition(ENDS)
    return f"{before}{BEGINS}\n{keys_text()}\n{ENDS}{after}"


def main() -> None:
    """Write the tables into the manual."""
    TARGET.write_text(with_keys(TARGET.read_text(encoding="utf-8")), encoding="utf-8", newline="\n")


if __name__ == "__main__":
    main()
