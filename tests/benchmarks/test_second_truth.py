"""The second truth must be true: tidy loops against Ohm's law, its screen and files against the format."""

import math
import tomllib
from collections.abc import Mapping
from dataclasses import replace

import pytest

from benchmarks.second_truth.cases import draw_case
from benchmarks.second_truth.faults import Fault
from benchmarks.second_truth.formats import number
from benchmarks.second_truth.game import Play
from benchmarks.second_truth.streams import stream
from benchmarks.second_truth.system import draw_system
from benchmarks.second_truth.visit import open_visit
from benchmarks.second_truth.witness import Witness
from steadyhead.visit import parse_visit
from steadyhead.visit.record import Spread
from tests.benchmarks.second_tidy import (
    BURDEN_OHM,
    INPUT_OHM,
    KINDS,
    SIGNAL,
    SUPPLY,
    Asker,
    everything,
    exact,
    need_ngspice,
    of_system,
    read,
    supplied,
    tidy,
)

pytestmark = pytest.mark.ngspice

TWO_COUNTS_V = 0.002
METER_OHM = 1e7
BLEEDER_OHM = 47e3  # across a supply's own terminals
PIN_OHM = 1.5  # inside a sensor, behind its supply pin
SENSOR_A = 1.1e-3  # what a tidy three-wire sensor draws at most


@pytest.fixture(autouse=True)
def _ngspice() -> None:
    need_ngspice()


# Ohm's law -----------------------------------------------------------------------------------------


@pytest.mark.parametrize(("fraction", "milliamps"), [(0.0, 4), (0.25, 8), (0.5, 12), (0.75, 16), (1.0, 20)])
def test_a_healthy_current_stands_as_its_volts_across_the_burden(fraction: float, milliamps: float) -> None:
    """I = 4 + 16 x mA (IEC 60381-1, from memory), and 250 ohm of it: 1, 2, 3, 4, 5 V."""
    case = tidy("two-wire", fraction)
    assert read(case, "volts", *SIGNAL) == pytest.approx(BURDEN_OHM * milliamps / 1e3, abs=TWO_COUNTS_V)
    assert read(case, "milliamps", arrangement="meter-in-signal") == pytest.approx(milliamps, abs=0.011)


@pytest.mark.parametrize("fraction", [0.0, 0.5, 1.0])
def test_a_healthy_ratiometric_signal_is_its_share_of_the_supply(fraction: float) -> None:
    """(0.1 + 0.8 x) of 5 V, and of 4.8 V where the supply sags (common practice, no public standard found)."""
    for volts in (5.0, 4.8):
        sagged = supplied(tidy("three-wire", fraction), volts=volts)
        assert read(sagged, "volts", *SIGNAL) == pytest.approx(volts * (0.1 + 0.8 * fraction), abs=2 * TWO_COUNTS_V)


def beside(*ohms: float) -> float:
    """Return the resistance of several in parallel."""
    return 1 / sum(1 / ohm for ohm in ohms)


@pytest.mark.parametrize("leak_ohm", [200.0, 1000.0, 10000.0])
@pytest.mark.parametrize("place", ["run", "terminal", "plug"])
def test_a_leak_divides_the_signal_with_the_output_resistance(leak_ohm: float, place: str) -> None:
    """2.5 V behind 1000 ohm, across the leak beside input and meter: V = 2.5 R/(R + 1000)."""
    leak = Fault(id="leakage-signal-common", place=place, figures={"ohm": leak_ohm, "emf": 0.0})
    case = tidy("three-wire", 0.5, leak)
    case = replace(case, fitted=replace(case.fitted, out_ohm=1000.0))
    below = beside(leak_ohm, INPUT_OHM, METER_OHM)
    assert read(case, "volts", *SIGNAL) == pytest.approx(2.5 * below / (below + 1000.0), abs=2 * TWO_COUNTS_V)


def test_damp_is_a_battery_whose_volts_stand_between_free_wires() -> None:
    """0.2 V behind 20 kohm, read with 10 Mohm: 0.2 x 10/10.02."""
    damp = Fault(id="leakage-supply-signal", place="plug", figures={"ohm": 2e4, "emf": 0.2})
    found = read(tidy("three-wire", 0.5, damp), "volts", "wire.supply", "wire.signal", arrangement="dead-both-free")
    assert found == pytest.approx(0.2 * 10 / 10.02, abs=TWO_COUNTS_V)


