"""The error of a sensor at a point and its budget: each input worked out by hand beside it."""

from __future__ import annotations

import math
import re
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from steadyhead.diagnosis.system import METER
from steadyhead.errors import SensorCheckError
from steadyhead.figures import trail
from steadyhead.published.standard_atmosphere import pressure_pa
from steadyhead.sensorcheck import propagating
from steadyhead.sensorcheck.error_inputs import INPUTS, Scatter
from steadyhead.sensorcheck.error_model import ErrorAtPoint, Met, error_at
from steadyhead.sensorcheck.run import Certificate, CheckRun, Conditions, Reference, SignalMeter
from steadyhead.sensorcheck.validating import validate
from steadyhead.visit.record import Gauge, Interval, Sensor, Signal, Tolerance
from tests.sensorcheck.runs import BAR, BOOSTER, GAUGE, HOUSE, PSI

SQRT3 = math.sqrt(3.0)
#: A gauge of 0..10 bar, class 1, read to 0.05 bar; a meter of 0.5 % and 2 mV.
REFERENCE = Reference(gauge=Gauge(range=Interval(0.0, 10 * BAR), grade="1"), resolution_pa=0.05 * BAR)
METERED = SignalMeter(signal=Tolerance(0.005, 0.002, 0.001))
#: 0..10 bar as 0.5..4.5 V of 5 V, and as 0..10 V whatever the supply.
RATIO = Sensor(signal=Signal(kind="ratiometric", low=0.5, high=4.5, wires=3), range=Interval(0.0, 10 * BAR))
VOLTS = Sensor(signal=Signal(kind="voltage", low=0.0, high=10.0, wires=3), range=Interval(0.0, 10 * BAR))
LOOP = Sensor(signal=Signal(kind="current", low=0.004, high=0.020, wires=2), range=Interval(0.0, 10 * BAR))
LOOP_METER = SignalMeter(signal=Tolerance(0.01, 2e-5, 1e-5))


def check(sensor: Sensor = RATIO, meter: SignalMeter = METERED, **more: object) -> CheckRun:
    """Return a check of one of the sensors."""
    run = CheckRun(sensor=sensor, reference=REFERENCE, meter=meter, conditions=Conditions(height_m=0.0))
    return replace(run, **more)  # type: ignore[arg-type]


def parts(point: ErrorAtPoint) -> dict[str, float]:
    """Return the size of each contribution in bar, those of nothing left out."""
    return {
        row.input.name: abs(row.contribution) / BAR for row in point.budget.rows if abs(row.contribution) > 1e-9 * BAR
    }


def said(point: ErrorAtPoint) -> list[str]:
    """Return the ids of what was assumed."""
    return [each.id for each in point.cautions]


NO_SCATTER = ["repeatability-unknown"]


def test_a_ratiometric_sensor_with_one_meter() -> None:
    """By hand: 2.55 V of 5.1 V is 2.5 V of 5 V, 5 bar; the gauge reads 4.9 bar. The meter's percent cancels.

    Class 1 of 10 bar: 0.1 bar; 0.05 bar steps: 0.025; 2 mV are 2.5 bar/V x 2 mV / 1.02, on the supply half of that.
    """
    point = error_at(check(), Met(reference_pa=4.9 * BAR, signal=2.55, supply_v=5.1))
    assert point.budget.value == pytest.approx(0.1 * BAR, rel=1e-9)
    assert point.of_span.value == pytest.approx(0.01, rel=1e-9)
    assert parts(point) == {
        "reference-correction": pytest.approx(0.1 / SQRT3),
        "reference-resolution": pytest.approx(0.025 / SQRT3),
        "signal-correction": pytest.approx(2.5 * 0.002 / 1.02 / SQRT3),
        "supply-correction": pytest.approx(1.25 * 0.002 / 1.02 / SQRT3),
    }
    assert said(point) == NO_SCATTER


