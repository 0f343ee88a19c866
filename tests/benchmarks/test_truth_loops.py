"""The benchmark's own truth must be true: tidy loops against published scalings and closed forms."""

from dataclasses import replace
from random import Random

import pytest

from benchmarks.truth.case import Case, Leak
from benchmarks.truth.fixed_order import number
from benchmarks.truth.wiring_faults import break_open
from benchmarks.truth.witness import CannotAnswerError, Witness
from tests.benchmarks.tidy import need_ngspice, tidy

pytestmark = pytest.mark.ngspice

TWO_COUNTS_V = 0.002
LEAST_RESISTANCE_V = 0.005  # supply and cable resistances of the tidy loop, some 0.3 ohm, at some 10 mA


@pytest.fixture(autouse=True)
def _ngspice() -> None:
    need_ngspice()


def volts(case: Case, red: str, black: str, arrangement: str = "connected") -> float:
    """Return volts between two points."""
    check = {"measure": "volts", "red": red, "black": black, "arrangement": arrangement}
    return number(Witness(case, "test").ask(check).value)


def test_half_the_range_of_a_ratiometric_sensor_reads_two_and_a_half_volts() -> None:
    """P = FS (V/Vs - 0.1)/0.8: 2.500 V at half scale and 5.000 V; common practice, no public standard found."""
    read = volts(tidy("three-wire", 50.0), "controller.signal", "controller.common")
    assert read == pytest.approx(2.5, abs=LEAST_RESISTANCE_V + TWO_COUNTS_V)


def test_a_sagging_supply_takes_a_ratiometric_signal_down_with_it() -> None:
    """The same sensor at Vs = 4.800 V gives 2.400 V, and a fixed 5 V input shows 2.5 % of the range less."""
    case = tidy("three-wire", 50.0)
    case = replace(case, supply=replace(case.supply, volts=4.8))
    assert volts(case, "controller.signal", "controller.common") == pytest.approx(2.4, abs=0.006)
    shown = number(Witness(case, "test").ask({"measure": "displayed-pressure"}).value)
    assert shown == pytest.approx(47.5, abs=0.25)


@pytest.mark.parametrize(("psi", "milliamps"), [(0, 4), (25, 8), (50, 12), (75, 16), (100, 20)])
def test_a_current_loop_follows_the_published_scaling(psi: float, milliamps: float) -> None:
    """I = 4 + 16 x: 4, 8, 12, 16, 20 mA; IEC 60381-1:1982, ANSI/ISA-50.00.01, from memory."""
    case = tidy("two-wire", psi)
    case = replace(case, input=replace(case.input, ohm=250.0, nominal_ohm=250.0))
    read = Witness(case, "test").ask({"measure": "milliamps", "arrangement": "meter-in-signal"}).value
    assert number(read) * 1e3 == pytest.approx(milliamps, abs=0.03)
    assert volts(case, "controller.signal", "controller.common") == pytest.approx(0.25 * milliamps, abs=0.008)


def test_the_loop_drop_of_a_long_pair_is_the_one_of_the_wire_table() -> None:
    """300 m of AWG 18 pair at 20 mA: 12.57 ohm, 0.251 V; computed from NBS Handbook 100's resistance per length."""
    case = tidy("two-wire", 100.0)
    long = {name: replace(part, run_ohm=12.57 / 2) for name, part in case.cable.conductors.items()}
    case = replace(case, cable=replace(case.cable, conductors=long))
    at_panel = volts(case, "controller.supply", "controller.signal")
    at_sensor = volts(case, "sensor.supply", "sensor.signal")
    assert at_panel - at_sensor == pytest.approx(0.251, abs=0.02)


def test_a_shorted_pair_pulls_the_supply_down_until_the_leads_are_lifted() -> None:
    """A 1 ohm short at a 0.3 A soft limit leaves about 0.3 V; lifted, the nominal 5 V stand again: Ohm's law."""
    case = tidy("three-wire", 50.0)
    short = Leak(a="supply", b="common", place="terminal", ohm=1.0)
    case = replace(case, cable=replace(case.cable, leaks=(short,)))
    assert 0.25 < volts(case, "controller.supply", "controller.common") < 0.4
    assert volts(case, "controller.supply", "controller.common", "sensor-leads-lifted") == pytest.approx(5.0, abs=0.01)


def test_an_open_signal_wire_leaves_the_input_at_its_common_and_the_sensor_at_its_signal() -> None:
    """No current, no volts across the input's resistance; the sensor's own pin keeps 2.5 V (common practice)."""
    case = break_open(tidy("three-wire", 50.0), "open-signal", "run", Random(1))  # noqa: S311 - draws a place, keeps no secret
    assert volts(case, "controller.signal", "controller.common") == pytest.approx(0.0, abs=TWO_COUNTS_V)
    assert volts(case, "sensor.signal", "sensor.common") == pytest.approx(2.5, abs=0.01)
    ends = {"measure": "ohms", "arrangement": "dead-both-free", "red": "wire.signal", "black": "sensor.signal"}
    assert Witness(case, "test").ask(ends).value == "OL"


