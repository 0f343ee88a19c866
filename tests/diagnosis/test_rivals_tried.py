"""Suspects that were never looked at where they fit: behind a pull-up, a supply that gives way, a size far off."""

from __future__ import annotations

from tests.diagnosis.test_restarts import shares
from tests.diagnosis.visits import BARE_HOUSE, BOOSTER, FULL_VAN, HOUSE, gauge, reading, volts

SUPPLY, SIGNAL, COMMON = "controller.supply", "controller.signal", "controller.common"


def best(found: dict[str, float]) -> list[tuple[str, float]]:
    """Return the first suspects, for a message."""
    return sorted(found.items(), key=lambda item: -item[1])[:4]


def test_a_pull_up_that_shows_without_the_sensor_excludes_nothing_but_what_it_contradicts() -> None:
    """A closed form: 5 V over 560 and 150 kohm leave 1.06 V at an input that nothing drives, whatever the sensor is."""
    found = shares(
        BARE_HOUSE.replace("100 psi", "145 psi") + 'accuracy = "1 %"\nsupply = "5 V"\n' + FULL_VAN + gauge("40 psi")
        + reading("displayed-pressure", "139 psi") + reading("displayed-fault", "none")
        + reading("displayed-signal", "4.33 V") + volts("sensor.supply", "sensor.common", "4.88 V")
        + volts("sensor.supply", "sensor.signal", "0.57 V") + volts("sensor.signal", "sensor.common", "4.31 V")
        + volts("sensor.signal", "sensor.common", "1.06 V", "sensor-unplugged")
        + volts("sensor.supply", "sensor.signal", "3.81 V", "sensor-unplugged")
        + volts(SIGNAL, COMMON, "1.06 V", "sensor-unplugged")
    )  # fmt: skip
    assert found.get("sensor-high", 0.0) > 0.3, best(found)
    assert found.get("open-common", 0.0) < 0.3


def test_a_shorted_input_is_told_beside_an_open_sensor_whatever_the_supply_idles_at() -> None:
    """Ohm's law: 17 mA through 1.5 ohm are 26 mV, which a sensor that lets 0.1 mA through leaves over 250 ohm too."""
    found = shares(
        BOOSTER + FULL_VAN + gauge("81 psi") + reading("displayed-pressure", "-24.4 psi")
        + reading("displayed-fault", "low-signal") + volts(SUPPLY, SIGNAL, "30.3 V") + volts(SIGNAL, COMMON, "0.026 V")
        + volts("sensor.supply", "sensor.signal", "30.3 V")
        + reading("displayed-pressure", "-24.4 psi", arrangement="temporary-cable")
    )  # fmt: skip
    assert found.get("controller-input-dead", 0.0) > 0.02, best(found)


def test_a_low_supply_is_told_beside_a_pull_up_on_a_supply_of_its_own() -> None:
    """The signal's wire at 4.1 V, the sensor's power at 2.5 V with nothing on it: a pull-up to another 5 V."""
    found = shares(
        BARE_HOUSE.replace("100 psi", "300 psi") + '[controller]\ninput_resistance = "470 kohm"\n'
        + 'scaled = "0..300 psi"\n' + FULL_VAN + gauge("90 psi") + reading("displayed-pressure", "-31.5 psi")
        + reading("displayed-fault", "low-signal")
        + volts("sensor.supply", "sensor.signal", "2.48 V") + volts("sensor.supply", "sensor.common", "2.51 V")
        + volts("sensor.supply", "sensor.signal", "-1.59 V", "sensor-unplugged")
        + volts("sensor.supply", "sensor.signal", "-1.59 V", "sensor-unplugged")
        + volts("sensor.supply", "sensor.common", "2.53 V", "sensor-unplugged")
        + volts(SUPPLY, COMMON, "2.53 V", "sensor-leads-lifted")
    )  # fmt: skip
    assert found.get("controller-supply-low", 0.0) > 0.3, best(found)