def test_two_meters_do_not_cancel() -> None:
    """By hand: 0.5 % of 2.5 V at 2.5 bar/V, once for each meter."""
    met = Met(reference_pa=5 * BAR, signal=2.5, supply_v=5.0)
    point = error_at(check(meter=replace(METERED, same_meter=False)), met)
    assert parts(point)["meter-scale"] == pytest.approx(2.5 * 2.5 * 0.005 / SQRT3)
    assert parts(point)["supply-scale"] == pytest.approx(2.5 * 2.5 * 0.005 / SQRT3)


def test_a_supply_on_another_range_does_not_cancel() -> None:
    """One meter, but another accuracy on the supply: by hand 1 % of it."""
    meter = replace(METERED, supply=Tolerance(0.01, 0.02, 0.01))
    point = error_at(check(meter=meter), Met(reference_pa=5 * BAR, signal=2.5, supply_v=5.0))
    assert parts(point)["supply-scale"] == pytest.approx(2.5 * 2.5 * 0.01 / SQRT3)
    assert parts(point)["supply-correction"] == pytest.approx(1.25 * 0.02 / SQRT3)


def test_a_fixed_voltage_sensor_keeps_the_meter_s_percent() -> None:
    """By hand: 1 bar/V; 0.5 % of 5 V, 2 mV; the supply does not count."""
    point = error_at(check(VOLTS), Met(reference_pa=5 * BAR, signal=5.02, supply_v=17.0))
    assert point.budget.value == pytest.approx(0.02 * BAR, rel=1e-6)
    assert parts(point)["meter-scale"] == pytest.approx(5.02 * 0.005 / SQRT3)
    assert parts(point)["signal-correction"] == pytest.approx(0.002 / SQRT3)
    assert not any(row.input.name.startswith("supply") for row in point.budget.rows)


def test_a_current_sensor() -> None:
    """By hand: 0.625 bar/mA; 1 % of 12 mA and 0.02 mA."""
    point = error_at(check(LOOP, LOOP_METER), Met(reference_pa=5 * BAR, signal=0.0121))
    assert point.budget.value == pytest.approx(0.0625 * BAR, rel=1e-6)
    assert parts(point)["meter-scale"] == pytest.approx(12.1 * 0.625 * 0.01 / SQRT3)
    assert parts(point)["signal-correction"] == pytest.approx(0.02 * 0.625 / SQRT3)


def test_a_display_counts_by_its_last_digit() -> None:
    """By hand: 0.1 bar steps are 0.05 to each side."""
    run = check(read_as="displayed-pressure", shown_step_pa=0.1 * BAR)
    point = error_at(run, Met(reference_pa=5 * BAR, shown_pa=5.2 * BAR))
    assert point.budget.value == pytest.approx(0.2 * BAR)
    assert parts(point)["display-resolution"] == pytest.approx(0.05 / SQRT3)
    assert said(error_at(replace(run, shown_step_pa=None), Met(reference_pa=5 * BAR, shown_pa=5.2 * BAR))) == [
        "display-resolution-unknown",
        *NO_SCATTER,
    ]


def test_a_certificate_takes_the_place_of_the_grade() -> None:
    """By hand: between two corrections, half-way; U = 0.03 bar at k = 2.5 is u = 0.012 bar."""
    certificate = Certificate(correction=(0.0, 0.04 * BAR), at=(0.0, 10 * BAR), expanded=0.03 * BAR, k=2.5)
    run = check(reference=replace(REFERENCE, certificate=certificate))
    point = error_at(run, Met(reference_pa=5 * BAR, signal=2.5, supply_v=5.0))
    assert point.budget.value == pytest.approx(-0.02 * BAR)
    assert parts(point)["reference-correction"] == pytest.approx(0.012)
    assert next(row for row in point.budget.rows if row.input.name == "reference-correction").input.kind == "normal"


