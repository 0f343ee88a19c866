"""The inputs of a sensor's error: what is known of reference, place, meter, display and sensor, and how well.

Rules
-----
1. One function for each part; each gives its inputs, in the names that the model knows, and what it had to assume.
2. A part that says nothing of itself is assumed as the middle of its trade (`ASSUMED`), with a caution.
3. A reading itself is taken as it stands: its own input has no spread, what is not known of it are inputs of their own.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import inf

from steadyhead.diagnosis.system import METER
from steadyhead.errors import SensorCheckError
from steadyhead.figures import COMMON_PRACTICE
from steadyhead.messages import Message, message
from steadyhead.published import gauge_classes, gauge_grades, standard_atmosphere
from steadyhead.published.source import Source
from steadyhead.sensorcheck.at_sensor import WATER_WITHIN, air_pa, correction_at, weight_pa_per_m
from steadyhead.sensorcheck.inputs import AS_GIVEN, About, Input, certified, exactly, resolved, scattered, within
from steadyhead.sensorcheck.plausible import off_scale
from steadyhead.sensorcheck.run import Certificate, CheckRun
from steadyhead.visit.grades import allowed_error
from steadyhead.visit.record import Gauge, Tolerance

#: Every input that an error can have.
INPUTS = (
    "reference-reading", "reference-correction", "reference-resolution", "reference-height", "weight-per-metre",
    "air-pressure", "signal", "meter-scale", "signal-correction", "signal-resolution", "supply", "supply-scale",
    "supply-correction", "shown", "display-resolution", "scatter", "hysteresis", "temperature",
)  # fmt: skip
#: Inputs that the model simply adds, where they are there.
ADDED = ("reference-resolution", "scatter", "hysteresis", "temperature")
#: Temperature that a plate's accuracy is told for [°C].
REFERENCE_C = 20.0
#: How far a sensor is from that, where nobody took its temperature [K]: water and plant rooms of 5 to 35 °C.
TEMPERATURE_WITHIN_K = 15.0
#: How far air may be from its estimate [Pa]: a phone's barometer; the weather about the altitude's standard air; and
#: the altitude itself, where nobody said.
AIR_MEASURED_PA, AIR_OF_ALTITUDE_PA, AIR_ASSUMED_PA = 200.0, 3000.0, 10_000.0
#: How far the weight of a metre of air in the line may be from its estimate, as a fraction: 0 to 35 °C.
AIR_WITHIN = 0.1


@dataclass(frozen=True, slots=True, kw_only=True)
class Scatter:
    """What repeated readings showed.

    Parameters
    ----------
    deviation_pa
        Standard deviation of one reading of the error about the mean of its pressure and direction [Pa].
    dof
        Degrees of freedom of that: readings less means.
    count
        How many readings the mean at this pressure is worth: 4 / (1/up + 1/down) of those up and down.
    hysteresis_pa
        Difference of the means up and down at this pressure [Pa].
    """

    deviation_pa: float
    dof: float
    count: float
    hysteresis_pa: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Gathered:
    """Inputs, and what was assumed to have them."""

    inputs: tuple[Input, ...]
    cautions: tuple[Message, ...] = ()

    @classmethod
    def together(cls, *parts: Gathered) -> Gathered:
        """Return several as one."""
        return cls(
            inputs=tuple(one for part in parts for one in part.inputs),
            cautions=tuple(said for part in parts for said in part.cautions),
        )


def _about(name: str, part: str, whence: str, dimension: str = "pressure", source: Source = AS_GIVEN) -> About:
    return About(name=name, dimension=dimension, part=part, whence=whence, source=source)


def of_reference(run: CheckRun, reading_pa: float) -> Gathered:
    """Return what is known of the pressure at the reference: its reading, its correction, its resolution.

    Raises
    ------
    SensorCheckError
        ``reference-accuracy-unknown`` or ``reference-off-scale``.
    """
    reference = run.reference
    inputs = [exactly(_about("reference-reading", "reference", "reading"), reading_pa)]
    if reference.certificate is not None:
        inputs.append(_certificate("reference-correction", "reference", reference.certificate, reading_pa))
    else:
        inputs.append(_graded(reference.gauge, reading_pa))
    if reference.resolution_pa is None:
        return Gathered(inputs=tuple(inputs), cautions=(message("reference-resolution-unknown"),))
    about = _about("reference-resolution", "reference", "resolution")
    return Gathered(inputs=(*inputs, resolved(about, 0.0, reference.resolution_pa)))


def _certificate(name: str, part: str, certificate: Certificate, reading: float, dimension: str = "pressure") -> Input:
    about = _about(name, part, "certificate", dimension, Source(
        cite=f"certificate {certificate.number}".strip(), locator=certificate.dated or "undated", seen="original",
    ))  # fmt: skip
    return certified(about, correction_at(certificate, reading), certificate.expanded, certificate.k)


def _graded(gauge: Gauge, reading_pa: float) -> Input:
    """Return the correction of a gauge without certificate: nothing, within what its grade allows."""
    if gauge.range is None or (gauge.accuracy is None and gauge.grade is None):
        raise SensorCheckError(message("reference-accuracy-unknown"))
    span, place = gauge.range.width, (reading_pa - gauge.range.low) / gauge.range.width
    if off_scale(gauge.range, reading_pa):
        told = message("reference-off-scale", got=reading_pa, low=gauge.range.low, high=gauge.range.high)
        raise SensorCheckError(told)
    if gauge.accuracy is not None:
        return within(_about("reference-correction", "reference", "plate"), 0.0, gauge.accuracy * span)
    grade = gauge.grade or ""
    source = gauge_grades.SOURCE if grade in gauge_grades.GRADES else gauge_classes.SOURCE
    allowed = allowed_error(grade, min(max(place, 0.0), 1.0))
    return within(_about("reference-correction", "reference", f"grade {grade}", source=source), 0.0, allowed * span)


def of_place(run: CheckRun, reading_pa: float) -> Gathered:
    """Return what stands between reference and sensor, and the air where the sensor feels it."""
    conditions = run.conditions
    weight = weight_pa_per_m(conditions, reading_pa)
    share = WATER_WITHIN if conditions.medium == "water" else AIR_WITHIN
    inputs = [
        within(
            _about("reference-height", "place", "conditions", "length"),
            conditions.height_above_m,
            conditions.height_u_m,
        ),
        within(_about("weight-per-metre", "place", conditions.medium, source=COMMON_PRACTICE), weight, share * weight),
    ]
    if run.sensor.reference != "gauge":
        inputs.append(_air(run))
    silent = conditions.height_m is None and conditions.medium == "water"
    return Gathered(inputs=tuple(inputs), cautions=(message("height-not-said", each=weight),) if silent else ())


def _air(run: CheckRun) -> Input:
    conditions = run.conditions
    whence, half_width_pa = ("assumed", AIR_ASSUMED_PA)
    if conditions.barometer_pa is not None:
        whence, half_width_pa = ("barometer", AIR_MEASURED_PA)
    elif conditions.altitude_m is not None:
        whence, half_width_pa = ("altitude", AIR_OF_ALTITUDE_PA)
    source = COMMON_PRACTICE if whence == "barometer" else standard_atmosphere.SOURCE
    about = _about("air-pressure", "place", whence, "absolute-pressure", source)
    return within(about, air_pa(conditions), half_width_pa)


def of_signal(run: CheckRun, signal: float, supply_v: float | None) -> Gathered:
    """Return what is known of a signal that a meter read, and of the supply beside it.

    Parameters
    ----------
    run
        The check.
    signal
        What was read [V or A].
    supply_v
        The supply [V], where the sensor's output is a part of it; else None.
    """
    meter, current = run.meter, run.sensor.signal.kind == "current"
    dimension = "current" if current else "voltage"
    tolerance = meter.signal or METER["A" if current else "V"]
    assumed = meter.signal is None and meter.certificate is None
    inputs = [exactly(_about("signal", "meter", "reading", dimension), signal)]
    if meter.certificate is not None:
        inputs += [
            _no_scale("meter-scale"),
            _certificate("signal-correction", "meter", meter.certificate, signal, dimension),
            resolved(_about("signal-resolution", "meter", "resolution", dimension), 0.0, tolerance.count),
        ]
    else:
        inputs += [_scale("meter-scale", tolerance), _counts("signal-correction", tolerance, dimension)]
    if supply_v is not None:
        inputs += _supply(run, supply_v, tolerance)
    return Gathered(inputs=tuple(inputs), cautions=(message("meter-assumed", measure=dimension),) if assumed else ())


def _supply(run: CheckRun, supply_v: float, as_signal: Tolerance) -> list[Input]:
    """Return the supply's volts; with one meter on one range its scale error is the signal's own."""
    meter = run.meter
    tolerance = meter.supply or as_signal
    inputs = [exactly(_about("supply", "meter", "reading", "voltage"), supply_v)]
    if meter.certificate is not None and meter.same_meter:
        certificate = _certificate("supply-correction", "meter", meter.certificate, supply_v, "voltage")
        return [*inputs, certificate]
    if not meter.same_meter or meter.certificate is not None or meter.supply not in {None, meter.signal}:
        inputs.append(_scale("supply-scale", tolerance))
    return [*inputs, _counts("supply-correction", tolerance, "voltage")]


def _scale(name: str, tolerance: Tolerance) -> Input:
    return within(_about(name, "meter", "accuracy", "percent"), 0.0, tolerance.relative)


def _no_scale(name: str) -> Input:
    return exactly(_about(name, "meter", "certificate", "percent"), 0.0)


def _counts(name: str, tolerance: Tolerance, dimension: str) -> Input:
    """Return a meter's counts; one that tells none still shows no less than its last digit."""
    return within(_about(name, "meter", "accuracy", dimension), 0.0, tolerance.absolute or tolerance.count / 2.0)


