"""Healthy supplies: about what the plate says, idle well above it, or another one where nobody said which."""

from __future__ import annotations

import pytest

from steadyhead.diagnosis.sensor_power import supply_slope, supply_volts
from tests.diagnosis.test_restarts import shares
from tests.diagnosis.visits import (
    BARE_AMPLIFIED,
    BARE_BOOSTER,
    BARE_HOUSE,
    BOOSTER,
    FULL_VAN,
    gauge,
    reading,
    system,
    volts,
)

SUPPLY, SIGNAL, COMMON = "controller.supply", "controller.signal", "controller.common"


def test_a_24_volt_supply_that_idles_at_30_is_not_bad() -> None:
    """Common practice: without regulation 24 V idle at 28 to 32 V. 12 mA over 250 ohm are 3 V: 27 are left of 30."""
    found = shares(
        BOOSTER + FULL_VAN + gauge("50 psi") + reading("displayed-pressure", "50.3 psi")
        + volts(SUPPLY, COMMON, "30.0 V") + volts(SIGNAL, COMMON, "3.01 V") + volts(SUPPLY, SIGNAL, "27.0 V")
    )  # fmt: skip
    assert found.get("none-of-these", 0.0) < 0.1, sorted(found.items(), key=lambda item: -item[1])[:4]
    assert found["none"] > 0.5


def test_a_regulated_supply_of_5_volts_does_not_idle_higher() -> None:
    """A ratiometric sensor's supply is a regulator's: 2.5 % a deviation, both ways."""
    told = system(BARE_HOUSE)
    assert supply_volts(told, 2.0) - 5.0 == pytest.approx(5.0 - supply_volts(told, -2.0))


def test_limits_tell_what_the_supply_is_where_nobody_gave_its_volts() -> None:
    """9.6 to 14.4 V are those of 12; 19.2 to 33.6 V hold 24, the usual one, and tell how high it may idle."""
    twelve = system(BARE_AMPLIFIED + '[controller]\nsupply_limits = "9.6..14.4 V"\n')
    idling = system(BARE_BOOSTER + '[controller]\nsupply_limits = "19.2..33.6 V"\n')
    assert twelve.supply_v == pytest.approx(12.0)
    assert idling.supply_v == 24.0
    assert supply_volts(idling, 2.5) == pytest.approx(33.6)


def test_12_volts_for_a_voltage_sensor_are_another_supply_and_no_fault() -> None:
    """Common practice: 0 to 10 V sensors are fed with 12 V as well as with 24. At 40 % of its range one gives 4 V."""
    found = shares(
        BARE_AMPLIFIED + FULL_VAN + gauge("4.0 bar") + reading("displayed-pressure", "4.0 bar")
        + volts(SUPPLY, COMMON, "12.1 V") + volts(SIGNAL, COMMON, "4.0 V")
    )  # fmt: skip
    board = sum(share for fault, share in found.items() if "controller-supply" in fault or "other-load" in fault)
    assert found["none"] > 0.5, sorted(found.items(), key=lambda item: -item[1])[:4]
    assert board < 0.15


@pytest.mark.parametrize("text", [BARE_HOUSE, BARE_BOOSTER, BARE_AMPLIFIED])
@pytest.mark.parametrize("z", [-2.5, -1.2, -0.5, 0.0, 0.9, 1.1, 2.6])
def test_the_slope_is_the_curves_own(text: str, z: float) -> None:
    """A difference quotient of the volts, within one straight piece."""
    told = system(text)
    found = (supply_volts(told, z + 1e-6) / supply_volts(told, z) - 1.0) / 1e-6
    assert supply_slope(told, z) == pytest.approx(found, rel=1e-5)


@pytest.mark.parametrize("text", [BARE_HOUSE, BARE_BOOSTER, BARE_AMPLIFIED])
def test_more_deviations_are_more_volts(text: str) -> None:
    """One latent moves all of it, so the volts must rise with it everywhere."""
    told = system(text)
    curve = [supply_volts(told, 0.1 * k) for k in range(-35, 36)]
    assert curve == sorted(curve)


def test_two_readings_of_12_volts_are_no_more_a_fault_than_one() -> None:
    """Nobody named the power of a 1 to 5 V sensor: 12 % of 4 V above 1 V are 1.48 V, as its gauge says."""
    text = BARE_AMPLIFIED.replace("0..10 V", "1..5 V").replace("10 bar", "100 psi") + FULL_VAN
    text += gauge("12 psi") + reading("displayed-pressure", "12 psi") + volts(SUPPLY, COMMON, "11.80 V")
    text += volts(SIGNAL, COMMON, "1.486 V")
    for bare in ("11.95 V", "12.05 V"):
        found = shares(text + volts(SUPPLY, COMMON, bare, "sensor-unplugged"))
        assert found["none"] > 0.3, sorted(found.items(), key=lambda item: -item[1])[:4]
        assert found["controller-supply-low"] < 0.1
