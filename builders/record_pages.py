"""Writes the JSON Schema of a fact and the tables of the record's manual from the tables that the reader walks.

Run it after a change to ``steadyhead/visit/fact_fields.py`` or ``fact_kinds.py``: ``python -m builders.record_pages``.
A test compares.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from pathlib import Path
from typing import Any

from steadyhead.visit.fact_fields import FIELDS
from steadyhead.visit.fact_kinds import BIRTH_NUMBER, ENDING, KINDS, PART, SHA256_PATTERN, BodyKey, KindOfFact
from steadyhead.visit.ids import ULID_PATTERN

ROOT = Path(__file__).parent.parent
SCHEMA = 1
TARGET = ROOT / "src" / "steadyhead" / "visit" / f"fact_{SCHEMA}.json"
MANUAL = ROOT / "docs" / "record.md"
#: Forms that are told here; every other one is told in the visit file's manual.
PLAIN = ({"type": "string"}, {"type": "boolean"})
OWN = (ULID_PATTERN, SHA256_PATTERN)
MOST_WORDS = 8
#: Keys whose value is an object that no visit file has: their own keys are told one by one.
OBJECTS = {"ending": ENDING, "parts": PART, "numbers": BIRTH_NUMBER}
BEGINS = "<!-- the tables below are written by builders/record_pages.py -->\n"
ENDS = "<!-- the tables end here -->\n"


def schema() -> dict[str, Any]:
    """Return the JSON Schema of a fact; keys and kinds that it does not name are a newer version's, and allowed."""
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": f"Fact, schema {SCHEMA}",
        "description": "One fact of the record of a visit, as a line of facts.jsonl holds it.",
        "type": "object",
        "required": [field.name for field in FIELDS if field.required],
        "properties": {field.name: {"description": field.says, **field.schema} for field in FIELDS},
        "allOf": [_rule_of(kind) for kind in KINDS],
    }


def _rule_of(kind: KindOfFact) -> dict[str, Any]:
    """Return what the body of one kind may hold; an emptied body holds nothing."""
    body = {"description": kind.says, "properties": {key.name: _key(key) for key in kind.keys}}
    return {
        "if": {"required": ["kind"], "properties": {"kind": {"const": kind.id}}},
        "then": {"properties": {"body": body}},
    }


def _key(key: BodyKey) -> dict[str, Any]:
    return {"description": key.says, **key.schema}


def schema_text() -> str:
    """Return the schema as it stands in the package."""
    return json.dumps(schema(), indent=1, ensure_ascii=False) + "\n"


def tables_text() -> str:
    """Return the manual's tables of fields and of kinds."""
    fields = "### Fields of a fact\n\n| field | what it is | form | left out |\n| --- | --- | --- | --- |\n"
    fields += "".join(
        f"| `{field.name}` | {field.says} | {_form(field.schema)} | {_left_out(field.required, field.default)} |\n"
        for field in FIELDS
    )
    return "\n".join([fields, *map(_kind, KINDS)])


def _left_out(required: object, default: object) -> str:
    if required:
        return "**needed**"
    return "`null`" if default is None else f"`{default}`" if default else "empty"


def _form(form: Mapping[str, Any]) -> str:
    if "enum" in form:
        return "one of " + ", ".join(f"`{word}`" for word in form["enum"])
    if str(form.get("pattern", "")).endswith("{25}$"):
        return "a ULID" + (" or `null`" if isinstance(form["type"], list) else "")
    if form.get("type") == "array" and "enum" in form["items"]:
        return "some of " + ", ".join(f"`{word}`" for word in form["items"]["enum"])
    if form.get("type") == "array":
        return "a list of " + _form(form["items"]).removeprefix("a ") + "s"
    return {"object": "an object", "boolean": "`true` or `false`", "string": "text"}.get(str(form.get("type")), "text")


def _kind(kind: KindOfFact) -> str:
    head = f"### `{kind.id}`\n\n{kind.says}\n\n| key of its body | what it is | form |\n| --- | --- | --- |\n"
    return head + "".join(_rows_of(key) for key in kind.keys)


def _rows_of(key: BodyKey) -> str:
    """Return the manual's row of a key; under it those of the keys inside it, where only a fact has them."""
    if key.name not in OBJECTS:
        return f"| `{key.name}` | {key.says} | {_form_of_key(key)} |\n"
    form = "an object" if key.schema.get("type") == "object" else "a list of objects"
    own = OBJECTS[key.name]
    inner = "".join(f"| `{key.name}.{each.name}` | {each.says} | {_form_of_key(each)} |\n" for each in own)
    return f"| `{key.name}` | {key.says} | {form} |\n{inner}"


def _form_of_key(key: BodyKey) -> str:
    if key.schema.get("type") == "object":
        return f"the table `[{key.name}]`"
    if key.schema.get("format") == "date":
        return "a day, such as `2026-05-07`"
    words = key.schema.get("enum") or key.schema.get("items", {}).get("enum") or ()
    told = key.schema in PLAIN or words or key.schema.get("type") == "array" or str(key.schema.get("pattern")) in OWN
    return _form(key.schema) if told and len(words) <= MOST_WORDS else "as in a visit file"


def with_tables(manual: str) -> str:
    """Return the manual with its tables as they are now."""
    before, _, rest = manual.partition(BEGINS)
    _, _, after = rest.partition(ENDS)
    return f"{before}{BEGINS}\n{tables_text()}\n{ENDS}{after}"


def main() -> None:
    """Write both."""
    TARGET.write_text(schema_text(), encoding="utf-8", newline="\n")
    manual = MANUAL.read_text(encoding="utf-8")
    MANUAL.write_text(with_tables(manual), encoding="utf-8", newline="\n")


if __name__ == "__main__":
    main()