def test_a_grade_allows_more_near_its_ends() -> None:
    """ASME B40.100 (from memory): grade B of 160 psi, 3 % in the upper quarter and 2 % in the middle."""
    run = replace(check(HOUSE), reference=GAUGE)
    for psi, percent in ((50.0, 2.0), (130.0, 3.0), (10.0, 3.0)):
        point = error_at(run, Met(reference_pa=psi * PSI, signal=2.5, supply_v=5.0))
        assert parts(point)["reference-correction"] * BAR / PSI == pytest.approx(percent * 1.6 / SQRT3)


def test_a_gauge_with_an_accuracy_of_its_own() -> None:
    """By hand: 0.25 % of 10 bar."""
    gauge = Gauge(range=Interval(0.0, 10 * BAR), accuracy=0.0025, grade="4")
    run = check(reference=replace(REFERENCE, gauge=gauge))
    assert parts(error_at(run, MIDDLE))["reference-correction"] == pytest.approx(0.025 / SQRT3)


MIDDLE = Met(reference_pa=5 * BAR, signal=2.5, supply_v=5.0)


def test_a_gauge_above_the_sensor_reads_too_little() -> None:
    """By hand: 2 m of water are 0.19613 bar more at the sensor; 0.1 m of doubt; 0.7 % of the water's weight."""
    point = error_at(check(conditions=Conditions(height_m=2.0, height_u_m=0.1)), MIDDLE)
    assert point.budget.value == pytest.approx(-0.196133 * BAR, rel=1e-5)
    assert parts(point)["reference-height"] == pytest.approx(0.0980665 * 0.1 / SQRT3)
    assert parts(point)["weight-per-metre"] == pytest.approx(0.196133 * 0.007 / SQRT3)


def test_air_between_gauge_and_sensor_weighs_next_to_nothing() -> None:
    """By hand: at 6 bar absolute some 7.3 kg/m3, 2 m of it 140 Pa."""
    point = error_at(check(conditions=Conditions(height_m=2.0, medium="air")), MIDDLE)
    assert point.budget.value == pytest.approx(-143.0, abs=2.0)


@pytest.mark.parametrize(
    ("conditions", "kelvin"),
    [
        (Conditions(temperature_effect=0.0002, temperature_c=5.0, temperature_u_c=3.0), 18.0),
        (Conditions(temperature_effect=0.0002, temperature_c=32.0), 12.0),
        (Conditions(temperature_effect=0.0002), 15.0),
    ],
)
def test_temperature_counts_where_the_plate_allows_for_it(conditions: Conditions, kelvin: float) -> None:
    """By hand: 0.02 % of 10 bar a kelvin away from 20 °C; nobody looked: 15 K."""
    assert parts(error_at(check(conditions=conditions), MIDDLE))["temperature"] == pytest.approx(0.002 * kelvin / SQRT3)
    assert "temperature" not in parts(error_at(check(), MIDDLE))


ABSOLUTE = replace(RATIO, reference="absolute")
SEALED = replace(RATIO, reference="sealed")


@pytest.mark.parametrize(
    ("sensor", "conditions", "air_bar", "half_width", "cautions"),
    [
        (ABSOLUTE, Conditions(height_m=0.0, barometer_pa=0.95 * BAR), 0.95, 0.002, NO_SCATTER),
        (ABSOLUTE, Conditions(height_m=0.0, altitude_m=2000.0), 0.79501, 0.03, NO_SCATTER),
        (ABSOLUTE, Conditions(height_m=0.0), 1.01325, 0.1, [*NO_SCATTER, "air-pressure-assumed"]),
        (SEALED, Conditions(height_m=0.0, barometer_pa=0.95 * BAR), 0.95 - 1.01325, 0.002, NO_SCATTER),
    ],
)
def test_the_air_counts_for_absolute_and_sealed_sensors(
    sensor: Sensor, conditions: Conditions, air_bar: float, half_width: float, cautions: list[str]
) -> None:
    """By hand: such a sensor feels the gauge's pressure and the air, a sealed one less the air it was sealed in."""
    volts = 0.5 + 0.4 * (5.0 + air_bar)
    point = error_at(check(sensor, conditions=conditions), Met(reference_pa=5 * BAR, signal=volts, supply_v=5.0))
    assert point.budget.value == pytest.approx(0.0, abs=10.0)
    assert parts(point)["air-pressure"] == pytest.approx(half_width / SQRT3)
    assert said(point) == cautions
    shown = check(sensor, conditions=conditions, read_as="displayed-pressure", shown_step_pa=1.0)
    displayed = error_at(shown, Met(reference_pa=5 * BAR, shown_pa=(5.0 + air_bar) * BAR))
    assert displayed.budget.value == pytest.approx(0.0, abs=10.0)
    assert parts(displayed)["air-pressure"] == pytest.approx(half_width / SQRT3)


