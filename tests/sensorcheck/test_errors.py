"""What a run says of its sensor, against published data and closed forms."""

from __future__ import annotations

from dataclasses import replace

import pytest

from steadyhead.errors import FitError
from steadyhead.figures import trail
from steadyhead.sensorcheck.at_sensor import (
    air_pa,
    correction_at,
    height_correction_pa,
    pressure_at_sensor,
    weight_pa_per_m,
)
from steadyhead.sensorcheck.characteristics import Characteristics, characteristics
from steadyhead.sensorcheck.errors import point_errors
from steadyhead.sensorcheck.run import Certificate, CheckRun, Conditions, Point, Reference, SignalMeter
from steadyhead.visit.record import Interval, Sensor, Signal
from tests.sensorcheck.published_data import (
    KESSEL_P,
    KESSEL_X,
    LIBERZON_DOWN,
    LIBERZON_IN,
    LIBERZON_UP,
)
from tests.sensorcheck.runs import BAR, BOOSTER, GAUGE, HOUSE, PSI, shown_run

ONE_MILLIPASCAL = 1e-3


def kessel() -> CheckRun:
    """Return the published sensor as a voltage sensor whose plate is the line through both its ends."""
    sensor = Sensor(signal=Signal(kind="voltage", low=0.0, high=2.0410, wires=3), range=Interval(0.0, 20.0))
    points = tuple(Point(reference_pa=p, signal=x, direction="up") for p, x in zip(KESSEL_P, KESSEL_X, strict=True))
    return CheckRun(sensor=sensor, reference=GAUGE, points=points)


@pytest.mark.parametrize(
    ("which", "percent"), [("terminal", 0.0196), ("least_squares", 0.0136), ("independent", 0.0098)]
)
def test_the_three_linearities_of_a_published_sensor(which: str, percent: float) -> None:
    """Data: Kessel, Kacker, Sommer (2012), table 7; deviations by a linear-programming solver and numpy's fit."""
    found = characteristics(kessel())
    assert found.linearity is not None
    assert round(100 * found.of_span(getattr(found.linearity, which)).value, 4) == percent


def test_the_errors_of_a_published_sensor() -> None:
    """Kessel, Kacker, Sommer (2012), table 7 (republished): deviations from the line, with our sign turned."""
    printed = [0.0, 0.00196, 0.00196, 0.00294, 0.00392, 0.0039, 0.0039, 0.0039, 0.0029, 0.0020, 0.0]
    errors = [each.error.value for each in point_errors(kessel())]
    assert errors == pytest.approx([-each for each in printed], abs=5e-5)


def liberzon() -> Characteristics:
    """Return the published up-and-down run, its output taken as a display in kilopascal."""
    sensor = Sensor(signal=Signal(kind="voltage", low=0.0, high=10.0, wires=3), range=Interval(0.0, 10.0))
    rows = [(p, y, "up", 1) for p, y in zip(LIBERZON_IN, LIBERZON_UP, strict=True)]
    rows += [(p, y, "down", 1) for p, y in zip(LIBERZON_IN[::-1], LIBERZON_DOWN[::-1], strict=True)]
    return characteristics(shown_run(sensor, rows))  # type: ignore[arg-type]


def test_the_hysteresis_of_a_published_run() -> None:
    """Liberzon's course notebooks (original): 0.61 kPa at 6 kPa, 6.10 % of the input span."""
    found = liberzon()
    assert found.hysteresis is not None
    assert round(found.hysteresis.value, 2) == 0.61
    assert round(100 * found.of_span(found.hysteresis).value, 2) == 6.10
    widest = max(found.levels, key=lambda each: abs(each.down.value - each.up.value))  # type: ignore[union-attr]
    assert widest.pressure.value == 6.0


def test_the_slope_and_zero_of_a_published_run() -> None:
    """Liberzon's course notebooks (original): the joint line 1.0823 x - 0.8470; zero error is mean(-1.12, -0.69)."""
    found = liberzon()
    assert found.zero is not None
    assert found.zero.value == pytest.approx((-1.12 - 0.69) / 2, abs=1e-12)
    assert (round(found.most.value, 2), round(found.least.value, 2)) == (0.20, -1.12)


