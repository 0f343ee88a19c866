"""A file of each schema version is kept for ever and must stay readable, with the same meaning."""

from __future__ import annotations

from pathlib import Path

from steadyhead.visit import load_visit
from steadyhead.visit.record import Action, Beyond, Declined, Figure, Interval, Signal, Tolerance, Word

SCHEMA_1 = Path(__file__).parent / "archive" / "schema_1.toml"
PSI = 0.45359237 * 9.80665 / 0.0254**2  # [Pa], from the definitions of pound, standard gravity and inch


def test_the_system_of_schema_1_is_read_as_it_was_written() -> None:
    """Expected: the file's own words, converted by the definitions of the units."""
    visit = load_visit(SCHEMA_1).visit
    assert visit.site.name == "Fernhill Row pump house"
    assert visit.site.altitude_m == 310
    assert visit.sensor.signal == Signal(kind="ratiometric", low=0.5, high=4.5, wires=3)
    assert abs(visit.sensor.range.high - 100 * PSI) < 1e-6
    assert visit.sensor.accuracy == 0.01
    assert visit.sensor.supply == Interval(5, 5)
    assert visit.cable.length_m == 12
    assert visit.controller.supply_limits == Interval(4.5, 5.25)
    assert visit.controller.input_resistance_ohm == 100e3
    assert (visit.controller.low_fault, visit.controller.high_fault) == (0.2, 4.8)
    assert (visit.controller.reference, visit.controller.on_signal_loss) == ("ratiometric", "stop")
    assert visit.place.walk_s == 120
    assert visit.place.cock is True
    assert visit.instruments.volts == Tolerance(0.005, 0.02, 0.01)
    assert visit.instruments.milliamps == Tolerance(0.01, 0.00002, 0.00001)
    assert visit.instruments.have == ("multimeter", "gauge", "spare-sensor")
    assert visit.labels == {"controller.supply": "V+", "wire.supply": "orange"}
    assert (visit.complaint.shown, visit.complaint.changed) == (("low-signal",), ("storm",))


def test_the_conductor_of_schema_1_is_22_awg() -> None:
    """Expected: 22 AWG is 0.326 mm2 (ASTM B258, from memory), to half of its last digit."""
    area = load_visit(SCHEMA_1).visit.cable.conductor_m2
    assert area is not None
    assert abs(area * 1e6 - 0.326) <= 0.0005


def test_the_readings_of_schema_1_are_read_as_they_were_written() -> None:
    """Expected: the file's own words."""
    gauge, volts, look, ohms, shown = load_visit(SCHEMA_1).visit.readings
    assert isinstance(gauge.value, Figure)
    assert abs(gauge.value.value - 48 * PSI) < 1e-6
    assert volts.value == Figure(1.12, "V", 0.01)
    assert (volts.red, volts.black, volts.arrangement, volts.drive) == (
        "controller.signal",
        "controller.common",
        "connected",
        "auto",
    )
    assert (look.item, look.value) == ("wiring-order", Word("right"))
    assert ohms.value == Beyond("above", None, "ohm")
    assert ohms.drive == "off"
    assert (shown.source, shown.drive) == (2.5, "stopped")


def test_what_was_declined_and_done_in_schema_1_is_read() -> None:
    """Expected: the file's own words."""
    visit = load_visit(SCHEMA_1).visit
    assert visit.declined == (
        Declined(measure="ohms", arrangement="dead-looped", red="wire.supply", black="wire.signal"),
    )
    assert visit.actions == (Action(remedy="repair-cable", after_reading=3),)
