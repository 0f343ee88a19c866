"""What was built or set so: where the pipe is tapped, under which unit a figure stands, where a screen is tied."""

from __future__ import annotations

import pytest

from steadyhead.diagnosis.cells import Part
from steadyhead.diagnosis.inspections import INSPECTIONS
from steadyhead.loop.fault_controller import TOO_LARGE, UNITS
from steadyhead.loop.faults import ELSEWHERE
from tests.diagnosis.test_restarts import shares
from tests.diagnosis.test_rivals_tried import best
from tests.diagnosis.visits import BARE_BOOSTER, BOOSTER, HOUSE, VAN, gauge, reading, volts

SUPPLY, SIGNAL, COMMON = "controller.supply", "controller.signal", "controller.common"
#: Factors between units by NIST SP 811: psi in a bar, feet of water and kPa in a psi, metres of water in a bar.
NIST = {14.5038, 2.3067, 6.8948, 10.1974}
NOISY = (
    BARE_BOOSTER + VAN + gauge("4.5 bar") + reading("displayed-pressure", "4.0..5.1 bar jumping")
    + reading("displayed-fault", "none") + volts(SIGNAL, COMMON, "2.61..2.95 V jumping")
)  # fmt: skip


@pytest.mark.parametrize(
    ("shown", "least"),
    [("725 psi", 0.5), ("344.7 psi", 0.5), ("115.4 psi", 0.1)],
    ids=["psi-as-bar", "kpa-as-psi", "feet-as-psi"],
)
def test_a_figure_under_another_unit_is_found_whatever_the_unit(shown: str, least: float) -> None:
    """50 psi are 12 mA of this sensor; the display says so many times as much, and twice: no slip does that.

    Twice as much may be another signal's setting too, fourteen times nothing else.
    """
    figure = reading("displayed-pressure", shown)
    found = shares(
        BOOSTER + VAN + gauge("50 psi") + figure + volts(SIGNAL, COMMON, "3.00 V") + figure
        + reading("milliamps", "12.0 mA", arrangement="meter-in-signal")
    )  # fmt: skip
    assert found["setting-unit"] > least, best(found)


def test_units_are_wrong_by_factors_that_a_table_has() -> None:
    """Each factor and its inverse; together they are all of the fault."""
    assert {round(max(f, 1.0 / f), 4) for f in TOO_LARGE.values()} == NIST
    assert [name for name, _ in UNITS] == list(TOO_LARGE)
    assert sum(share for _, share in UNITS) == pytest.approx(1.0)


def test_before_a_reducing_valve_a_sensor_may_see_half_its_range_more() -> None:
    """Both gauges say 90 psi, the loop 238 of 300, and nothing of the cable moves it: the tapping is looked at."""
    found = shares(
        BARE_BOOSTER.replace("10 bar", "300 psi") + VAN + gauge("90 psi") + reading("displayed-pressure", "238 psi")
        + reading("gauge-pressure", "90 psi", whose="own") + reading("displayed-fault", "none")
        + volts(SUPPLY, COMMON, "23.8 V") + volts(SIGNAL, COMMON, "0.002 V", "sensor-unplugged")
        + reading("milliamps", "16.7 mA", arrangement="meter-in-signal")
    )  # fmt: skip
    assert found["tap-wrong-side"] > 0.08, best(found)
    assert ELSEWHERE.high > (238 - 90) / 300


def test_a_column_that_falls_back_draws_the_sensor_down_and_never_up() -> None:
    """The gauge at nothing and the sensor at a third of its range, which a vent lets go: water is shut in."""
    found = shares(
        HOUSE.replace("100 psi", "300 psi") + VAN + gauge("0 psi on its stop pin")
        + reading("displayed-pressure", "106 psi") + reading("displayed-fault", "none")
        + reading("displayed-pressure", "0 psi", arrangement="vented")
        + reading("gauge-pressure", "0 psi on its stop pin", whose="own") + volts(SIGNAL, COMMON, "1.913 V")
    )  # fmt: skip
    assert found["sensor-cock-shut"] > 0.5, best(found)


def test_where_wires_land_tells_a_screen_that_is_tied_twice_from_a_cable_beside_the_motors_leads() -> None:
    """The looks' own chances, and a false alarm of one in forty."""

    def odds(text: str) -> float:
        found = shares(text)
        return found["shield-looped"] / found["noise-pickup"]

    landed = reading("inspection", "wrong", item="wiring-order", drive="stopped")
    along = reading("inspection", "wrong", item="cable-routing", drive="stopped")
    first = odds(NOISY)
    assert odds(NOISY + landed) == pytest.approx(first * 0.4 / 0.025, rel=0.02)
    assert odds(NOISY + along) == pytest.approx(first * 0.3 / 0.8, rel=0.02)
    assert INSPECTIONS["wiring-order"].finds(Part("noise-pickup", "", 0.0, 0.0)) == 0.0