def of_display(run: CheckRun, shown_pa: float) -> Gathered:
    """Return what is known of a pressure that the controller showed: its last digit."""
    inputs = (exactly(_about("shown", "meter", "reading"), shown_pa),)
    about = _about("display-resolution", "meter", "resolution")
    if run.shown_step_pa is None:
        unknown = message("display-resolution-unknown")
        return Gathered(inputs=(*inputs, exactly(about, 0.0)), cautions=(unknown,))
    return Gathered(inputs=(*inputs, resolved(about, 0.0, run.shown_step_pa)))


def of_sensor(run: CheckRun, scatter: Scatter | None) -> Gathered:
    """Return what the sensor itself adds: how badly it repeats, what it keeps from the way it came, its temperature."""
    heat = _temperature(run)
    if scatter is None:
        return Gathered(inputs=heat, cautions=(message("repeatability-unknown"),))
    inputs = [*heat]
    if scatter.hysteresis_pa:
        inputs.append(within(_about("hysteresis", "sensor", "readings"), 0.0, abs(scatter.hysteresis_pa) / 2.0))
    if scatter.dof < 1:
        return Gathered(inputs=tuple(inputs), cautions=(message("repeatability-unknown"),))
    about = _about("scatter", "sensor", "readings")
    inputs.append(scattered(about, 0.0, scatter.deviation_pa, count=scatter.count, dof=scatter.dof))
    return Gathered(inputs=tuple(inputs))


def _temperature(run: CheckRun) -> tuple[Input, ...]:
    """Return what a temperature away from 20 °C may do, where the plate allows something for it."""
    conditions = run.conditions
    if conditions.temperature_effect is None:
        return ()
    away = TEMPERATURE_WITHIN_K
    if conditions.temperature_c is not None:
        away = abs(conditions.temperature_c - REFERENCE_C) + (conditions.temperature_u_c or 0.0)
    half_width = conditions.temperature_effect * away * run.sensor.range.width
    return (within(_about("temperature", "sensor", "plate"), 0.0, half_width, dof=inf),)
