"""An instrument's accuracy, as its leaflet says it."""

from __future__ import annotations

import pytest

from steadyhead.errors import QuantityError
from steadyhead.quantities import Tolerance, parse_tolerance

# Expected values: worked by hand from the text.
TOLERANCES = [
    ("0.5 %", "voltage", Tolerance(0.005, 0.0, 0.0)),
    ("±0.5 %", "voltage", Tolerance(0.005, 0.0, 0.0)),
    ("1 % rdg", "current", Tolerance(0.01, 0.0, 0.0)),
    ("1 % of reading", "current", Tolerance(0.01, 0.0, 0.0)),
    ("0.02 V", "voltage", Tolerance(0.0, 0.02, 0.0)),
    ("± 20 mV", "voltage", Tolerance(0.0, 0.02, 0.0)),
    ("0.5 % + 0.02 V", "voltage", Tolerance(0.005, 0.02, 0.0)),
    ("0.02 V + 0.5 %", "voltage", Tolerance(0.005, 0.02, 0.0)),
    ("0.5 % + 2 x 0.01 V", "voltage", Tolerance(0.005, 0.02, 0.01)),
    ("0.5%+2x0.01V", "voltage", Tolerance(0.005, 0.02, 0.01)),
    ("0,5 % + 2 × 0,01 V", "voltage", Tolerance(0.005, 0.02, 0.01)),
    ("0.5 % + 2*10 mV", "voltage", Tolerance(0.005, 0.02, 0.01)),
    ("±(0.5 % + 2 counts of 0.01 V)", "voltage", Tolerance(0.005, 0.02, 0.01)),
    ("0.5 % + 2 digits x 0.01 V", "voltage", Tolerance(0.005, 0.02, 0.01)),
    ("1 % + 2 x 0.1 ohm", "resistance", Tolerance(0.01, 0.2, 0.1)),
    ("1e+1 mV + 1 %", "voltage", Tolerance(0.01, 0.01, 0.0)),
    ("0 % + 20 mV", "voltage", Tolerance(0.0, 0.02, 0.0)),
]


@pytest.mark.parametrize(("text", "dimension", "expected"), TOLERANCES)
def test_a_leaflets_accuracy_is_read_in_its_parts(text: str, dimension: str, expected: Tolerance) -> None:
    """Expected: by hand."""
    found = parse_tolerance(text, dimension)
    assert found.relative == expected.relative
    assert found.absolute == pytest.approx(expected.absolute, rel=1e-15)
    assert found.count == expected.count


REFUSED = [
    ("2 counts", "tolerance-counts-need-size"),
    ("0.5 % + 2 digits", "tolerance-counts-need-size"),
    ("0.5 % + 2 dgt", "tolerance-counts-need-size"),
    ("0.5", "unit-missing"),
    ("0.5 % + 2", "unit-missing"),
    ("0.5 % FS", "unit-unknown"),
    ("0.5 % + 2 mA", "unit-of-another-kind"),
    ("0.5 % + 2 x 0.01 mA", "unit-of-another-kind"),
    ("0.5 % + 0.2 %", "tolerance-unreadable"),
    ("10 mV + 20 mV", "tolerance-unreadable"),
    ("0.5 % +", "tolerance-unreadable"),
    ("0.5 % + + 1 mV", "tolerance-unreadable"),
    ("% + 1 mV", "tolerance-unreadable"),
    ("±", "tolerance-unreadable"),
    ("-1 %", "tolerance-not-positive"),
    ("0 %", "tolerance-not-positive"),
    ("0.5 % + 2 x 0 V", "tolerance-not-positive"),
    ("0.5 % + 2 x -1 V", "tolerance-not-positive"),
    ("1e999 %", "number-out-of-range"),
    ("", "quantity-empty"),
]


@pytest.mark.parametrize(("text", "id_"), REFUSED)
def test_an_accuracy_that_says_too_little_or_too_much_is_refused(text: str, id_: str) -> None:
    """Expected: the rules of the module."""
    with pytest.raises(QuantityError, match=f"^{id_} ") as refused:
        parse_tolerance(text, "voltage")
    assert refused.value.message.values["got"] == text
