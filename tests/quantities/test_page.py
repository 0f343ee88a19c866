"""The page on quantities says what the program does, or this fails."""

from __future__ import annotations

import importlib
import re

import pytest

from steadyhead.errors import QuantityError
from steadyhead.quantities import DIMENSIONS, UNITS, parse, parse_range, parse_tolerance
from steadyhead.quantities.units import find_unit

pytestmark = pytest.mark.laptop  # needs the builders and the pages


def page() -> str:
    """Return the page as the builder writes it now; imported late, since only a checkout has the builders."""
    return str(importlib.import_module("builders.quantities_page").page())


def _sections() -> dict[str, str]:
    """Return the body of each dimension's section, by the dimension's id."""
    parts = page().split("\n### ")[1:]
    heads = [re.search(r"\(`([a-z-]+)`\)\n", part) for part in parts]
    return {head.group(1): part for head, part in zip(heads, parts, strict=True) if head is not None}


def test_the_committed_page_is_what_the_builder_writes() -> None:
    """Expected: the builder's own output now, so that nobody edits the page by hand."""
    committed = importlib.import_module("builders.quantities_page").TARGET
    assert committed.read_text(encoding="utf-8") == page()


def test_every_unit_stands_in_the_page_under_its_dimension() -> None:
    """Expected: the table of units."""
    sections = _sections()
    assert list(sections) == list(DIMENSIONS)
    for unit in UNITS:
        assert f"| `{unit.symbol}` |" in sections[unit.dimension], unit.symbol


def test_every_spelling_in_the_page_is_accepted() -> None:
    """Expected: what the page promises."""
    seen = 0
    for dimension, body in _sections().items():
        for row in re.findall(r"^\| (`.*) \| [^|]* \|$", body, flags=re.MULTILINE):
            for spelling in re.findall(r"`([^`]+)`", row):
                assert find_unit(spelling, dimension) is not None, spelling
                seen += 1
    assert seen > 2 * len(UNITS)


@pytest.mark.parametrize("text", ["4.3 bar", "4,3 bar", "4.3bar", "-0.2 bar", "\u22120.2 bar", "1e3 Pa"])
def test_a_number_that_the_page_shows_as_read_is_read(text: str) -> None:
    """Expected: the page's own table of numbers."""
    assert f"`{text}`" in page()
    parse(text, "pressure")


@pytest.mark.parametrize(
    ("text", "dimension"),
    [("1,500 ohm", "resistance"), ("1 500 ohm", "resistance"), ("1'500 ohm", "resistance"), ("1/2 in", "length")],
)
def test_a_number_that_the_page_shows_as_refused_is_refused(text: str, dimension: str) -> None:
    """Expected: the page's own table of numbers."""
    assert f"`{text}`" in page()
    with pytest.raises(QuantityError, match=r"^(number|unit)-"):
        parse(text, dimension)


@pytest.mark.parametrize("text", ["4..20 mA", "4...20 mA", "4…20 mA", "4 to 20 mA", "4\u201320 mA", "4-20 mA"])
def test_every_range_that_the_page_shows_is_the_same(text: str) -> None:
    """Expected: the page says that they are one range."""
    assert f"`{text}`" in page()
    assert parse_range(text, "current") == (0.004, 0.02)


@pytest.mark.parametrize(
    "text", ["0.5 %", "0.02 V", "0.5 % + 0.02 V", "0.5 % + 2 x 0.01 V", "0.5 % + 2 counts of 0.01 V"]
)
def test_every_accuracy_that_the_page_shows_is_read(text: str) -> None:
    """Expected: the page's own paragraph."""
    assert text in page().replace("\n", " ")
    parse_tolerance(text, "voltage")


@pytest.mark.parametrize("text", ["22 AWG", "AWG 22", "#22 AWG", "22 ga", "2/0 AWG", "00 AWG"])
def test_every_wire_gauge_that_the_page_shows_is_read(text: str) -> None:
    """Expected: the page's own note."""
    assert f"`{text}`" in page()
    assert parse(text, "area") > 0
