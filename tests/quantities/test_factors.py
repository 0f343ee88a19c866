"""Factors of units, against the library that they were made from and against a printed table."""

from __future__ import annotations

import importlib
from collections.abc import Callable
from fractions import Fraction
from types import ModuleType

import pytest

from steadyhead.published.pressure_factors import ROWS
from steadyhead.quantities import UNITS, Unit, parse

pytestmark = pytest.mark.laptop  # needs the builders and the library pint


@pytest.fixture(scope="module")
def builder() -> ModuleType:
    """Return the builder of the table; imported late, since only a checkout has it."""
    return importlib.import_module("builders.unit_factors")


Convert = Callable[[float, str, str], float]


@pytest.fixture(scope="module")
def pint_converts() -> Convert:
    """Return pint's conversion of a figure from an expression to another, in its float arithmetic."""
    registry = importlib.import_module("pint").UnitRegistry()

    def convert(figure: float, expression: str, si: str) -> float:
        return float(registry.Quantity(figure, registry.Unit(expression)).to(si).magnitude)

    return convert


#: NIST SP 811 (2008), appendix B, as printed (a verbatim transcription was read).
PRINTED = [
    ("gpm", Fraction("3.785412E-03") / 60, 1e-7),  # US gallon
    ("imp gpm", Fraction("4.54609E-03") / 60, 0),  # imperial gallon, exact
    ("ft", Fraction("3.048E-01"), 0),
    ("in", Fraction("2.54E-02"), 0),
]


def test_the_committed_factors_are_what_the_builder_writes(builder: ModuleType) -> None:
    """Expected: the builder's own output now, so that nobody edits the file by hand."""
    assert builder.TARGET.read_text(encoding="utf-8") == builder.factors_source()


@pytest.mark.parametrize("unit", UNITS, ids=lambda unit: f"{unit.dimension} {unit.symbol}")
def test_pint_in_floats_agrees_on_every_unit(unit: Unit, builder: ModuleType, pint_converts: Convert) -> None:
    """Expected: pint's float arithmetic, another path than the exact one that wrote the table; some roundings apart."""
    dimension = "pressure" if unit.dimension == "absolute-pressure" else unit.dimension
    si, expressions = builder.EXPRESSIONS[dimension]
    expression = expressions[{"psia": "psi", "bara": "bar"}.get(unit.symbol, unit.symbol.removesuffix(" abs"))]
    some_roundings = 1e-13
    for figure in (0.0, 1.0, 62.5):
        theirs = pint_converts(figure, expression, si)
        ours = figure * unit.factor + unit.offset
        assert ours == pytest.approx(theirs, rel=some_roundings, abs=some_roundings)


@pytest.mark.parametrize(("symbol", "printed"), ROWS)
def test_pressures_agree_with_the_printed_table_to_its_last_digit(symbol: str, printed: str) -> None:
    """Expected: NIST SP 811 (2008) appendix B, half a unit of the last printed digit."""
    plain = printed.replace(" ", "")
    mantissa, _, exponent = plain.partition("E")
    half_a_digit = 0.5 * 10.0 ** (int(exponent) - len(mantissa.partition(".")[2]))
    assert parse(f"1 {symbol}", "pressure") == pytest.approx(float(plain), abs=half_a_digit)


@pytest.mark.parametrize(("symbol", "printed", "relative"), PRINTED)
def test_other_units_agree_with_printed_numbers(symbol: str, printed: Fraction, relative: float) -> None:
    """Expected: NIST SP 811 (2008) appendix B, at printed precision; exact where it is printed bold."""
    unit = next(unit for unit in UNITS if unit.symbol == symbol)
    ours = Fraction(unit.numerator, unit.denominator)
    assert abs(ours / printed - 1) <= relative


def test_one_psi_is_2_30666_feet_of_water() -> None:
    """Expected: the ratio of two printed factors of NIST SP 811, 2.30666 ft; half a unit of the last digit."""
    assert parse("1 psi", "pressure") / parse("1 ftH2O", "pressure") == pytest.approx(2.30666, abs=5e-6)


def test_a_gauge_and_an_absolute_unit_have_one_factor() -> None:
    """Expected: they differ by their zero, which is the weather's, not by their size."""
    for symbol in ("psi", "bar", "kPa", "inHg"):
        assert parse(f"3 {symbol}", "pressure") == parse(f"3 {symbol} abs", "absolute-pressure")
