"""Writes the JSON Schema and the manual's tables of keys of the check file from the tables that the loader walks.

Run it after a change to ``steadyhead/visit/check_keys.py``: ``python -m builders.check_file``. A test compares.
"""

from __future__ import annotations

from pathlib import Path
from typing import Any

from builders.visit_manual import section
from builders.visit_schema import schema_of, text_of
from steadyhead.visit.check_keys import CHECK_FILE
from steadyhead.visit.keys import SCHEMA

ROOT = Path(__file__).parent.parent
TARGET = ROOT / "src" / "steadyhead" / "sensorcheck" / f"check_file_{SCHEMA}.json"
MANUAL = ROOT / "docs" / "sensor-check.md"
BEGINS = "<!-- the tables of keys below are written by builders/check_file.py -->\n"
ENDS = "<!-- the tables of keys end here -->\n"


def schema() -> dict[str, Any]:
    """Return the JSON Schema of a check file."""
    says = "A check of a pressure sensor over its range: against what, and its points."
    return schema_of(CHECK_FILE, "Check file", says)


def with_keys(manual: str) -> str:
    """Return the manual with its tables of keys as they are now."""
    before, _, rest = manual.partition(BEGINS)
    _, _, after = rest.partition(ENDS)
    every = [each for outer in CHECK_FILE.tables for each in (outer, *CHECK_FILE.inside(outer).values())]
    blocks = "\n".join([f"`schema = {SCHEMA}` stands before the first table and is needed.\n", *map(section, every)])
    return f"{before}{BEGINS}\n{blocks}\n{ENDS}{after}"


def main() -> None:
    """Write the schema and the tables."""
    TARGET.write_text(text_of(schema()), encoding="utf-8", newline="\n")
    if MANUAL.exists():
        MANUAL.write_text(with_keys(MANUAL.read_text(encoding="utf-8")), encoding="utf-8", newline="\n")


if __name__ == "__main__":
    main()
