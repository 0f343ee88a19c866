"""A display that stops at the ends of its scale, and a converter that sees no more past the signal's end."""

from __future__ import annotations

import pytest

from steadyhead.diagnosis.clamped import as_shown, past_converter
from steadyhead.diagnosis.makes import COMMON, screen
from steadyhead.diagnosis.observing import observations
from tests.diagnosis.test_restarts import shares
from tests.diagnosis.visits import BOOSTER, FULL_VAN, HOUSE, gauge, reading, system, volts

PSI = 6894.757293168361  #: Pa, NIST SP 811 appendix B (from memory)
SUPPLY, SIGNAL, COMMON_ = "controller.supply", "controller.signal", "controller.common"
CLAMPED = 'scaled = "0..100 psi"\ndisplay = "clamped"\n'
STOPS = HOUSE.replace('scaled = "0..100 psi"\n', CLAMPED)
LOOP_STOPS = BOOSTER.replace('scaled = "0..100 psi"\n', CLAMPED)


def test_a_clamped_display_at_its_lower_end_says_that_the_pressure_lies_there_or_below() -> None:
    """No current in 250 ohm is 25 psi below zero on a display that goes on, and 0 psi on one that stops."""
    found = shares(
        LOOP_STOPS + FULL_VAN + gauge("68 psi") + reading("displayed-pressure", "0 psi")
        + reading("displayed-fault", "low-signal") + volts(SIGNAL, COMMON_, "0.00 V")
        + volts(SUPPLY, SIGNAL, "24.1 V")
    )  # fmt: skip
    broken = sum(found.get(fault, 0.0) for fault in ("cable-cut", "open-supply", "open-signal", "sensor-open"))
    assert broken > 0.75, sorted(found.items(), key=lambda item: -item[1])[:4]


@pytest.mark.parametrize(("shown", "side"), [("0 psi", "below"), ("0.3 psi", "below"), ("100 psi", "above")])
def test_a_figure_at_an_end_is_one_past_it(shown: str, side: str) -> None:
    """Half a count of a display in psi about its end."""
    (seen,) = observations(system(STOPS + FULL_VAN + reading("displayed-pressure", shown)))
    assert seen.side == side


@pytest.mark.parametrize("shown", ["3 psi", "97 psi"])
def test_a_figure_between_the_ends_is_a_figure(shown: str) -> None:
    """It is what the display makes of the signal."""
    (seen,) = observations(system(STOPS + FULL_VAN + reading("displayed-pressure", shown)))
    assert seen.side == ""
    assert seen.value == pytest.approx(float(shown.split(maxsplit=1)[0]) * PSI)


def test_a_display_that_goes_on_has_no_ends() -> None:
    """The default of the file: below zero and past full scale along the line."""
    (seen,) = observations(system(HOUSE + FULL_VAN + reading("displayed-pressure", "-12 psi")))
    assert (seen.side, seen.value) == ("", -12.0 * PSI)
    assert as_shown(system(HOUSE), "displayed-pressure", -12.0 * PSI) == -12.0 * PSI


def test_what_is_foretold_of_a_clamped_display_stops_too() -> None:
    """12 psi below zero is zero; volts and raw signals have no such ends."""
    told = system(STOPS)
    assert as_shown(told, "displayed-pressure", -12.0 * PSI) == 0.0
    assert as_shown(told, "displayed-pressure", 130.0 * PSI) == pytest.approx(100.0 * PSI)
    assert as_shown(told, "displayed-signal", 5.3) == 5.3


def test_a_figure_past_the_signals_end_may_be_where_the_converter_stops() -> None:
    """21.7 mA of 90 are as likely where the converter stops as anywhere there; 12 mA are within the signal: no end."""
    loop = screen(system(BOOSTER), COMMON[0], 250.0)
    assert past_converter(loop, "displayed-signal", 0.0217, 0.090, 1e-8) is not None
    assert past_converter(loop, "displayed-signal", 0.012, 0.090, 1e-8) is None
    assert past_converter(loop, "displayed-signal", 0.0217, 0.0217, 1e-8) is None
    assert past_converter(loop, "displayed-signal", 0.0217, 0.020, 1e-8) is None
    assert past_converter(loop, "volts", 0.0217, 0.090, 1e-8) is None


def test_a_shorted_sensor_is_not_doubted_since_the_display_stops_at_22_milliamperes() -> None:
    """Ohm's law: 88 mA through 250 ohm are 22 V, and 0.4 V over 4.5 ohm; a converter sees a tenth more than 20."""
    found = shares(
        BOOSTER + FULL_VAN + gauge("40 psi") + reading("displayed-pressure", "110.6 psi")
        + reading("displayed-fault", "high-signal") + reading("displayed-signal", "21.7 mA")
        + volts(SUPPLY, SIGNAL, "0.40 V") + volts(SIGNAL, COMMON_, "22.0 V")
        + volts(SUPPLY, COMMON_, "24.0 V", "sensor-unplugged")
    )  # fmt: skip
    pairs = sum(share for fault, share in found.items() if "+" in fault)
    assert found.get("sensor-shorted", 0.0) > 0.5, sorted(found.items(), key=lambda item: -item[1])[:4]
    assert pairs < 0.3
