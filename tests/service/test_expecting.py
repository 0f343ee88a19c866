"""What should be read: the plate's straight line, exactly, and bands that hold it."""

from __future__ import annotations

from fractions import Fraction
from math import isclose

import pytest

from steadyhead.errors import QuantityError
from steadyhead.service.expecting import expect, expectation_json
from steadyhead.visit import parse_visit
from steadyhead.visit.record import Visit

RELATIVE = 1e-12  #: a few roundings of double precision


def visit(signal: str, range_: str, more: str = "") -> Visit:
    """Return a visit with this plate."""
    return parse_visit(f'schema = 1\n[sensor]\nsignal = "{signal}"\nrange = "{range_}"\n{more}').visit


@pytest.mark.parametrize("k", range(11))
def test_the_table_is_the_plates_straight_line(k: int) -> None:
    """Exact arithmetic: 0.5 V + 4 V x k/10 at 150 psi x k/10."""
    step = expectation_json(expect(visit("0.5..4.5 V ratiometric", "0..150 psi")), "psi")["table"][k]
    part = Fraction(k, 10)
    assert isclose(step["signal"], float(Fraction(1, 2) + 4 * part), rel_tol=RELATIVE)
    assert isclose(step["pressure"], float(150 * part), rel_tol=RELATIVE, abs_tol=RELATIVE)


def test_a_current_over_its_resistor_is_told_in_volts() -> None:
    """Ohm's law: 12 mA x 250 ohm = 3 V at half range."""
    found = visit("4..20 mA", "0..10 bar", '[controller]\ninput_resistance = "250 ohm"\n')
    assert isclose(expectation_json(expect(found), "bar")["table"][5]["volts_at_input"], 3.0, rel_tol=RELATIVE)


def test_a_wrong_range_setting_shows_in_the_display_column() -> None:
    """Exact arithmetic: half the signal of a 0..100 psi sensor shows 72.5 psi on a drive set to 0..145 psi."""
    found = visit("0.5..4.5 V ratiometric", "0..100 psi", '[controller]\nscaled = "0..145 psi"\n')
    assert isclose(expectation_json(expect(found), "psi")["table"][5]["display"], 72.5, rel_tol=RELATIVE)


def test_the_band_of_a_healthy_signal_holds_the_plates_figure() -> None:
    """Exact arithmetic: 0.5 V + 4 V x 48/100 = 2.42 V."""
    found = expectation_json(expect(visit("0.5..4.5 V ratiometric", "0..100 psi"), "48 psi"), "psi")
    band = found["expected"]["controller.signal"]
    assert band["low"] < 2.42 < band["high"]
    assert found["display"]["low"] < 48 < found["display"]["high"]


def test_without_a_pressure_there_are_no_bands() -> None:
    """Nobody read a gauge here."""
    found = expectation_json(expect(visit("4..20 mA", "0..10 bar")), "bar")
    assert (found["pressure"], found["expected"], found["display"]) == (None, {}, None)
    assert len(found["table"]) == 11


def test_a_given_pressure_wins_over_the_gauge() -> None:
    """The figures given here."""
    reading = '[[reading]]\nmeasure = "gauge-pressure"\nvalue = "2 bar"\n'
    found = visit("4..20 mA", "0..10 bar", reading)
    assert expect(found).pressure_pa == 2e5
    assert expect(found, "3 bar").pressure_pa == 3e5


def test_a_pressure_without_its_unit_is_refused() -> None:
    """A bare number is refused everywhere."""
    with pytest.raises(QuantityError, match="unit-missing"):
        expect(visit("4..20 mA", "0..10 bar"), "3")


@pytest.mark.parametrize(
    ("range_", "reference", "unit"),
    [
        ("0..100 psi", "gauge", "psi"),
        ("0..160 psig", "gauge", "psi"),
        ("0..10 bar", "gauge", "bar"),
        ("0..10 bara", "absolute", "bar"),
        ("0..150 psia", "absolute", "psi"),
        ("0..1000 kPa abs", "absolute", "kPa"),
        ("0..70 m of water", "gauge", "mH2O"),
    ],
)
def test_pressures_are_said_in_the_unit_of_the_plate(range_: str, reference: str, unit: str) -> None:
    """The plate's own spelling; of an absolute unit the gauge one."""
    text = f'schema = 1\n[sensor]\nsignal = "4..20 mA"\nrange = "{range_}"\nreference = "{reference}"\n'
    assert parse_visit(text).visit.pressure_unit == unit
