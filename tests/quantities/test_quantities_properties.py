"""Properties of reading and spelling, over whatever Hypothesis can think of."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from steadyhead.errors import QuantityError
from steadyhead.quantities import (
    DIMENSIONS,
    UNITS,
    Unit,
    parse,
    parse_percent,
    parse_quantity,
    parse_range,
    parse_range_or_one,
    parse_tolerance,
    spell,
    spell_ohms,
    spell_range,
    spellings_in,
)

DIMENSION_IDS = st.sampled_from(sorted(DIMENSIONS))
SPELLINGS = st.sampled_from(sorted({s for dimension in DIMENSIONS for s in spellings_in(dimension)}))
#: Pieces from which texts are made that look like quantities: far more of them pass the first lines of the grammar.
PIECES = st.one_of(
    st.sampled_from(
        [
            *"0123456789.,eE+-\u2212\u2013\u2014±×x*/%½¼¾ ()'\"",
            "..",
            "…",
            " to ",
            "\u00a0",
            "AWG",
            "k",
            "counts",
            "of",
            "²",
        ]
    ),
    SPELLINGS,
    st.integers(0, 10**9).map(str),
)
LEAST = 1e-290  #: below it the last digit of a figure is no float any more
LOOKALIKES = st.lists(PIECES, max_size=12).map("".join)
TEXTS = st.one_of(st.text(max_size=120), LOOKALIKES)


def _refusal(read: Callable[[], object]) -> QuantityError | None:
    """Return the refusal that a reading ends in, or None; any other error is a failure of the test."""
    try:
        read()
    except QuantityError as refused:
        return refused
    return None


@given(text=TEXTS, dimension=DIMENSION_IDS)
@pytest.mark.parametrize("read", [parse, parse_quantity, parse_range, parse_range_or_one, parse_tolerance])
def test_any_text_is_read_or_refused(read: Callable[[str, str], object], text: str, dimension: str) -> None:
    """Expected: no error but ours, whatever the text, with the values that every refusal has."""
    refusal = _refusal(lambda: read(text, dimension))
    assert refusal is None or {"got", "must_be", "dimension"} <= set(refusal.message.values)


@given(text=TEXTS)
def test_any_text_is_a_percentage_or_is_refused(text: str) -> None:
    """Expected: as above."""
    refusal = _refusal(lambda: parse_percent(text))
    assert refusal is None or refusal.message.values["dimension"] == "percent"


@given(
    value=st.floats(min_value=-1e12, max_value=1e12).filter(lambda value: value == 0 or abs(value) > LEAST),
    unit=st.sampled_from([unit for unit in UNITS if unit.dimension not in {"temperature", "absolute-pressure"}]),
    digits=st.integers(1, 12),
    keep_zeros=st.booleans(),
)
def test_what_is_spelled_is_read_again_within_its_last_digit(
    value: float, unit: Unit, digits: int, keep_zeros: bool
) -> None:
    """Expected: the value itself, within half a count of the last digit written and the rounding of a float."""
    text = spell(value, unit.symbol, digits=digits, keep_zeros=keep_zeros)
    found = parse_quantity(text, unit.dimension)
    half_a_count, float_rounding = 0.5 * found.resolution, 4e-16 * abs(value)
    assert abs(found.value - value) <= half_a_count * (1 + 1e-9) + float_rounding
    assert found.unit == unit.symbol


@given(celsius=st.floats(min_value=-273.15, max_value=5000.0), unit=st.sampled_from(["degC", "degF", "K"]))
def test_a_temperature_is_read_again_within_its_last_digit(celsius: float, unit: str) -> None:
    """Expected: the temperature itself, or a refusal where rounding would take it below absolute zero."""
    text = spell(celsius, unit, digits=6)
    refusal = _refusal(lambda: parse(text, "temperature"))
    if refusal is not None:
        assert refusal.message.id == "below-absolute-zero"
        assert celsius == pytest.approx(-273.15, abs=0.01)
        return
    found = parse_quantity(text, "temperature")
    float_rounding = 1e-12 * 300
    assert abs(found.value - celsius) <= 0.5 * found.resolution * (1 + 1e-9) + float_rounding


@given(ohms=st.floats(min_value=1e-6, max_value=1e14))
def test_a_spelled_resistance_is_read_again_within_one_count(ohms: float) -> None:
    """Expected: the value, within one count of the last digit that three figures leave."""
    found = parse_quantity(spell_ohms(ohms), "resistance")
    assert abs(found.value - ohms) <= found.resolution


@given(low=st.integers(-500, 500), width=st.integers(1, 500), unit=st.sampled_from(["psi", "bar", "kPa", "mH2O"]))
def test_a_spelled_range_is_read_again(low: int, width: int, unit: str) -> None:
    """Expected: both ends, to the rounding of a float."""
    ends = (parse(f"{low} {unit}", "pressure"), parse(f"{low + width} {unit}", "pressure"))
    assert parse_range(spell_range(*ends, unit), "pressure") == pytest.approx(ends, rel=1e-12, abs=1e-6)


@given(mantissa=st.integers(-(10**12), 10**12), places=st.integers(0, 9), unit=st.sampled_from(UNITS))
def test_a_decimal_figure_is_converted_as_exact_fractions_do(mantissa: int, places: int, unit: Unit) -> None:
    """Expected: exact rational arithmetic, rounded once at the end."""
    digits = f"{abs(mantissa):0{places + 1}d}"
    number = f"{'-' if mantissa < 0 else ''}{digits[: len(digits) - places]}"
    number += f".{digits[len(digits) - places :]}" if places else ""
    exact = Fraction(mantissa, 10**places) * Fraction(unit.numerator, unit.denominator)
    exact += Fraction(unit.offset_numerator, unit.offset_denominator)
    lowest = DIMENSIONS[unit.dimension].lowest
    if lowest is None or float(exact) >= lowest:
        assert parse(f"{number} {unit.symbol}", unit.dimension) == float(exact)


@given(whole=st.integers(1, 999), rest=st.integers(0, 9999).map("{:04d}".format), places=st.integers(1, 4))
def test_a_comma_is_a_decimal_sign_or_refused_but_never_a_thousands_separator(
    whole: int, rest: str, places: int
) -> None:
    """Expected: the value with a full stop, unless exactly three digits follow."""
    after = rest[:places]
    if places == 3:
        with pytest.raises(QuantityError, match=r"^number-ambiguous "):
            parse(f"{whole},{after} V", "voltage")
    else:
        assert parse(f"{whole},{after} V", "voltage") == float(f"{whole}.{after}")