def test_the_air_of_an_altitude_is_the_published_one() -> None:
    """U.S. Standard Atmosphere, 1976: 79 501 Pa at 2000 m; the input is what was asked of that table."""
    point = error_at(check(ABSOLUTE, conditions=Conditions(altitude_m=2000.0)), MIDDLE)
    air = next(row.input for row in point.budget.rows if row.input.name == "air-pressure")
    assert air.estimate == pressure_pa(2000.0)
    assert air.source.cite.startswith("U.S. Standard Atmosphere")


def test_what_repeats_badly_and_what_lags() -> None:
    """By hand: s = 0.03 bar, worth 9 readings: 0.01 bar with 16 degrees of freedom; half of 0.06 bar to each side."""
    scatter = Scatter(deviation_pa=0.03 * BAR, dof=16, count=9, hysteresis_pa=-0.06 * BAR)
    point = error_at(check(), MIDDLE, scatter)
    assert parts(point)["scatter"] == pytest.approx(0.01)
    assert parts(point)["hysteresis"] == pytest.approx(0.03 / SQRT3)
    assert next(row for row in point.budget.rows if row.input.name == "scatter").input.dof == 16
    u = point.budget.combined / BAR
    assert point.budget.dof == pytest.approx(u**4 / (0.01**4 / 16), rel=1e-9)
    assert said(point) == []


def test_one_reading_of_each_shows_hysteresis_but_no_scatter() -> None:
    """No degrees of freedom: told, and the difference up and down counts all the same."""
    point = error_at(check(), MIDDLE, Scatter(deviation_pa=0.0, dof=0, count=1, hysteresis_pa=0.06 * BAR))
    assert "hysteresis" in parts(point)
    assert said(point) == NO_SCATTER


def test_a_certified_meter_has_its_certificate_and_its_last_digit() -> None:
    """By hand: U = 4 mV at k = 2 on signal and supply, corrected by 10 mV; steps of 1 mV."""
    certificate = Certificate(correction=(0.010,), expanded=0.004)
    run = check(meter=replace(METERED, certificate=certificate))
    point = error_at(run, MIDDLE)
    assert point.budget.value == pytest.approx((2.51 / 5.01 * 5 - 2.5) * 2.5 * BAR, rel=1e-9)
    assert parts(point)["signal-correction"] == pytest.approx(2.5 * 0.002 * 5 / 5.01)
    assert parts(point)["signal-resolution"] == pytest.approx(2.5 * 0.0005 / SQRT3 * 5 / 5.01)
    assert "meter-scale" not in parts(point)


def test_a_meter_that_nobody_named_is_assumed_and_told() -> None:
    """A meter of the middle class, as the diagnosis assumes it."""
    point = error_at(check(meter=SignalMeter()), MIDDLE)
    assert said(point) == ["meter-assumed", *NO_SCATTER]
    assert parts(point)["signal-correction"] == pytest.approx(2.5 * METER["V"].absolute / SQRT3)
    loop = error_at(check(LOOP, SignalMeter()), Met(reference_pa=5 * BAR, signal=0.012))
    assert parts(loop)["signal-correction"] == pytest.approx(0.625 * METER["A"].absolute * 1e3 / SQRT3)


