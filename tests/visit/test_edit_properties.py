"""An edit changes what it must and nothing else, as another library sees it."""

from __future__ import annotations

from pathlib import Path

import tomlkit
from hypothesis import given
from hypothesis import strategies as st

from steadyhead.visit import load_visit, parse_visit

ROOT = Path(__file__).parents[2]
TEXTS = [
    path.read_text(encoding="utf-8")
    for path in sorted([*(ROOT / "examples").glob("*.toml"), Path(__file__).parent / "edit_me.toml"])
]


NAMES = st.text(st.characters(codec="utf-8"), max_size=30)
ROWS = st.fixed_dictionaries(
    {"measure": st.just("gauge-pressure"), "value": st.sampled_from(["40 psi", "2.50 bar", "pegged"])},
    optional={"tap": NAMES, "whose": st.sampled_from(["site", "own"])},
)


@given(st.sampled_from(TEXTS), ROWS, st.booleans())
def test_an_added_reading_is_all_that_another_library_sees_changed(
    text: str, row: dict[str, str], windows: bool
) -> None:
    """Expected: tomlkit's reading of the old file, with one more row."""
    old = parse_visit(text.replace("\n", "\r\n") if windows else text)
    expected = tomlkit.parse(old.text).unwrap()
    expected["reading"].append(row)
    assert tomlkit.parse(old.with_reading(row).text).unwrap() == expected


@given(st.sampled_from(TEXTS), st.data())
def test_a_reading_taken_out_is_all_that_another_library_sees_changed(text: str, data: st.DataObject) -> None:
    """Expected: tomlkit's reading of the old file without the row, and no comment line fewer."""
    old = parse_visit(text)
    number = data.draw(st.integers(1, len(old.visit.readings)))
    new = old.without_reading(number)
    expected = tomlkit.parse(text).unwrap()
    del expected["reading"][number - 1]
    found = tomlkit.parse(new.text).unwrap()
    expected.pop("action", None)
    found.pop("action", None)
    assert found == expected
    assert _comment_lines(new.text) == _comment_lines(text)


@given(st.sampled_from(TEXTS), ROWS, st.data())
def test_a_replaced_reading_is_all_that_another_library_sees_changed(
    text: str, row: dict[str, str], data: st.DataObject
) -> None:
    """Expected: tomlkit's reading of the old file with the other row, and no comment line fewer."""
    old = parse_visit(text)
    number = data.draw(st.integers(1, len(old.visit.readings)))
    new = old.with_reading_replaced(number, row)
    expected = tomlkit.parse(text).unwrap()
    expected["reading"][number - 1] = row
    assert tomlkit.parse(new.text).unwrap() == expected
    assert _comment_lines(new.text) == _comment_lines(text)


def _comment_lines(text: str) -> list[str]:
    return [line for line in text.splitlines() if line.lstrip().startswith("#")]


def test_the_examples_are_loaded_from_disk_as_from_text() -> None:
    """The two doors lead to the same room."""
    path = min((ROOT / "examples").glob("*.toml"))
    assert load_visit(path).visit == parse_visit(path.read_bytes()).visit
