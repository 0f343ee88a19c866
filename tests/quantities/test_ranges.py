"""Two ends in one text, where a hyphen may be a minus and dots may be decimal signs."""

from __future__ import annotations

import pytest

from steadyhead.errors import QuantityError
from steadyhead.quantities import parse_range, parse_range_or_one, parse_range_quantities

# Expected values: exact definitions of the units, worked by hand.
RANGES = [
    ("4..20 mA", "current", 0.004, 0.02),
    ("4 mA..20 mA", "current", 0.004, 0.02),
    ("4 mA - 20 mA", "current", 0.004, 0.02),
    ("4 mA-20 mA", "current", 0.004, 0.02),
    ("500 mA..1 A", "current", 0.5, 1.0),
    ("4 to 20 mA", "current", 0.004, 0.02),
    ("4 TO 20 mA", "current", 0.004, 0.02),
    ("0.5..4.5 V", "voltage", 0.5, 4.5),
    ("0,5..4,5 V", "voltage", 0.5, 4.5),
    ("0...10 V", "voltage", 0.0, 10.0),
    ("0…10 V", "voltage", 0.0, 10.0),
    ("0.5...4.5 V", "voltage", 0.5, 4.5),
    ("0\u201316 bar", "pressure", 0.0, 1.6e6),
    ("0 \u2013 16 bar", "pressure", 0.0, 1.6e6),
    ("0\u201416 bar", "pressure", 0.0, 1.6e6),
    ("0-16 bar", "pressure", 0.0, 1.6e6),
    ("0 - 16 bar", "pressure", 0.0, 1.6e6),
    ("0\u201016 bar", "pressure", 0.0, 1.6e6),
    ("-1..9 bar", "pressure", -1e5, 9e5),
    ("\u22121..9 bar", "pressure", -1e5, 9e5),
    ("\u22121\u20139 bar", "pressure", -1e5, 9e5),
    ("-2 to -1 bar", "pressure", -2e5, -1e5),
    ("-2..-1 bar", "pressure", -2e5, -1e5),
    ("1e-3-1 V", "voltage", 0.001, 1.0),
    ("½..¾ in", "length", 0.0127, 0.01905),
    ("4k7..10k", "resistance", 4700.0, 10000.0),
    ("-10..50 degC", "temperature", -10.0, 50.0),
]


@pytest.mark.parametrize(("text", "dimension", "low", "high"), RANGES)
def test_both_ends_of_a_range_are_read(text: str, dimension: str, low: float, high: float) -> None:
    """Expected: exact definitions, worked by hand."""
    assert parse_range(text, dimension) == (low, high)


REFUSED = [
    ("-15-160 psi", "pressure", "range-hyphen-ambiguous"),
    ("\u221215-160 psi", "pressure", "range-hyphen-ambiguous"),
    ("0 -16 bar", "pressure", "range-hyphen-ambiguous"),
    ("0- 16 bar", "pressure", "range-hyphen-ambiguous"),
    ("0--16 bar", "pressure", "range-hyphen-ambiguous"),
    ("0\u221216 bar", "pressure", "range-hyphen-ambiguous"),
    ("20..4 mA", "current", "range-not-rising"),
    ("4..4 mA", "current", "range-not-rising"),
    ("100 psi..1 bar", "pressure", "range-not-rising"),
    ("5 V", "voltage", "range-expected"),
    ("AWG 22", "area", "range-expected"),
    ("4 mA..20", "current", "unit-missing"),
    ("4..20", "current", "unit-missing"),
    ("22..18 AWG", "area", "unit-missing"),
    ("0....5 V", "voltage", "number-unreadable"),
    ("1..2..3 V", "voltage", "number-unreadable"),
    ("..5 V", "voltage", "number-missing"),
    ("5..", "voltage", "number-missing"),
    ("5 to", "voltage", "number-missing"),
    ("1,500..2000 ohm", "resistance", "number-ambiguous"),
    ("0..14.7 psia", "pressure", "pressure-must-be-gauge"),
    ("0..5 bra", "pressure", "unit-unknown"),
    ("", "pressure", "quantity-empty"),
    ("0..16 bar" * 20, "pressure", "quantity-too-long"),
]


@pytest.mark.parametrize(("text", "dimension", "id_"), REFUSED)
def test_a_range_that_could_be_misread_is_refused_whole(text: str, dimension: str, id_: str) -> None:
    """Expected: the rules of the module; the refusal quotes the whole text, not the half that was at fault."""
    with pytest.raises(QuantityError, match=f"^{id_} ") as refused:
        parse_range(text, dimension)
    got = refused.value.message.values["got"]
    assert isinstance(got, str)
    assert got == text or id_ == "quantity-too-long"


def test_an_ambiguous_hyphen_is_answered_with_dots() -> None:
    """Expected: the one spelling that has no second reading."""
    with pytest.raises(QuantityError) as refused:
        parse_range("-15-160 psi", "pressure")
    assert refused.value.message.values["must_be"] == "'-15..160 psi'"


def test_a_vacuum_gauge_of_160_psi_spans_175_psi() -> None:
    """Expected: 175 times 6894.757 Pa (NIST SP 811, as printed), half a unit of the last digit."""
    low, high = parse_range("-15..160 psi", "pressure")
    assert high - low == pytest.approx(175 * 6894.757, abs=175 * 0.0005)


def test_one_figure_is_a_range_without_width() -> None:
    """Expected: a supply of '5 V' has two equal ends."""
    assert parse_range_or_one("5 V", "voltage") == (5.0, 5.0)
    assert parse_range_or_one("9..30 V", "voltage") == (9.0, 30.0)
    assert parse_range_or_one("-5 V", "voltage") == (-5.0, -5.0)


def test_the_ends_keep_their_resolution_and_their_unit() -> None:
    """Expected: one count of the last digit of each end, by hand."""
    low, high = parse_range_quantities("2.1..2.60 V", "voltage")
    assert (low.resolution, high.resolution) == (0.1, 0.01)
    assert {low.unit, high.unit} == {"V"}