def test_a_path_that_was_measured_is_not_a_slip_while_a_supply_that_folds_back_explains_the_rest() -> None:
    """Ohm's law: 76 ohm across the output take all that it drives; what is asked of the supply folds it back."""
    text = HOUSE.replace('input_resistance = "100 kohm"\n', "").replace('scaled = "0..100 psi"\n', "")
    found = shares(
        text + FULL_VAN + gauge("35 psi") + reading("displayed-pressure", "-11.9 psi")
        + reading("displayed-fault", "low-signal") + volts(SUPPLY, COMMON, "2.66 V") + volts(SUPPLY, COMMON, "2.66 V")
        + volts(SIGNAL, COMMON, "0.01 V") + volts(SUPPLY, COMMON, "5.11 V", "supply-terminal-clear")
        + volts(SUPPLY, COMMON, "5.10 V", "sensor-unplugged")
        + reading("ohms", "76.2 ohm", arrangement="dead-both-free", red="wire.signal", black="wire.common")
        + reading("displayed-pressure", "0.0 psi", arrangement="spare-at-controller")
        + reading("inspection", "right", item="wiring-order")
    )  # fmt: skip
    across = found.get("short-signal-common", 0.0) + found.get("leakage-signal-common", 0.0)
    assert across > 0.5, best(found)


def test_a_converter_may_be_off_by_a_shift_and_by_a_factor() -> None:
    """A closed form: 4.5 V shown as 132 psi, 0.5 V as -25 psi of 200: a factor of 0.785, a shift of an eighth."""
    found = shares(
        BARE_HOUSE.replace("100 psi", "200 psi") + '[controller]\nsupply = "5 V"\nreference = "fixed"\n' + FULL_VAN
        + gauge("37 psi") + reading("displayed-pressure", "4 psi") + volts("sensor.supply", "sensor.signal", "3.77 V")
        + volts("sensor.signal", "sensor.common", "1.24 V") + reading("inspection", "right", item="range-setting")
        + reading("displayed-pressure", "132 psi", arrangement="source-at-controller", source="4.5 V")
        + reading("displayed-pressure", "-25 psi", arrangement="source-at-controller", source="0.5 V")
    )  # fmt: skip
    assert found.get("controller-input-shifted", 0.0) > 0.5, best(found)


def test_figures_that_jump_together_are_one_surprise() -> None:
    """Ohm's law on a supply that starts again and again: 45 mA through 75 ohm and 250 are 3.4 and 11.2 V at its height.

    Every figure jumps since the supply does; that is no reason to doubt a shorted sensor seven times over.
    """
    found = shares(
        BOOSTER + FULL_VAN + gauge("32 psi") + reading("displayed-pressure", "-25..113 psi jumping")
        + reading("displayed-fault", "high-signal") + volts(SIGNAL, COMMON, "0.00..11.2 V jumping")
        + volts(SUPPLY, SIGNAL, "0.00..3.4 V jumping") + volts(SUPPLY, COMMON, "0.00..14.6 V jumping")
        + volts(SUPPLY, COMMON, "24.1 V", "sensor-unplugged")
        + volts("sensor.supply", "sensor.signal", "0.00..3.3 V jumping")
    )  # fmt: skip
    assert found.get("sensor-shorted", 0.0) > 0.2, best(found)


def test_an_input_that_was_burnt_off_is_one_fault() -> None:
    """Kirchhoff: a sound sensor lifts the open terminal until something there clamps it; the converter sees none."""
    found = shares(
        BOOSTER + FULL_VAN + gauge("24 psi") + reading("displayed-pressure", "-25 psi")
        + reading("displayed-fault", "low-signal") + volts(SUPPLY, SIGNAL, "15.4 V") + volts(SIGNAL, COMMON, "8.6 V")
    )  # fmt: skip
    assert found.get("controller-input-dead", 0.0) > 0.2, best(found)
