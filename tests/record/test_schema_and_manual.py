"""The JSON Schema of a fact and the manual of the record say what the tables say."""

from __future__ import annotations

import json

import pytest
from jsonschema import Draft202012Validator

from builders import record_pages
from tests.record.bench import ROOT
from tests.record.test_kept_samples import CHECK_LINES, LINES

pytestmark = pytest.mark.laptop  # needs the builders, the pages and the library jsonschema


def test_schema_and_manual_are_those_that_the_tables_make() -> None:
    """Run ``python -m builders.record_pages`` after a change to the tables."""
    assert record_pages.TARGET.read_text(encoding="utf-8") == record_pages.schema_text()
    manual = record_pages.MANUAL.read_text(encoding="utf-8")
    assert record_pages.with_tables(manual) == manual


def test_the_schema_takes_the_kept_facts_and_refuses_what_the_reader_refuses() -> None:
    """By the JSON Schema library; a newer kind and newer keys are taken."""
    Draft202012Validator.check_schema(record_pages.schema())
    validator = Draft202012Validator(record_pages.schema())
    for line in (*LINES, *CHECK_LINES):
        validator.validate(json.loads(line))
    plain = json.loads(LINES[0])
    assert validator.is_valid({**plain, "kind": "vibration", "signature": "x", "body": {"spectrum": [1]}})
    assert not validator.is_valid({**plain, "id": "x"})
    assert not validator.is_valid({**plain, "at": "yesterday"})
    assert not validator.is_valid({key: value for key, value in plain.items() if key != "about"})
    assert not validator.is_valid({**plain, "kind": "photo", "body": {"sha256": "x"}})
    point = json.loads(CHECK_LINES[1])
    assert not validator.is_valid({**point, "body": {**point["body"], "direction": "sideways"}})


def test_the_manual_names_the_record_where_a_stranger_looks() -> None:
    """The README's list of pages."""
    assert "docs/record.md" in (ROOT / "README.md").read_text(encoding="utf-8")
