"""A meter at a plug that is on touches the sensor's pins or the cable's contacts: which, nobody writes down."""

from __future__ import annotations

from steadyhead.diagnosis.belief import believe
from steadyhead.diagnosis.cells import cells
from steadyhead.diagnosis.observing import observations
from tests.diagnosis.test_one_fault_not_two import COMMON, FIXED, METER, SIGNAL
from tests.diagnosis.test_restarts import shares
from tests.diagnosis.visits import BOOSTER, FULL_VAN, gauge, reading, system, volts


def test_a_plug_that_lets_go_is_no_shorted_sensor() -> None:
    """Contacts with 5.02 V and 0.31 V while the plug is off, and nothing at the sensor's pins once it is on.

    A meter at a plug that is on touches the pins, by a breakout lead or on the transducer's own leads, or the contacts.
    """
    found = shares(
        FIXED + METER + gauge("52 psi")
        + reading("displayed-pressure", "-5 psi") + reading("displayed-fault", "none")
        + volts("sensor.supply", "sensor.common", "5.020 V", "sensor-unplugged")
        + volts("sensor.signal", "sensor.common", "0.310 V", "sensor-unplugged")
        + volts("sensor.supply", "sensor.signal", "4.670 V", "sensor-unplugged")
        + volts("sensor.supply", "sensor.signal", "-0.010 V") + volts("sensor.supply", "sensor.common", "0.000 V")
        + reading("displayed-signal", "0.30 V")
    )  # fmt: skip
    plug = found.get("cable-cut", 0.0) + found.get("open-supply", 0.0)
    assert plug > 0.5, sorted(found.items(), key=lambda item: -item[1])[:4]


def test_all_volts_across_its_pins_speak_for_an_open_sensor_against_its_plug() -> None:
    """All of 24 V across a two-wire sensor: an open one has them at its pins too, an open plug at contacts alone."""
    text = BOOSTER + FULL_VAN + gauge("60 psi") + reading("displayed-fault", "low-signal")
    told = system(text + volts(SIGNAL, COMMON, "0.00 V") + volts("sensor.supply", "sensor.signal", "24.0 V"))
    after = believe(told, cells(told), observations(told)).after
    plug = {("open-supply", "plug:mating"), ("open-signal", "plug:mating")}
    open_sensor = sum(w.share for w in after if w.cell.fault == "sensor-open")
    assert open_sensor > 1.5 * sum(w.share for w in after if w.cell.key in plug)
