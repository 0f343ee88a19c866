"""No remedy is proved whose faults leave a figure far off: the real fault may be one that was not thought of."""

from __future__ import annotations

from steadyhead.diagnosis.belief import Weighed
from steadyhead.diagnosis.cells import Cell, Part
from steadyhead.diagnosis.diagnose import diagnose
from steadyhead.diagnosis.makes import COMMON, Latents
from steadyhead.diagnosis.verdict import FAR_OFF, explained_badly
from steadyhead.visit import parse_visit
from tests.diagnosis.visits import BARE_HOUSE, FULL_VAN, gauge, reading, volts

SUPPLY, SIGNAL = "controller.supply", "controller.signal"


def held(fault: str, remedy: str, share: float, *misfits: float) -> Weighed:
    """Return a cell with its share, and how far off it leaves the readings."""
    cell = Cell(fault, remedy, (Part(fault, "", 0.0, 0.0),), 1.0, COMMON[0])
    return Weighed(cell, share, Latents(), tuple(enumerate(misfits)))


def test_it_is_the_best_remedys_own_faults_that_must_explain_each_figure() -> None:
    """A rival's figures prove nothing against it; shares weigh what its faults leave."""
    good, bad = FAR_OFF - 0.5, FAR_OFF + 0.5
    sensor = held("sensor-low", "replace-sensor", 0.6, good, 0.1)
    other = held("sensor-open", "replace-sensor", 0.3, good, 0.1)
    rival = held("open-signal", "repair-cable", 0.1, bad, bad)
    assert not explained_badly([sensor, other, rival], "replace-sensor")
    assert explained_badly([sensor, other, rival], "repair-cable")
    assert not explained_badly([sensor, held("sensor-open", "replace-sensor", 0.3, bad)], "replace-sensor")
    assert explained_badly([sensor, held("sensor-open", "replace-sensor", 0.3, 3 * bad)], "replace-sensor")
    assert not explained_badly([held("none", "none", 1.0)], "none")


def test_a_joint_that_starves_a_sensor_is_not_proved_a_short_in_it() -> None:
    """Ohm's law: 2.34 mA over 1346 ohm in the common wire leave the pins 1.88 of 5.03 V, and lift the signal to 2.7 V.

    Which device a sensor is that has too few volts decides whether a short explains the same: it does, nearly.
    """
    pins = volts("sensor.supply", "sensor.common", "1.876 V")
    found = diagnose(
        parse_visit(
            BARE_HOUSE.replace("100 psi", "10 bar")
            + '[controller]\nsupply = "5 V"\nscaled = "0..10 bar"\n' + FULL_VAN
            + gauge("7.45 bar") + reading("displayed-pressure", "5.51 bar") + reading("displayed-fault", "none")
            + volts(SIGNAL, "controller.common", "2.705 V", "vented")
            + volts(SIGNAL, "controller.common", "0.000 V", "sensor-unplugged")
            + volts(SUPPLY, "controller.common", "5.029 V", "sensor-unplugged")
            + reading("inspection", "right", item="port", drive="off")
            + volts("sensor.supply", "sensor.signal", "4.940 V", "sensor-unplugged")
            + volts("sensor.supply", "sensor.common", "5.023 V", "sensor-unplugged")
            + pins + pins
        ).visit
    )  # fmt: skip
    assert found.verdict.state != "proved" or found.verdict.remedy == "repair-cable", found.verdict
