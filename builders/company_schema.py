"""Writes the JSON Schema of a company's file from the tables that its reader walks, so that an editor knows every row.

Run it after a change to the estimates: ``python -m builders.company_schema``. A test compares.
"""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

from steadyhead.diagnosis.company import LEARNT, SCHEMA
from steadyhead.diagnosis.company_file import LEARNT_KEYS, NEEDED, kind_of
from steadyhead.diagnosis.estimates import SECTIONS, SHIPPED, Section

TARGET = Path(__file__).parent.parent / "src" / "steadyhead" / "diagnosis" / f"company_{SCHEMA}.json"


def schema() -> dict[str, Any]:
    """Return the JSON Schema of a company's file."""
    version = {"const": SCHEMA, "description": "Version of the file's format."}
    sections = {name: _section(section) for name, section in SECTIONS.items()}
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": f"A company's own estimates, schema {SCHEMA}",
        **_object({"schema": version, **sections, LEARNT: _learnt()}, ["schema"]),
        "$defs": {name: _row(section) for name, section in SECTIONS.items()},
    }


def _section(section: Section) -> dict[str, Any]:
    rows = {
        name: {"description": f"{row.reason} (shipped: {row.value:g})", "$ref": f"#/$defs/{section.name}"}
        for name, row in SHIPPED.rows[section.name].items()
    }
    return {"description": section.says, **_object(rows, [])}


def _row(section: Section) -> dict[str, Any]:
    """Return how one row is written: its figure, or its figure with a reason."""
    value = kind_of(section).schema()
    return {"anyOf": [value, _object({"value": value, "reason": {"type": "string"}}, ["value"])]}


def _learnt() -> dict[str, Any]:
    times = {"type": "object", "additionalProperties": {"type": "array", "items": {"type": "string"}}}
    keys = {name: kind.schema() for name, kind in LEARNT_KEYS.items()}
    items = _object({**keys, "took": times}, list(NEEDED))
    return {"description": "Written by `steadyhead learn`, one row a closed visit.", "type": "array", "items": items}


def _object(properties: dict[str, Any], required: list[str]) -> dict[str, Any]:
    return {"type": "object", "additionalProperties": False, "required": required, "properties": properties}


def schema_text() -> str:
    """Return the schema as it stands in the package."""
    return json.dumps(schema(), indent=1, ensure_ascii=False) + "\n"


def main() -> None:
    """Write the schema."""
    TARGET.write_text(schema_text(), encoding="utf-8", newline="\n")


if __name__ == "__main__":
    main()
