"""What pressure the sensor told: its output turned back into pressure along the line of its plate.

Rules
-----
1. A ratiometric output counts only with its supply at the same moment; a point without it says nothing of the sensor.
2. What is read as `displayed-pressure` is what the controller showed: the sensor, the cable, the input and its setting
   together. That of an absolute or sealed sensor counts against the sensor's own reference, as its range does.
3. A meter's certificate corrects what it read; its corrections stand in the signal's own unit.
"""

from __future__ import annotations

from steadyhead.figures import COMMON_PRACTICE, Figure, given
from steadyhead.messages import Message, message
from steadyhead.published.source import Source
from steadyhead.sensorcheck.at_sensor import correction_at, range_ends
from steadyhead.sensorcheck.run import CheckRun
from steadyhead.visit.record import Sensor

USUAL_RATIOMETRIC_V = 5.0  #: volts that a ratiometric plate means where it does not say (common practice)
_LINE = Source(
    cite="IEC 60381-1:1982 and -2:1978, analogue signals: linear between both ends", locator="scope", seen="memory"
)


def nominal_supply_v(sensor: Sensor) -> float:
    """Return the volts that a ratiometric plate's signal is told for.

    Where the plate gives two ends (``4.75..5.25 V``), their middle; where it gives none, 5 V.
    """
    return USUAL_RATIOMETRIC_V if sensor.supply is None else sensor.supply.middle


def unusable(run: CheckRun, number: int) -> Message | None:
    """Return why a point says nothing of the sensor, or None where it does.

    Parameters
    ----------
    run
        The check.
    number
        Which point, from 1.
    """
    point = run.points[number - 1]
    if run.read_as == "displayed-pressure":
        return message("point-without-display", point=number) if point.shown_pa is None else None
    if point.signal is None:
        return message("point-without-signal", point=number)
    if run.sensor.signal.kind == "ratiometric" and not point.supply_v:
        return message("point-without-supply", point=number)
    return None


def told_pressure(run: CheckRun, number: int) -> Figure:
    """Return the pressure that the sensor told at a usable point, as a figure.

    ``range-low + (signal - signal-low) / (signal-high - signal-low) x (range-high - range-low)``.

    Parameters
    ----------
    run
        The check.
    number
        Which point, from 1; one that `unusable` finds nothing against.
    """
    if run.read_as == "displayed-pressure":
        return _shown(run, number)
    signal, (low, high) = output(run, number), range_ends(run)
    first, last = signal_ends(run)
    share = (signal.value - first.value) / (last.value - first.value)
    return Figure(
        name="pressure-told", value=low.value + share * (high.value - low.value), dimension="pressure",
        formula=f"{low.name} + ({signal.name} - signal-low) / (signal-high - signal-low) x ({high.name} - {low.name})",
        inputs=(signal, first, last, low, high), source=_LINE,
    )  # fmt: skip


def _shown(run: CheckRun, number: int) -> Figure:
    """Return the pressure that the controller showed, as gauge pressure here."""
    point, (low, _) = run.points[number - 1], range_ends(run)
    assert point.shown_pa is not None  # noqa: S101 - the caller asked `unusable`
    if run.sensor.reference == "gauge":
        return given("pressure-told", point.shown_pa, "pressure", f"point {number}")
    shown = given("shown", point.shown_pa, "pressure", f"point {number}")
    plate = given("range-low", run.sensor.range.low, "pressure", "plate")
    return Figure(
        name="pressure-told", value=shown.value - plate.value + low.value, dimension="pressure",
        formula=f"shown - range-low + {low.name}", inputs=(shown, plate, low), source=COMMON_PRACTICE,
    )  # fmt: skip


def output(run: CheckRun, number: int) -> Figure:
    """Return the sensor's output at a usable point [V or A]; a ratiometric one's as it were at its nominal supply."""
    point, dimension = run.points[number - 1], signal_dimension(run.sensor)
    assert point.signal is not None  # noqa: S101 - the caller asked `unusable`
    signal = given("signal-read", point.signal, dimension, f"point {number}")
    if run.meter.certificate is not None:
        correction = given(
            "meter-correction", correction_at(run.meter.certificate, point.signal), dimension, "certificate"
        )
        signal = Figure(
            name="signal", value=signal.value + correction.value, dimension=dimension,
            formula="signal-read + meter-correction", inputs=(signal, correction),
        )  # fmt: skip
    if run.sensor.signal.kind != "ratiometric":
        return signal
    assert point.supply_v is not None  # noqa: S101 - the caller asked `unusable`
    supply = given("supply-read", point.supply_v, "voltage", f"point {number}")
    nominal = given("supply-nominal", nominal_supply_v(run.sensor), "voltage", "plate", COMMON_PRACTICE)
    return Figure(
        name="signal-at-nominal-supply", value=signal.value / supply.value * nominal.value, dimension=dimension,
        formula=f"{signal.name} / supply-read x supply-nominal", inputs=(signal, supply, nominal),
        source=COMMON_PRACTICE,
    )  # fmt: skip


def signal_ends(run: CheckRun) -> tuple[Figure, Figure]:
    """Return the plate's signal at both ends of its range [V or A]."""
    signal, dimension = run.sensor.signal, signal_dimension(run.sensor)
    return given("signal-low", signal.low, dimension, "plate"), given("signal-high", signal.high, dimension, "plate")


def signal_dimension(sensor: Sensor) -> str:
    """Return what the sensor puts out: ``voltage`` or ``current``."""
    return "current" if sensor.signal.kind == "current" else "voltage"
