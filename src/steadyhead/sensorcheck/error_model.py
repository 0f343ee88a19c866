"""The error of a pressure sensor at one point, as a function of everything that it depends on.

``error = pressure told - (reading + correction + height x weight of a metre) + what scatters``

Rules
-----
1. What is judged is the mean of what was read at one pressure, up and down and in every cycle together.
2. The reference is known by its certificate (normal, with its own k); without one by its grade or class, or by its
   accuracy of span: limits, and nothing known within them (rectangular).
3. Percent of a meter's accuracy is one scale error, the same for all that it reads on one range: in the ratio of signal
   and supply it cancels, if both were read so. Its counts are independent from reading to reading.
4. What repeats badly comes in by the standard deviation of repeated readings, with its degrees of freedom; what differs
   up and down by half of the difference, to either side.
5. Temperature comes in where the plate allows an effect of its own: over the distance from 20 °C, to either side.
6. An absolute or sealed sensor is compared with a gauge through the pressure of the air, whose own uncertainty counts.
7. What nobody said is assumed, and told: never left out in silence (`ErrorAtPoint.cautions`).

Everything that affects which inputs an error has lives in this file and in `error_inputs`.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from steadyhead.errors import SensorCheckError
from steadyhead.figures import COMMON_PRACTICE, Figure, given
from steadyhead.messages import Message, message
from steadyhead.published.source import Source
from steadyhead.published.standard_atmosphere import SEA_LEVEL_PA
from steadyhead.sensorcheck import error_inputs
from steadyhead.sensorcheck.at_sensor import air_told
from steadyhead.sensorcheck.budget import Budget, budget_of
from steadyhead.sensorcheck.error_inputs import Gathered, Scatter
from steadyhead.sensorcheck.measurand import Measurand, Model
from steadyhead.sensorcheck.output import nominal_supply_v, signal_ends
from steadyhead.sensorcheck.run import CheckRun
from steadyhead.visit.record import Interval

MEASURED_ERROR = Source(cite="IEC 61298-2:2008", locator="measured error", seen="memory")


@dataclass(frozen=True, slots=True, kw_only=True)
class Met:
    """What was read at one pressure: means, where it was met more than once.

    Parameters
    ----------
    reference_pa
        The reference's reading, uncorrected [Pa].
    signal
        The sensor's output [V or A]; None where only the display was read.
    supply_v
        Volts of its supply [V]; of a ratiometric sensor they must be known.
    shown_pa
        What the controller showed [Pa].
    """

    reference_pa: float
    signal: float | None = None
    supply_v: float | None = None
    shown_pa: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class ErrorAtPoint:
    """The error at one pressure, with its uncertainty.

    Parameters
    ----------
    budget
        The error [Pa] with its budget.
    of_span
        The same as a fraction of the sensor's span.
    span_pa
        That span [Pa].
    cautions
        What was assumed.
    """

    budget: Budget
    of_span: Figure
    span_pa: float
    cautions: tuple[Message, ...]


def error_at(run: CheckRun, met: Met, scatter: Scatter | None = None) -> ErrorAtPoint:
    """Return the sensor's error at one pressure with its uncertainty budget.

    Parameters
    ----------
    run
        The check: sensor, reference, meter and conditions; its points are not looked at.
    met
        What was read at this pressure.
    scatter
        What repeated readings showed; None: none were taken, which is told.

    Returns
    -------
    ErrorAtPoint
        The error in pascal and as a fraction of span.

    Raises
    ------
    SensorCheckError
        ``reference-accuracy-unknown``, ``reference-off-scale``, ``signal-not-read``, ``supply-not-read`` or
        ``display-not-read``.
    RangeOfValidityError
        An altitude outside -5000..11000 m.

    Notes
    -----
    Left out: how the pressure changes while it is read, and how the reference drifted since its certificate.

    References
    ----------
    JCGM 100:2008, 4.3, 5.1 and F.1.2.3 (from memory); IEC 61298-2:2008 (from memory).
    """
    asked, cautions = measurand_at(run, met, scatter)
    budget = budget_of(asked)
    span_pa = run.sensor.range.width
    span = given("span", span_pa, "pressure", "plate")
    of_span = Figure(
        name="error-of-span",
        value=budget.value / span_pa,
        dimension="percent",
        formula="error / span",
        inputs=(budget.figure, span),
        source=MEASURED_ERROR,
        standard_uncertainty=budget.combined / span_pa,
    )
    return ErrorAtPoint(budget=budget, of_span=of_span, span_pa=span_pa, cautions=cautions)


def measurand_at(run: CheckRun, met: Met, scatter: Scatter | None = None) -> tuple[Measurand, tuple[Message, ...]]:
    """Return the error at one pressure as a measurand, for a budget or a Monte Carlo run, and what was assumed.

    Parameters and errors are those of `error_at`.
    """
    _require(run, met)
    gathered = Gathered.together(
        error_inputs.of_reference(run, met.reference_pa),
        error_inputs.of_place(run, met.reference_pa),
        _of_output(run, met),
        error_inputs.of_sensor(run, scatter),
    )
    told = _by_display(run, gathered) if run.read_as == "displayed-pressure" else _by_signal(run, gathered)
    added = tuple(one.name for one in gathered.inputs if one.name in error_inputs.ADDED)
    true = "(reference-reading + reference-correction + reference-height x weight-per-metre)"
    asked = Measurand(
        name="error",
        dimension="pressure",
        formula=f"{told.formula} - {true}" + "".join(f" + {name}" for name in added),
        model=_error(told.model, added),
        inputs=gathered.inputs,
        source=MEASURED_ERROR,
        constants=told.constants,
    )
    return asked, gathered.cautions + air_told(run)


def _require(run: CheckRun, met: Met) -> None:
    """Refuse what lacks the very reading that it is judged by."""
    if run.read_as == "displayed-pressure":
        if met.shown_pa is None:
            raise SensorCheckError(message("display-not-read"))
    elif met.signal is None:
        raise SensorCheckError(message("signal-not-read"))
    elif run.sensor.signal.kind == "ratiometric" and not met.supply_v:
        raise SensorCheckError(message("supply-not-read"))


def _of_output(run: CheckRun, met: Met) -> Gathered:
    if run.read_as == "displayed-pressure":
        return error_inputs.of_display(run, met.shown_pa or 0.0)
    supply = met.supply_v if run.sensor.signal.kind == "ratiometric" else None
    return error_inputs.of_signal(run, met.signal or 0.0, supply)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Told:
    """The pressure told [Pa gauge]: as a reader sees it, as a model, and what it takes of the plate."""

    formula: str
    model: Model
    constants: tuple[Figure, ...] = ()


def _by_display(run: CheckRun, gathered: Gathered) -> _Told:
    """Return the pressure that the controller showed."""
    plain = _Told(formula="shown + display-resolution", model=lambda of: of["shown"] + of["display-resolution"])
    return _as_gauge_pressure(plain, run, gathered)


def _by_signal(run: CheckRun, gathered: Gathered) -> _Told:
    """Return the pressure that the signal tells, by the line of the plate."""
    names = {one.name for one in gathered.inputs}
    formula = "(signal x (1 + meter-scale) + signal-correction"
    formula += " + signal-resolution)" if "signal-resolution" in names else ")"
    low, high = signal_ends(run)
    plate = run.sensor.range
    constants = [low, high, given("range-low", plate.low, "pressure", "plate"),
                 given("range-high", plate.high, "pressure", "plate")]  # fmt: skip
    nominal_v = None
    if run.sensor.signal.kind == "ratiometric":
        nominal_v = nominal_supply_v(run.sensor)
        scale = "supply-scale" if "supply-scale" in names else "meter-scale"
        formula += f" / (supply x (1 + {scale}) + supply-correction) x supply-nominal"
        constants.append(given("supply-nominal", nominal_v, "voltage", "plate", COMMON_PRACTICE))
    line = _Line(range=plate, low=low.value, width=high.value - low.value, nominal_v=nominal_v)
    told = _Told(
        formula=f"range-low + ({formula} - signal-low) / (signal-high - signal-low) x (range-high - range-low)",
        model=line.told,
        constants=tuple(constants),
    )
    return _as_gauge_pressure(told, run, gathered)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Line:
    """The line of a plate, and the meter's share in what was read along it."""

    range: Interval
    low: float
    width: float
    nominal_v: float | None

    def told(self, of: Mapping[str, float]) -> float:
        """Return the pressure told, by the plate's own zero [Pa]."""
        output = of["signal"] * (1 + of["meter-scale"]) + of["signal-correction"]
        if "signal-resolution" in of:
            output = output + of["signal-resolution"]
        if self.nominal_v is not None:
            scale = of["supply-scale"] if "supply-scale" in of else of["meter-scale"]
            output = output / (of["supply"] * (1 + scale) + of["supply-correction"]) * self.nominal_v
        return self.range.low + (output - self.low) / self.width * self.range.width


def _as_gauge_pressure(told: _Told, run: CheckRun, gathered: Gathered) -> _Told:
    """Return what was told as gauge pressure: an absolute or sealed sensor feels the air as well."""
    if not any(one.name == "air-pressure" for one in gathered.inputs):
        return told
    sealed_pa = SEA_LEVEL_PA if run.sensor.reference == "sealed" else 0.0
    return _Told(
        formula=f"{told.formula} - air-pressure + sealed-at",
        model=lambda of: told.model(of) - of["air-pressure"] + sealed_pa,
        constants=(*told.constants, given("sealed-at", sealed_pa, "absolute-pressure", "plate")),
    )


def _error(told: Model, added: tuple[str, ...]) -> Model:
    def model(of: Mapping[str, float]) -> float:
        true = of["reference-reading"] + of["reference-correction"] + of["reference-height"] * of["weight-per-metre"]
        error = told(of) - true
        for name in added:
            error = error + of[name]
        return error

    return model