@pytest.mark.parametrize(
    ("signal", "supply", "told"), [(2.5, 5.0, 50.0), (2.4, 4.8, 50.0), (2.25, 4.5, 50.0), (0.5, 5.0, 0.0)]
)
def test_a_ratiometric_sensor_is_judged_with_its_supply(signal: float, supply: float, told: float) -> None:
    """Common practice, P = FS (V / Vs - 0.1) / 0.8: at 4.8 V the same sensor gives 2.400 V at half its range."""
    point = Point(reference_pa=told * PSI, signal=signal, supply_v=supply, direction="up")
    (found,) = point_errors(CheckRun(sensor=HOUSE, reference=GAUGE, points=(point,)))
    assert found.told.value == pytest.approx(told * PSI, abs=ONE_MILLIPASCAL)
    assert found.error.value == pytest.approx(0.0, abs=ONE_MILLIPASCAL)


@pytest.mark.parametrize(("percent", "milliamps"), [(0, 4), (25, 8), (50, 12), (75, 16), (100, 20)])
def test_a_current_sensor_is_read_along_its_plate(percent: float, milliamps: float) -> None:
    """IEC 60381-1 (from memory): 4, 8, 12, 16, 20 mA at 0, 25, 50, 75, 100 %."""
    point = Point(reference_pa=0.0, signal=milliamps / 1000, direction="up")
    (found,) = point_errors(CheckRun(sensor=BOOSTER, reference=GAUGE, points=(point,)))
    assert found.told.value == pytest.approx(percent / 100 * 16 * BAR, abs=ONE_MILLIPASCAL)


def test_an_error_is_the_same_in_all_its_units() -> None:
    """A closed form: at 40 psi the house sensor should give 2.1 V; 2.14 V are 0.04 V of 4 V, 1 %, 1 psi."""
    point = Point(reference_pa=40 * PSI, signal=2.14, supply_v=5.0, direction="up")
    (found,) = point_errors(CheckRun(sensor=HOUSE, reference=GAUGE, points=(point,)))
    assert found.error.value == pytest.approx(1.0 * PSI, abs=ONE_MILLIPASCAL)
    assert found.of_span.value == pytest.approx(0.01, abs=1e-12)
    assert found.in_signal is not None
    assert found.in_signal.value == pytest.approx(0.04, abs=1e-12)


# ------------------------------------------------------------ what stood at the sensor


def test_ten_feet_of_water_are_four_and_a_third_psi() -> None:
    """NIST SP 811 (republished): 1 ftH2O = 2989.067 Pa, so ten feet are 4.335 psi; a gauge above shows too little."""
    run = CheckRun(
        sensor=HOUSE, reference=GAUGE, conditions=Conditions(height_m=3.048),
        points=(Point(reference_pa=50 * PSI, signal=2.5, supply_v=5.0, direction="up"),),
    )  # fmt: skip
    assert pressure_at_sensor(run, 1).value - 50 * PSI == pytest.approx(29890.67, abs=0.05)
    assert height_correction_pa(Conditions(height_m=-3.048), 0.0) == pytest.approx(-29890.67, abs=0.05)


def test_air_in_the_line_weighs_by_its_density() -> None:
    """Perfect gas (closed form): at sea level and 15 °C air has 1.2250 kg/m3, the standard atmosphere's own figure."""
    at_rest = weight_pa_per_m(Conditions(medium="air"), 0.0)
    assert at_rest / 9.80665 == pytest.approx(1.2250, abs=5e-5)
    assert weight_pa_per_m(Conditions(medium="air"), 9 * 101325.0) == pytest.approx(10 * at_rest, rel=1e-12)


def test_a_certificates_correction_is_drawn_between_its_points_and_held_beyond() -> None:
    """A closed form: straight lines."""
    told = Certificate(expanded=0.1, at=(0.0, 10.0, 20.0), correction=(0.1, 0.3, -0.1))
    wanted = [0.1, 0.1, 0.2, 0.3, 0.1, -0.1, -0.1]
    assert [correction_at(told, each) for each in (-5, 0, 5, 10, 15, 20, 99)] == pytest.approx(wanted, abs=1e-15)
    assert (correction_at(None, 3.0), correction_at(Certificate(expanded=1.0, correction=(0.7,)), 3.0)) == (0.0, 0.7)