def test_the_meter_loads_what_it_measures() -> None:
    """Behind a 1 Mohm joint a 10 Mohm meter beside a 1 Mohm input reads V x (10/11)/(10/11 + 1): a divider."""
    case = tidy("three-wire", 50.0)
    wires = {**case.cable.conductors}
    wires["signal"] = replace(wires["signal"], run_ohm=1e6)
    case = replace(case, cable=replace(case.cable, conductors=wires, insulation_ohm=1e12))
    case = replace(case, input=replace(case.input, ohm=1e6, nominal_ohm=1e6))
    both = 10 / 11
    read = volts(case, "controller.signal", "controller.common")
    assert read == pytest.approx(2.5 * both / (both + 1), abs=0.008)


@pytest.mark.parametrize("leak_ohm", [4700.0, 47000.0])
def test_the_ohmmeter_reads_a_bridge_between_two_free_conductors(leak_ohm: float) -> None:
    """A known resistor between free wires reads its own value, to one count and the cable's 0.3 ohm."""
    case = tidy("three-wire", 50.0)
    bridge = Leak(a="supply", b="signal", place="run", ohm=leak_ohm)
    case = replace(case, cable=replace(case.cable, leaks=(bridge,)))
    check = {"measure": "ohms", "arrangement": "dead-both-free", "red": "wire.supply", "black": "wire.signal"}
    assert number(Witness(case, "test").ask(check).value) == pytest.approx(leak_ohm, rel=0.002)


def test_a_wet_joint_is_a_battery_and_reads_unlike_with_the_leads_reversed() -> None:
    """Its volts stand between free wires; a cell in series makes the ohmmeter read high one way, low the other."""
    case = tidy("three-wire", 50.0)
    wet = Leak(a="supply", b="signal", place="plug", ohm=20000.0, emf_v=0.2, skew=0.3)
    case = replace(case, cable=replace(case.cable, leaks=(wet,)))
    assert volts(case, "wire.supply", "wire.signal", "dead-both-free") == pytest.approx(0.2, abs=0.002)
    ways = [("wire.supply", "wire.signal"), ("wire.signal", "wire.supply")]
    free = {"measure": "ohms", "arrangement": "dead-both-free"}
    reads = [number(Witness(case, "test").ask({**free, "red": red, "black": black}).value) for red, black in ways]
    assert reads[0] > 20000.0 > reads[1]


def test_a_signal_source_is_shown_at_its_place_on_the_scale() -> None:
    """2.5 V is the middle of 0.5..4.5 V, so 50 psi of 0..100; 12 mA likewise: exact arithmetic."""
    for kind, source in (("three-wire", "2.5 V"), ("two-wire", "12 mA")):
        case = replace(tidy(kind, 20.0), source_gain=1.0, source_ohm=10.0)  # type: ignore[arg-type]
        check = {"measure": "displayed-pressure", "arrangement": "source-at-controller", "source": source}
        assert number(Witness(case, "test").ask(check).value) == pytest.approx(50.0, abs=0.5)


def test_a_blocked_port_keeps_its_pressure_when_the_sensor_is_vented_and_a_shut_cock_does_not() -> None:
    """The vent stands behind the cock but before the port (common practice)."""
    case = tidy("three-wire", 50.0)
    check = {"measure": "displayed-pressure", "arrangement": "vented"}
    shut = replace(case, water=replace(case.water, sensor_psi=80.0))
    blocked = replace(case, water=replace(case.water, sensor_psi=80.0, trapped=True))
    assert number(Witness(shut, "test").ask(check).value) == pytest.approx(0.0, abs=0.4)
    assert number(Witness(blocked, "test").ask(check).value) == pytest.approx(80.0, abs=0.4)


def test_what_does_not_exist_is_refused() -> None:
    """A two-wire cable has no common conductor, and a wire's end exists only while it is lifted."""
    for kind, point in (("two-wire", "sensor.common"), ("three-wire", "wire.signal")):
        check = {"measure": "volts", "red": point, "black": "controller.common", "arrangement": "connected"}
        with pytest.raises(CannotAnswerError, match="no such pair"):
            Witness(tidy(kind, 50.0), "test").ask(check)  # type: ignore[arg-type]


def test_the_same_check_reads_the_same_whatever_was_asked_before() -> None:
    """Noise belongs to the check and its repeat, not to the order: a property the comparison of planners needs."""
    case = replace(tidy("three-wire", 50.0), gauge=replace(tidy("three-wire", 50.0).gauge, division=2.0))
    straight, other = Witness(case, "n"), Witness(case, "n")
    other.ask({"measure": "displayed-fault"})
    gauge = {"measure": "gauge-pressure"}
    assert [straight.ask(gauge) for _ in range(3)] == [other.ask(gauge) for _ in range(3)]