@pytest.mark.parametrize(("place", "side"), [("terminal", "pin"), ("run", "pin"), ("plug", "crimp"), ("plug", "pin")])
def test_a_series_resistance_takes_its_ohms_times_the_current(place: str, side: str) -> None:
    """12 mA x 500 ohm = 6 V: missing behind the resistance, and never across the burden."""
    joint = Fault(id="resistive-supply", place=place, side=side, figures={"ohm": 500.0})
    case = tidy("two-wire", 0.5, joint)
    assert read(case, "volts", *SIGNAL) == pytest.approx(3.0, abs=TWO_COUNTS_V)
    behind = 24.0 - (6.0 if (place, side) != ("plug", "pin") else 0.0)  # the leads touch before the pin
    assert read(case, "volts", "sensor.supply", "controller.common") == pytest.approx(behind, abs=0.011)


def test_a_resistance_in_the_common_wire_lifts_the_signal() -> None:
    """10 mA x 100 ohm = 1 V under the sensor, which makes half of what is left: 1 + (5 - 1)/2 = 3 V."""
    joint = Fault(id="resistive-common", place="terminal", figures={"ohm": 100.0})
    case = tidy("three-wire", 0.5, joint)
    case = replace(case, fitted=replace(case.fitted, quiet_a=0.01))
    assert read(case, "volts", "sensor.common", "controller.common") == pytest.approx(1.0, abs=0.005)
    assert read(case, "volts", *SIGNAL) == pytest.approx(3.0, abs=0.5 * 10e-3 * PIN_OHM + TWO_COUNTS_V)


@pytest.mark.parametrize("limit_a", [0.05, 0.2])
@pytest.mark.parametrize("short_ohm", [1.0, 10.0])
def test_a_shorted_pair_gets_what_the_supply_allows(limit_a: float, short_ohm: float) -> None:
    """Volts = limit x ohms; for two wires the burden beside it has limit x 250 ohm, or 24 V divided."""
    pairs = {"three-wire": "short-supply-common", "two-wire": "short-supply-signal"}
    for kind, id_ in pairs.items():
        fault = Fault(id=id_, place="terminal", figures={"ohm": short_ohm})
        case = supplied(tidy(kind, 0.5, fault), limit_a=limit_a)
        outside = short_ohm + (BURDEN_OHM if kind == "two-wire" else 0.0)
        volts = min(limit_a * beside(outside, BLEEDER_OHM), case.supply().volts)
        assert read(case, "volts", *SUPPLY) == pytest.approx(volts, rel=0.002, abs=SENSOR_A * short_ohm)
        if kind == "two-wire":
            assert read(case, "volts", *SIGNAL) == pytest.approx(volts * BURDEN_OHM / outside, rel=0.002)
        lifted = read(case, "volts", *SUPPLY, arrangement="sensor-leads-lifted")
        assert lifted == pytest.approx(case.supply().volts, abs=0.011)


def test_an_open_wire_carries_nothing() -> None:
    """No current, no volts across input or burden; the sensor's side keeps 2.5 V, and the ohmmeter shows OL."""
    cut = Fault(id="open-signal", place="run", figures={"ohm": 1e11})
    for kind in KINDS:
        assert read(tidy(kind, 0.5, cut), "volts", *SIGNAL) == pytest.approx(0.0, abs=TWO_COUNTS_V)
    case = tidy("three-wire", 0.5, cut)
    assert read(case, "volts", "sensor.signal", "sensor.common") == pytest.approx(2.5, abs=0.005)
    ends = {"measure": "ohms", "arrangement": "dead-both-free", "red": "wire.signal", "black": "sensor.signal"}
    assert Witness(case).answer(ends) == "OL"


def area_mm2(conductor: str) -> float:
    """Return a conductor's area: as its name says, or AWG n by d = 0.127 mm x 92^((36 - n)/39) (ASTM B258, memory)."""
    size, unit = conductor.split()
    return math.pi / 4 * (0.127 * 92 ** ((36 - float(size)) / 39)) ** 2 if unit == "AWG" else float(size)


@pytest.mark.parametrize("kind", KINDS)
def test_the_ohmmeter_on_a_dead_looped_cable_reads_its_copper(kind: str) -> None:
    """2 rho L/A (1 + 0.00393 (t - 20)), annealed copper 1.7241e-8 ohm m at 20 C (IEC 60028, from memory).

    A lay and a make of -3..+6 % are drawn; IEC 60228 lets thin conductors have up to 6.5 % more than pure copper.
    """
    seen = set()
    for seed in range(150):
        drawn = draw_system(stream("copper", kind, seed), two_wire=kind == "two-wire")
        if drawn.length_m < 20:
            continue
        contacts = dict.fromkeys(drawn.contacts, 1e-3)
        case = of_system(replace(drawn, contacts=contacts, protector_ohm=0.0, meter=exact(drawn.meter)), kind)
        found = read(case, "ohms", "wire.supply", "wire.signal", arrangement="dead-looped")
        copper = 2 * 1.7241e-8 * drawn.length_m / (area_mm2(drawn.conductor) * 1e-6)
        share = (found - 0.1) / (copper * (1 + 0.00393 * (drawn.celsius - 20)))  # 0.1: where the ends are joined
        stranded = 0.01 if "AWG" in drawn.conductor else 0.065
        assert 0.97 - 0.03 < share < 1.06 * (1 + stranded) + 0.03, drawn.conductor
        seen.add(drawn.conductor)
    assert len(seen) == 8


