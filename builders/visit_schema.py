"""Writes the JSON Schema of the visit file from the tables that the loader walks, so that an editor knows every key.

Run it after a change to ``steadyhead/visit/keys.py``: ``python -m builders.visit_schema``. A test compares.
"""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

from steadyhead.visit.keys import SCHEMA, VISIT, Key, Language, Table
from steadyhead.visit.measures import MEASURE, OWN_KEYS, keys_of, needed_by

TARGET = Path(__file__).parent.parent / "src" / "steadyhead" / "visit" / f"schema_{SCHEMA}.json"


def schema() -> dict[str, Any]:
    """Return the JSON Schema of a visit file."""
    says = "A visit to a constant-pressure water system: what is known, what was read, what was done."
    return schema_of(VISIT, "Visit file", says)


def schema_of(language: Language, title: str, says: str) -> dict[str, Any]:
    """Return the JSON Schema of one kind of file."""
    tables = {table.name: _table_or_rows(table, language) for table in language.tables}
    version = {"const": SCHEMA, "description": f"Version of the {title.lower()}'s format."}
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": f"{title}, schema {SCHEMA}",
        "description": says,
        **_object({"schema": version, **tables}, ["schema", "sensor"]),
    }


def _table_or_rows(table: Table, language: Language) -> dict[str, Any]:
    if not table.rows:
        return {"description": table.says, **_table(table, language)}
    return {"description": table.says, "type": "array", "items": _table(table, language)}


def _table(table: Table, language: Language) -> dict[str, Any]:
    properties = {key.name: _key(key) for key in table.keys}
    for inner in language.inside(table).values():
        properties[inner.name] = {"description": inner.says, **_table(inner, language)}
    found = _object(properties, [key.name for key in table.keys if key.required])
    if table.name == "reading":
        found["allOf"] = [_rule_of(id_) for id_ in MEASURE]
    return found


def _key(key: Key) -> dict[str, Any]:
    default = f" Left out: {key.default}." if key.default else ""
    return {"description": key.says + default, **key.kind.schema()}


def _object(properties: dict[str, Any], required: list[str]) -> dict[str, Any]:
    return {"type": "object", "additionalProperties": False, "required": required, "properties": properties}


def _rule_of(id_: str) -> dict[str, Any]:
    """Return which keys a reading of one measure needs, and which it cannot have."""
    measure = MEASURE[id_]
    value = () if id_ == "pressure-decay" else ("value",)
    strangers = [name for name in OWN_KEYS if name not in keys_of(measure)]
    properties: dict[str, Any] = dict.fromkeys(strangers, False)
    if measure.words:
        properties["value"] = {"enum": list(measure.words)}
    if measure.arrangements:
        properties["arrangement"] = {"enum": list(measure.arrangements)}
    then = {"required": [*value, *needed_by(measure)], "properties": properties}
    return {"if": {"required": ["measure"], "properties": {"measure": {"const": id_}}}, "then": then}


def schema_text() -> str:
    """Return the schema as it stands in the package."""
    return text_of(schema())


def text_of(made: dict[str, Any]) -> str:
    """Return a schema as it is written."""
    return json.dumps(made, indent=1, ensure_ascii=False) + "\n"


def main() -> None:
    """Write the schema."""
    TARGET.write_text(schema_text(), encoding="utf-8", newline="\n")


if __name__ == "__main__":
    main()