@pytest.mark.parametrize(
    ("conditions", "told"),
    [
        (Conditions(), ["height-not-said", *NO_SCATTER]), (Conditions(height_m=0.0), NO_SCATTER),
        (Conditions(medium="air"), NO_SCATTER),
    ],
)  # fmt: skip
def test_a_height_that_nobody_said_is_told(conditions: Conditions, told: list[str]) -> None:
    """A metre of water weighs 998 kg/m3 x 9.81 m/s2, nearly 0.1 bar; a metre of air under pressure next to nothing."""
    point = error_at(check(conditions=conditions), MIDDLE)
    assert said(point) == told
    weights = [each.values["each"] for each in point.cautions if each.id == "height-not-said"]
    assert weights == [pytest.approx(0.0979 * BAR, rel=2e-3)] * (len(told) - len(NO_SCATTER))


def test_a_gauge_that_nobody_can_read_to_so_much_is_told() -> None:
    """The caution; the rest is the same."""
    point = error_at(check(reference=replace(REFERENCE, resolution_pa=None)), MIDDLE)
    assert said(point) == ["reference-resolution-unknown", *NO_SCATTER]
    assert "reference-resolution" not in parts(point)


@pytest.mark.parametrize(
    ("run", "met", "id_"),
    [
        (check(reference=Reference(gauge=Gauge(range=Interval(0.0, 10 * BAR)))), MIDDLE, "reference-accuracy-unknown"),
        (check(reference=Reference(gauge=Gauge(grade="1"))), MIDDLE, "reference-accuracy-unknown"),
        (check(), replace(MIDDLE, reference_pa=10.2 * BAR), "reference-off-scale"),
        (check(), replace(MIDDLE, reference_pa=-0.2 * BAR), "reference-off-scale"),
        (check(), replace(MIDDLE, signal=None), "signal-not-read"),
        (check(), replace(MIDDLE, supply_v=None), "supply-not-read"),
        (check(), replace(MIDDLE, supply_v=0.0), "supply-not-read"),
        (check(read_as="displayed-pressure"), MIDDLE, "display-not-read"),
    ],
)
def test_what_is_missing_is_named(run: CheckRun, met: Met, id_: str) -> None:
    """Nothing is made up."""
    with pytest.raises(SensorCheckError, match=rf"^{id_}"):
        error_at(run, met)


def test_a_pointer_on_its_last_mark_is_on_the_scale() -> None:
    """One percent of the span is allowed for reading it."""
    assert error_at(check(), replace(MIDDLE, reference_pa=-0.05 * BAR)).budget.value > 0


runs = st.builds(
    lambda sensor, height, altitude, same: check(
        sensor,
        conditions=Conditions(height_m=height, height_u_m=0.1, altitude_m=altitude, temperature_effect=1e-4),
        meter=replace(LOOP_METER if sensor.signal.kind == "current" else METERED, same_meter=same),
    ),
    st.sampled_from((RATIO, VOLTS, LOOP, ABSOLUTE, SEALED)), st.floats(-5, 5), st.floats(0, 3000), st.booleans(),
)  # fmt: skip
scatters = st.one_of(
    st.none(),
    st.builds(
        Scatter, deviation_pa=st.floats(1, 1e4), dof=st.integers(0, 30), count=st.integers(1, 9),
        hysteresis_pa=st.floats(-1e4, 1e4),
    ),
)  # fmt: skip