def test_the_ohmmeter_reads_a_bridge_between_free_wires() -> None:
    """A resistor of 4.7 kohm without a battery reads 4.7 kohm."""
    bridge = Fault(id="leakage-supply-signal", place="run", figures={"ohm": 4700.0, "emf": 0.0})
    check = {"measure": "ohms", "arrangement": "dead-both-free", "red": "wire.supply", "black": "wire.signal"}
    assert Witness(tidy("two-wire", 0.5, bridge)).answer(check) in {"4.699 kohm", "4.700 kohm", "4.701 kohm"}


# The screen and the file ---------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("kind", "source", "shown", "word"),
    [
        ("three-wire", "2.5 V", 50.0, "none"), ("three-wire", "0.2 V", -7.5, "low-signal"),
        ("three-wire", "4.9 V", 110.0, "high-signal"), ("two-wire", "12 mA", 50.0, "none"),
        ("two-wire", "3.5 mA", -3.125, "low-signal"), ("two-wire", "21.5 mA", 109.375, "high-signal"),
    ],
)  # fmt: skip
def test_a_source_is_shown_at_its_place_on_the_scale(kind: str, source: str, shown: float, word: str) -> None:
    """(V - 0.5)/4 and (I - 4)/16 of 100 psi; beyond 0.3..4.8 V and 3.6..21 mA the fault word."""
    case = tidy(kind)
    place = {"arrangement": "source-at-controller", "source": source}
    assert read(case, "displayed-pressure", **place) == pytest.approx(shown, abs=0.5)
    assert Witness(case).answer({"measure": "displayed-fault", **place}) == word


def words_allowed(signal: float, limits: Mapping[str, str]) -> set[str]:
    """Return the fault words that a signal may have beside the limits of a file, a tenth of a unit on either side."""
    low, high = (number(limits[key]) if key in limits else None for key in ("low_fault", "high_fault"))
    words = {"none"}
    if low is not None and signal < low + 0.1:
        words = {"low-signal"} if signal < low - 0.1 else {"low-signal", "none"}
    if high is not None and signal > high - 0.1:
        words = {"high-signal"} if signal > high + 0.1 else {"high-signal", "none"}
    return words


@pytest.mark.parametrize("kind", KINDS)
def test_the_fault_word_keeps_the_limits_of_the_file(kind: str) -> None:
    """The file's own limits against the raw signal on the screen; a wrong setting has limits of its own."""
    met: set[str] = set()
    for seed in range(80):
        case = draw_case(f"limits:{seed}", kind)
        witness = Witness(case)
        word = witness.answer({"measure": "displayed-fault"})
        limits = tomllib.loads(open_visit(case, word).text()).get("controller", {})
        if not {"low_fault", "high_fault"} <= set(limits) or case.fault.head == "setting":
            continue
        if not case.system.shows_signal or "jumping" in (signal := witness.answer({"measure": "displayed-signal"})):
            continue
        assert word in words_allowed(number(signal), limits), (seed, signal, limits)
        met.add(word)
    assert {"none", "low-signal"} <= met


@pytest.mark.parametrize("kind", KINDS)
def test_every_file_that_it_writes_is_a_visit_file(kind: str) -> None:
    """The format's own reader takes each, with as many readings and refusals as were asked, and what jumps."""
    jumped = 0
    for seed in range(25):
        asker = Asker(*everything(kind))
        game = Play(draw_case(f"files:{seed}", kind), asker)
        first = len(game.visit.readings)
        game.run()
        parse_visit(asker.files[0])
        found = parse_visit(asker.files[-1]).visit
        assert len(found.readings) - first + len(found.declined) == len(asker.checks)
        assert all(declined.why for declined in found.declined)
        spreads = [reading.value.as_written for reading in found.readings if isinstance(reading.value, Spread)]
        assert all(spread.endswith(" jumping") for spread in spreads)
        jumped += len(spreads)
    assert jumped