def test_a_certificate_corrects_the_gauge_and_the_meter() -> None:
    """A closed form: the gauge reads 1 psi low, the meter 0.02 V high; both are put right before the error is told."""
    run = CheckRun(
        sensor=HOUSE, points=(Point(reference_pa=39 * PSI, signal=2.12, supply_v=5.0, direction="up"),),
        reference=replace(GAUGE, certificate=Certificate(expanded=0.1 * PSI, correction=(1.0 * PSI,))),
        meter=SignalMeter(certificate=Certificate(expanded=0.001, correction=(-0.02,))),
    )  # fmt: skip
    (found,) = point_errors(run)
    assert found.true.value == pytest.approx(40 * PSI, abs=ONE_MILLIPASCAL)
    assert found.error.value == pytest.approx(0.0, abs=ONE_MILLIPASCAL)


@pytest.mark.parametrize(
    ("reference", "air", "expected"),
    [("gauge", 90000.0, 0.0), ("absolute", 90000.0, 90000.0), ("sealed", 90000.0, 90000.0 - 101325.0)],
)
def test_an_absolute_sensor_open_to_the_air_tells_the_air(reference: str, air: float, expected: float) -> None:
    """By definition: open to the air an absolute sensor reads the air, a sealed one what it differs from 1 atm."""
    sensor = replace(BOOSTER, reference=reference)  # type: ignore[arg-type]
    signal = 0.004 + 0.016 * expected / (16 * BAR)
    run = CheckRun(
        sensor=sensor, reference=GAUGE, conditions=Conditions(barometer_pa=air),
        points=(Point(reference_pa=0.0, signal=signal, direction="up"),),
    )  # fmt: skip
    assert point_errors(run)[0].error.value == pytest.approx(0.0, abs=ONE_MILLIPASCAL)


def test_the_air_is_measured_or_of_the_altitude_or_told_as_assumed() -> None:
    """U.S. Standard Atmosphere 1976, table I (republished): 89876 Pa at 1000 m."""
    assert air_pa(Conditions(barometer_pa=1.0, altitude_m=1000.0)) == 1.0
    assert round(air_pa(Conditions(altitude_m=1000.0))) == 89876
    run = shown_run(replace(BOOSTER, reference="absolute"), [(0.0, 0.0, "up", 1), (BAR, BAR, "up", 1)])
    assert "air-pressure-assumed" in [each.id for each in characteristics(run).notes]
    gauge = shown_run(BOOSTER, [(0.0, 0.0, "up", 1), (BAR, BAR, "up", 1)])
    assert "air-pressure-assumed" not in [each.id for each in characteristics(gauge).notes]


# ------------------------------------------------------------ what cannot be told


def test_a_point_that_says_nothing_of_the_sensor_is_left_out_and_told() -> None:
    """Rule 4: a ratiometric signal without its supply is no reading."""
    points = (
        Point(reference_pa=0.0, signal=0.5, direction="up"),
        Point(reference_pa=0.0, supply_v=5.0, direction="up"),
        Point(reference_pa=50 * PSI, signal=2.5, supply_v=5.0, direction="up"),
    )
    found = characteristics(CheckRun(sensor=HOUSE, reference=GAUGE, points=points))
    assert [each.number for each in found.points] == [3]
    told = [(each.id, each.values["point"]) for each in found.notes if "point" in each.values]
    assert told == [("point-without-supply", 1), ("point-without-signal", 2)]


def test_a_run_without_a_usable_point_is_refused() -> None:
    """No figure is made of nothing."""
    with pytest.raises(FitError, match="no-usable-point"):
        characteristics(CheckRun(sensor=HOUSE, reference=GAUGE, points=(Point(reference_pa=0.0, direction="up"),)))


