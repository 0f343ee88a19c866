"""The JSON Schema of a company's file says what its reader does, as far as an editor can see it."""

from __future__ import annotations

import json
import tomllib
from pathlib import Path

import pytest
from jsonschema import Draft202012Validator

from builders.company_schema import TARGET, schema, schema_text
from steadyhead.diagnosis.company import with_learnt
from steadyhead.diagnosis.company_file import parse_company
from steadyhead.diagnosis.learning import Learnt
from steadyhead.errors import CompanyFileError

pytestmark = pytest.mark.laptop  # needs the builders, the examples and the library jsonschema

VALIDATOR = Draft202012Validator(schema())
EXAMPLE = (Path(__file__).parents[2] / "examples" / "company" / "company.toml").read_text(encoding="utf-8")
LESSON = Learnt(
    visit="ab" * 16, fault="none", counts=0.25, second_trip=False, took=((("arrangements", "vented"), 25.0),)
)


def test_the_schema_in_the_package_is_the_one_that_the_tables_make() -> None:
    """Run ``python -m builders.company_schema`` after a change to the estimates."""
    assert TARGET.read_text(encoding="utf-8") == schema_text()


def test_the_schema_is_a_schema() -> None:
    """Expected: by the JSON Schema library."""
    Draft202012Validator.check_schema(json.loads(schema_text()))


def test_the_example_and_what_is_learnt_are_sound_for_both() -> None:
    """The library knows nothing of the reader."""
    text = with_learnt(EXAMPLE, (LESSON,))
    assert parse_company(text).learnt == (LESSON,)
    VALIDATOR.validate(tomllib.loads(text))


@pytest.mark.parametrize(
    "text",
    [
        "[families]\ndampp = 3\n",
        "[families]\ndamp = 0\n",
        '[families]\ndamp = "3"\n',
        "[arrangements]\nvented = 25\n",
        '[arrangements]\nvented = { val = "25 min" }\n',
        "[arangements]\n",
        '[[learnt]]\nfault = "sensor"\n',
    ],
)
def test_what_an_editor_can_see_is_refused_by_both(text: str) -> None:
    """Expected: refused, by the library and by the reader."""
    assert not VALIDATOR.is_valid(tomllib.loads("schema = 1\n" + text))
    with pytest.raises(CompanyFileError):
        parse_company("schema = 1\n" + text)
