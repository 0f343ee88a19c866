"""The manual, the JSON Schema, the examples and the English sentences say what the loader does, and a change shows."""

from __future__ import annotations

import ast
import json
import string
import tomllib
from collections.abc import Iterator
from pathlib import Path

import pytest
from jsonschema import Draft202012Validator

from builders.visit_manual import TARGET as MANUAL
from builders.visit_manual import with_keys
from builders.visit_schema import TARGET, schema, schema_text
from steadyhead.loop.vocabulary import MEASURES
from steadyhead.quantities import __doc__ as quantities_manual
from steadyhead.visit import dump_visit, keys, load_visit, parse_visit
from steadyhead.visit.measures import MEASURE
from steadyhead.words.record_english import ENGLISH as RECORD
from steadyhead.words.sentences import ENGLISH as EVERY
from steadyhead.words.visit_file_english import ENGLISH

pytestmark = pytest.mark.laptop  # needs the builders, the pages and the library jsonschema

ROOT = Path(__file__).parents[2]
EXAMPLES = sorted((ROOT / "examples").glob("*.toml"))
PACKAGE = ROOT / "src" / "steadyhead" / "visit"
VALIDATOR = Draft202012Validator(schema())


def _keys() -> Iterator[str]:
    for table in (*keys.TABLES, *keys.INNER_TABLES):
        yield from (key.name for key in table.keys)


def test_the_schema_in_the_package_is_the_one_that_the_tables_make() -> None:
    """Run ``python -m builders.visit_schema`` after a change to the tables."""
    assert TARGET.read_text(encoding="utf-8") == schema_text()


def test_the_schema_is_a_schema() -> None:
    """Expected: by the JSON Schema library."""
    Draft202012Validator.check_schema(json.loads(schema_text()))


def test_the_manual_has_the_tables_of_keys_as_they_are() -> None:
    """Run ``python -m builders.visit_manual`` after a change to the tables."""
    manual = MANUAL.read_text(encoding="utf-8")
    assert with_keys(manual) == manual


@pytest.mark.parametrize("name", sorted(set(_keys())))
def test_every_key_stands_in_the_manual(name: str) -> None:
    """In code type, at the start of a row."""
    manual = MANUAL.read_text(encoding="utf-8")
    assert f"\n| `{name}` |" in manual or f'\n| `"{name}"` |' in manual


def test_the_manual_s_own_example_is_sound() -> None:
    """The block of TOML in the manual is read as it stands there."""
    block = MANUAL.read_text(encoding="utf-8").split("```toml\n")[1].partition("```")[0]
    assert len(parse_visit(block).visit.readings) == 2


def test_every_measure_has_its_row() -> None:
    """The vocabulary's measures and the table of measures are one list."""
    assert tuple(MEASURE) == tuple(sorted(MEASURES, key=tuple(MEASURE).index))


def test_there_are_ten_examples_of_three_kinds() -> None:
    """Ratiometric houses, two-wire commercial sets, and an amplified sensor."""
    kinds = {load_visit(path).visit.sensor.signal.kind for path in EXAMPLES}
    assert len(EXAMPLES) >= 10
    assert kinds == {"ratiometric", "current", "voltage"}


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_an_example_is_sound_for_the_loader_and_for_the_schema(path: Path) -> None:
    """The schema is checked by the JSON Schema library, which knows nothing of the loader."""
    assert load_visit(path).text.startswith("# An invented visit")
    VALIDATOR.validate(tomllib.loads(path.read_text(encoding="utf-8")))


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_an_example_written_anew_says_the_same(path: Path) -> None:
    """A round trip of the record."""
    visit = load_visit(path).visit
    text = dump_visit(visit)
    assert parse_visit(text).visit == visit
    VALIDATOR.validate(tomllib.loads(text))


#: Broken files whose fault a schema can see: their structure and their words.
STRUCTURAL = (
    "action-before-the-file-began",
    "bare-number",
    "flag-in-quotes",
    "insulation-test-into-electronics",
    "inspection-value-unknown",
    "item-missing",
    "key-unknown",
    "leads-missing",
    "list-with-an-unknown-word",
    "measure-missing",
    "milliamps-with-leads",
    "pair-with-an-unknown-remedy",
    "range-missing",
    "schema-newer",
    "single-brackets-for-a-reading",
    "table-unknown",
    "value-missing",
    "word-unknown",
)


@pytest.mark.parametrize("name", STRUCTURAL)
def test_the_schema_refuses_what_an_editor_can_see(name: str) -> None:
    """Expected: refused, by the JSON Schema library."""
    path = Path(__file__).parent / "broken" / f"{name}.toml"
    assert not VALIDATOR.is_valid(tomllib.loads(path.read_text(encoding="utf-8")))


def _messages() -> Iterator[tuple[str, frozenset[str] | None]]:
    """Return the id of each message in the package's source, with its values' names where they stand there too."""
    for path in sorted(PACKAGE.glob("*.py")):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id == "message":
                first = node.args[0]
                names = {keyword.arg for keyword in node.keywords}
                told = None if None in names else frozenset(name for name in names if name)
                if isinstance(first, ast.Constant):
                    yield str(first.value), told


_KEY = frozenset({"got", "must_be", "table", "nearest"})  # built before they are told
SAID: set[tuple[str, frozenset[str]]] = {
    *((id_, told) for id_, told in _messages() if told is not None),
    ("schema-newer", frozenset({"got", "must_be"})),
    ("schema-unknown", frozenset({"got", "must_be"})),
    ("key-unknown", _KEY),
    ("key-of-another-table", _KEY | {"belongs_to"}),
}


@pytest.mark.parametrize(("id_", "values"), sorted((id_, sorted(values)) for id_, values in SAID))
def test_every_message_has_an_english_sentence_with_its_own_values(id_: str, values: list[str]) -> None:
    """A sentence that asks for a value the message lacks could not be said."""
    if id_ in (quantities_manual or ""):
        return
    asked = {name for _, name, _, _ in string.Formatter().parse(EVERY[id_]) if name}
    assert asked <= set(values)


def test_no_sentence_is_left_over() -> None:
    """A sentence that nothing says would only mislead its translator."""
    assert set(ENGLISH) == {id_ for id_, _ in SAID if id_ not in (quantities_manual or "") and id_ not in RECORD}