@given(runs, st.floats(0, 10), st.floats(0.05, 0.95), scatters)
def test_every_budget_holds_together(run: CheckRun, bar: float, share: float, scatter: Scatter | None) -> None:
    """Properties: shares are 1, names are known, the gauge counts once and fully, everything can be traced."""
    signal = run.sensor.signal.low + share * (run.sensor.signal.high - run.sensor.signal.low)
    point = error_at(run, Met(reference_pa=bar * BAR, signal=signal, supply_v=5.0), scatter)
    assert math.fsum(row.share for row in point.budget.rows) == pytest.approx(1.0, rel=1e-9)
    assert {row.input.name for row in point.budget.rows} <= set(INPUTS)
    assert {row.input.part for row in point.budget.rows} <= {"reference", "meter", "place", "sensor"}
    gauge = next(row for row in point.budget.rows if row.input.name == "reference-correction")
    assert gauge.sensitivity == pytest.approx(-1.0, rel=1e-12)
    assert all(figure.inputs or figure.whence for _, figure in trail(point.of_span))
    assert point.of_span.standard_uncertainty == pytest.approx(point.budget.combined / (10 * BAR), rel=1e-12)


#: An id inside a formula.
NAME = re.compile(r"[a-z]+(?:-[a-z]+)*")


@given(runs, st.floats(0, 10), st.floats(0.05, 0.95), scatters, st.sampled_from(("signal", "displayed-pressure")))
def test_the_formula_that_is_shown_is_the_one_that_is_used(
    run: CheckRun, bar: float, share: float, scatter: Scatter | None, read_as: str
) -> None:
    """The text, worked out by itself from the figures that it names, gives the error; it names all of them."""
    run = replace(run, read_as=read_as)  # type: ignore[arg-type]
    signal = run.sensor.signal.low + share * (run.sensor.signal.high - run.sensor.signal.low)
    met = Met(reference_pa=bar * BAR, signal=signal, supply_v=4.9, shown_pa=10 * share * BAR)
    figure = error_at(run, met, scatter).budget.figure
    values = {each.name: each.value for each in figure.inputs}
    names = set(NAME.findall(figure.formula)) - {"x"}
    assert names == set(values)
    text = NAME.sub(lambda met: "*" if met[0] == "x" else f"({values[met[0]]!r})", figure.formula)
    assert eval(text) == pytest.approx(figure.value, abs=1e-6)  # noqa: S307 - arithmetic that was made above


def test_the_model_is_linear_enough_where_many_things_count() -> None:
    """JCGM 101, clause 8: with a certified gauge the linear interval agrees with a Monte Carlo run to one digit."""
    certified = replace(REFERENCE, certificate=Certificate(expanded=0.02 * BAR), resolution_pa=0.01 * BAR)
    scatter = Scatter(deviation_pa=0.02 * BAR, dof=12, count=4, hysteresis_pa=0.01 * BAR)
    point = error_at(check(reference=certified), MIDDLE, scatter)
    asked = point.budget.measurand
    assert validate(point.budget, propagating.propagate(asked, trials=20_000), digits=1).verdict == "agrees"


def test_the_tool_says_where_one_rectangle_rules() -> None:
    """A gauge by its class alone: at 95 % its limits are 0.95 sqrt(3) = 1.65 standard uncertainties, not 1.96."""
    point = error_at(check(reference=replace(REFERENCE, resolution_pa=None)), MIDDLE)
    found = validate(point.budget, propagating.propagate(point.budget.measurand, trials=20_000))
    assert (found.verdict, found.said.id) == ("differs", "linear-not-good-enough")
    half_width = (found.drawn.high - found.drawn.low) / 2
    assert half_width / point.budget.combined == pytest.approx(0.95 * SQRT3, rel=0.01)


def test_the_booster_s_own_span() -> None:
    """By hand: 12 mA of 4..20 mA is 8 bar of 16."""
    gauge = Gauge(range=Interval(0.0, 25 * BAR), grade="0.6")
    run = check(BOOSTER, LOOP_METER, reference=Reference(gauge=gauge))
    point = error_at(run, Met(reference_pa=8 * BAR, signal=0.012))
    assert point.budget.value == pytest.approx(0.0, abs=1e-6)
    assert point.span_pa == 16 * BAR
