"""Printed pressure factors, and the pressure of the air by altitude."""

from __future__ import annotations

from fractions import Fraction

import pytest
from fluids.atmosphere import ATMOSPHERE_1976

from steadyhead.errors import RangeOfValidityError, UnknownWordError
from steadyhead.published.pressure_factors import ROWS, printed_factor
from steadyhead.published.standard_atmosphere import EXPONENT, pressure_pa, temperature_k

#: The same units from their definitions, in exact fractions: pound 0.45359237 kg, inch 0.0254 m, g 9.80665 m/s2,
#: conventional water 1000 kg/m3, conventional mercury 13595.1 kg/m3.
G = Fraction("9.80665")
INCH = Fraction("0.0254")
DEFINED = {
    "psi": Fraction("0.45359237") * G / INCH**2,
    "bar": Fraction(100000),
    "mbar": Fraction(100),
    "inHg": Fraction("13595.1") * G * INCH,
    "mmHg": Fraction("13595.1") * G / 1000,
    "inH2O": 1000 * G * INCH,
    "mmH2O": G,
    "ftH2O": 1000 * G * 12 * INCH,
    "mH2O": 1000 * G,
    "kgf/cm2": G * 10000,
    "atm": Fraction(101325),
}


@pytest.mark.parametrize(("unit", "printed"), ROWS)
def test_a_printed_factor_is_its_definition_rounded(unit: str, printed: str) -> None:
    """Expected: exact fractions from the definitions, half a unit of the last printed digit."""
    mantissa, _, exponent = printed.replace(" ", "").partition("E")
    half_a_digit = Fraction(1, 2) * Fraction(10) ** (int(exponent) - len(mantissa.partition(".")[2]))
    assert abs(Fraction(mantissa) * Fraction(10) ** int(exponent) - DEFINED[unit]) <= half_a_digit
    assert printed_factor(unit) == float(Fraction(mantissa) * Fraction(10) ** int(exponent))


def test_a_unit_that_is_not_printed_is_refused() -> None:
    """Expected: all units of the table."""
    with pytest.raises(UnknownWordError, match=r"^pressure-unit-unknown "):
        printed_factor("furlong")


@pytest.mark.parametrize(
    ("altitude", "pascal", "kelvin"), [(0, 101325, 288.15), (1000, 89876, 281.65), (2000, 79501, 275.15)]
)
def test_the_air_at_an_altitude_is_as_printed(altitude: float, pascal: float, kelvin: float) -> None:
    """Expected: U.S. Standard Atmosphere 1976, table I, geometric altitude (republished), half a unit.

    The temperatures are printed to 0.01 K beside the geopotential altitude in two of the copies: 0.002 K at 1000 m.
    """
    assert pressure_pa(altitude) == pytest.approx(pascal, abs=0.5)
    assert temperature_k(altitude) == pytest.approx(kelvin, abs=0.005)


@pytest.mark.parametrize(("altitude", "kelvin"), [(500, 284.900), (3000, 268.659)])
def test_the_temperature_at_an_altitude_is_as_printed(altitude: float, kelvin: float) -> None:
    """Expected: U.S. Standard Atmosphere 1976, table I (from memory), half a unit of the last digit."""
    assert temperature_k(altitude) == pytest.approx(kelvin, abs=0.0005)


@pytest.mark.parametrize("altitude", range(-4000, 11001, 500))
def test_another_library_has_the_same_air(altitude: int) -> None:
    """Expected: the library fluids, a full implementation of the same standard."""
    theirs = ATMOSPHERE_1976(float(altitude))
    assert pressure_pa(altitude) == pytest.approx(theirs.P, rel=1e-9)
    assert temperature_k(altitude) == pytest.approx(theirs.T, rel=1e-9)


def test_the_altitude_is_geometric_not_geopotential() -> None:
    """Expected: 101325 (1 - 0.0065 H / 288.15)^5.25588 gives 89874.6 Pa at H = 1000 m; at Z = 1000 m it is 89876.3."""
    trap = 101325 * (1 - 0.0065 * 1000 / 288.15) ** 5.25588
    assert trap == pytest.approx(89874.6, abs=0.05)
    assert pressure_pa(1000) == pytest.approx(89876.3, abs=0.05)
    assert pytest.approx(5.25588, abs=5e-6) == EXPONENT


@pytest.mark.parametrize("altitude", [-5001, 11001, float("nan")])
def test_an_altitude_outside_the_lowest_layer_is_refused(altitude: float) -> None:
    """Expected: the range of validity."""
    for ask in (pressure_pa, temperature_k):
        with pytest.raises(RangeOfValidityError, match=r"^outside-range-of-validity "):
            ask(altitude)