def test_what_the_points_cannot_tell_is_none() -> None:
    """Rule 2 of the module: one direction has no hysteresis, one cycle no repeatability, two levels no bend."""
    found = characteristics(shown_run(HOUSE, [(0.0, 10.0, "up", 1), (100 * PSI, 100 * PSI, "up", 1)]))
    assert (found.hysteresis, found.repeatability, found.linearity) == (None, None, None)
    assert found.zero is not None
    assert found.zero.value == 10.0
    alone = characteristics(shown_run(HOUSE, [(50 * PSI, 50 * PSI, "up", 1)]))
    assert (alone.zero, alone.sensor_span) == (None, None)


def test_an_end_that_was_not_reached_is_drawn_on_to_and_told() -> None:
    """A closed form: an error of 1 % of the pressure plus 2 psi, read from 20 to 60 psi of a 100 psi sensor."""
    rows = [(p * PSI, (1.01 * p + 2.0) * PSI, "up", 1) for p in (20.0, 40.0, 60.0)]
    found = characteristics(shown_run(HOUSE, rows))  # type: ignore[arg-type]
    assert found.zero is not None
    assert found.sensor_span is not None
    assert found.zero.value == pytest.approx(2.0 * PSI, abs=ONE_MILLIPASCAL)
    assert found.sensor_span.value == pytest.approx(1.0 * PSI, abs=ONE_MILLIPASCAL)
    told = {each.id: each.values for each in found.notes}
    assert told["zero-not-reached"]["lowest"] == pytest.approx(20 * PSI)
    assert told["top-not-reached"]["share"] == pytest.approx(0.6)


def test_repeatability_is_the_widest_spread_from_one_side() -> None:
    """Definition of IEC 61298-2 (from memory): going up 1.0 and 1.3 kPa, coming down 4.0 and 4.1: the widest is 0.3."""
    rows = [(50 * PSI, 50 * PSI + off, way, cycle) for off, way, cycle in
            [(1000.0, "up", 1), (4000.0, "down", 1), (1300.0, "up", 2), (4100.0, "down", 2)]]  # fmt: skip
    found = characteristics(shown_run(HOUSE, rows))  # type: ignore[arg-type]
    assert found.repeatability is not None
    assert found.hysteresis is not None
    assert found.repeatability.value == pytest.approx(300.0, abs=ONE_MILLIPASCAL)
    assert found.hysteresis.value == pytest.approx(4050.0 - 1150.0, abs=ONE_MILLIPASCAL)


def test_a_point_taken_twice_in_one_cycle_is_no_repeatability() -> None:
    """Definition of IEC 61298-2 (from memory): the same level from the same side in one cycle after another."""
    rows = [(50 * PSI, 50 * PSI + off, "up", 1) for off in (1000.0, 1300.0)]
    assert characteristics(shown_run(HOUSE, rows)).repeatability is None  # type: ignore[arg-type]


def test_a_figure_leads_back_to_what_was_read() -> None:
    """A property: below each characteristic stand readings and the plate, and nothing without an origin."""
    found = liberzon()
    assert found.hysteresis is not None
    leaves = {each.whence for _, each in trail(found.of_span(found.hysteresis)) if each.whence}
    assert leaves >= {"point 7", "point 16", "plate"}


def test_levels_are_told_apart_by_two_percent_of_span() -> None:
    """Rule 2: 50 and 51.9 psi of 100 are one level, 50 and 52.1 are two."""
    near = characteristics(shown_run(HOUSE, [(50 * PSI, 0.0, "up", 1), (51.9 * PSI, 0.0, "down", 1)]))
    apart = characteristics(shown_run(HOUSE, [(50 * PSI, 0.0, "up", 1), (52.1 * PSI, 0.0, "down", 1)]))
    assert (len(near.levels), len(apart.levels)) == (1, 2)


def test_a_reference_without_a_certificate_is_taken_as_it_stands() -> None:
    """A closed form: nothing is added."""
    run = CheckRun(
        sensor=HOUSE, reference=Reference(gauge=GAUGE.gauge),
        points=(Point(reference_pa=50 * PSI, shown_pa=50 * PSI, direction="up"),), read_as="displayed-pressure",
    )  # fmt: skip
    assert pressure_at_sensor(run, 1).value == 50 * PSI
