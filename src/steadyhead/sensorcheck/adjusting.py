"""A new range setting for the controller from what a check found, and what would still be wrong after it.

Rules
-----
1. The setting is the pressure that the controller shows at the two ends of the signal. It is taken from the line of
   least squares of the true pressure on what the sensor told, every level alike.
2. With `keep_low` only the upper end is changed: many house drives ask for nothing else. The line then goes through the
   lower end as it is.
3. What is left after it is told at every level, and its greatest beside the tolerance.
4. It is refused where no straight line helps: non-linearity and hysteresis together above `LARGEST_BEND` of the
   tolerance. A bent sensor is replaced, not adjusted.
5. It is refused where the change is mere noise: no level's correction stands out of its own expanded uncertainty (the
   scatter of the points, and the reference). One does not set a controller by a gauge's own error.
6. It is refused with fewer than three levels, or with less than `SMALLEST_PART` of the range checked: the setting is
   drawn on to both ends of the range, and a short stretch swings there.
7. A refusal is an answer, with its reasons; what the setting would have been stands beside it.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import sqrt
from typing import NamedTuple

from steadyhead.figures import COMMON_PRACTICE, Figure, given
from steadyhead.messages import Message, message
from steadyhead.sensorcheck.at_sensor import range_here
from steadyhead.sensorcheck.characteristics import FEWEST_FOR_LINEARITY, Characteristics
from steadyhead.sensorcheck.errors import Level
from steadyhead.sensorcheck.lines import Fit, Line, least_squares, through_origin
from steadyhead.sensorcheck.run import CheckRun
from steadyhead.visit.record import Interval

LARGEST_BEND = 0.5  #: of the tolerance (common practice)
SMALLEST_PART = 0.3  #: of the sensor's range (common practice)
K = 2.0  #: a change must stand out of so many standard uncertainties


@dataclass(frozen=True, slots=True, kw_only=True)
class Residual:
    """What is wrong at a level before and after the new setting [Pa]."""

    pressure: Figure
    before: Figure
    after: Figure


@dataclass(frozen=True, slots=True, kw_only=True)
class Adjustment:
    """A new setting, or why there is none.

    Parameters
    ----------
    was
        The setting that the sensor's output was taken for [Pa, against the sensor's own reference].
    low, high
        The new setting [Pa, likewise]; None where no line can be laid at all.
    residuals
        What is wrong at each level before and after.
    worst_before, worst_after
        The greatest of them, without sign.
    refused
        Why it must not be set; empty where it may.
    notes
        What must be said beside it.
    """

    was: Interval
    low: Figure | None
    high: Figure | None
    residuals: tuple[Residual, ...]
    worst_before: float
    worst_after: float | None
    refused: tuple[Message, ...]
    notes: tuple[Message, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Basis:
    """What an adjustment stands on.

    Parameters
    ----------
    tolerance
        What the sensor is judged by [fraction of span]; None: its bend is judged by nothing, and that is told.
    u_reference_pa
        Standard uncertainty of an error at a level from all that no scatter shows: reference, meter, height [Pa].
    scaled
        The controller's setting as it is [Pa, against the sensor's own reference]; None: taken for its range.
    keep_low
        Whether only the upper end may be changed.
    """

    tolerance: float | None
    u_reference_pa: float
    scaled: Interval | None = None
    keep_low: bool = False


def adjustment(run: CheckRun, found: Characteristics, basis: Basis) -> Adjustment:
    """Return the controller's setting that suits this sensor best.

    Parameters
    ----------
    run
        The as-found run.
    found
        What it says of the sensor.
    basis
        Tolerance, uncertainty, and the setting as it is.

    Notes
    -----
    A run that was read from the controller's display is adjusted from the setting that made that display; `scaled`
    should then be given.
    """
    range_ = range_here(run.sensor, run.conditions)
    moved = run.sensor.range.low - range_.low
    shown = run.read_as == "displayed-pressure"
    was = basis.scaled if basis.scaled is not None else run.sensor.range
    taken_for = Interval(was.low - moved, was.high - moved) if shown else range_
    line = _line(found.levels, taken_for, keep_low=basis.keep_low)
    worst_before = max(abs(each.both.value) for each in found.levels)
    refused = tuple(_refusals(found, basis, line, range_))
    notes = tuple(_notes(run, found, basis))
    if line is None:
        return Adjustment(
            was=was, low=None, high=None, residuals=(), worst_before=worst_before, worst_after=None, refused=refused,
            notes=notes,
        )  # fmt: skip
    residuals = tuple(_residual(each, line) for each in found.levels)
    return Adjustment(
        was=was, low=_end("scaled-low", line, Ends(taken_for.low, moved, run.sensor.reference), found.levels),
        high=_end("scaled-high", line, Ends(taken_for.high, moved, run.sensor.reference), found.levels),
        residuals=residuals, worst_before=worst_before,
        worst_after=max(abs(each.after.value) for each in residuals), refused=refused, notes=notes,
    )  # fmt: skip


def _told(level: Level) -> float:
    """Return what the sensor told at a level, as its mean error has it."""
    return level.pressure.value + level.both.value


def _line(levels: Sequence[Level], taken_for: Interval, *, keep_low: bool) -> Line | None:
    """Return the line of true pressure on told pressure."""
    told, true = [_told(each) for each in levels], [each.pressure.value for each in levels]
    if len(set(told)) < 2:
        return None
    if not keep_low:
        return least_squares(told, true)
    slope = through_origin([each - taken_for.low for each in told], [each - taken_for.low for each in true]).slope
    return Line(intercept=taken_for.low * (1.0 - slope), slope=slope)


class Ends(NamedTuple):
    """An end of the setting as gauge pressure here, what the plate's pressures lie above that, and their reference."""

    here: float
    moved: float
    reference: str


def _end(name: str, line: Line, end: Ends, levels: Sequence[Level]) -> Figure:
    """Return a new end of the setting against the sensor's own reference, as its plate has it."""
    inputs = [figure for each in levels for figure in (each.pressure, each.both)]
    inputs.append(given("setting-as-found", end.here, "pressure", "controller"))
    formula = "least-squares line of level on level + mean-error, at this end of the signal"
    if end.moved:
        inputs.append(given("gauge-to-plate", end.moved, "pressure", "conditions"))
        formula += ", + gauge-to-plate"
    return Figure(
        name=name, value=line.at(end.here) + end.moved, formula=formula, inputs=tuple(inputs), source=COMMON_PRACTICE,
        dimension="absolute-pressure" if end.reference == "absolute" else "pressure",
        standard_uncertainty=line.u_at(end.here) if isinstance(line, Fit) else None,
    )  # fmt: skip


def _residual(level: Level, line: Line) -> Residual:
    told = Figure(
        name="told-after", value=line.at(_told(level)), dimension="pressure",
        formula="scaled-low + (level + mean-error - low) / (high - low) x (scaled-high - scaled-low)",
        inputs=(level.pressure, level.both),
    )  # fmt: skip
    after = Figure(
        name="residual-error", value=told.value - level.pressure.value, dimension="pressure",
        formula="told-after - level", inputs=(told, level.pressure),
    )  # fmt: skip
    return Residual(pressure=level.pressure, before=level.both, after=after)


# ------------------------------------------------------------ when not to


def _refusals(found: Characteristics, basis: Basis, line: Line | None, range_: Interval) -> Iterator[Message]:
    count = len(found.levels)
    if count < FEWEST_FOR_LINEARITY or line is None:
        yield message("adjust-needs-levels", got=count, least=FEWEST_FOR_LINEARITY)
        return
    part = (found.levels[-1].pressure.value - found.levels[0].pressure.value) / range_.width
    if part < SMALLEST_PART:
        yield message("adjust-needs-range", got=part, least=SMALLEST_PART)
    bend, allowed = bend_of(found), _allowed_bend(found, basis)
    if allowed is not None and bend > allowed:
        yield message("adjust-too-bent", bend=bend, allowed=allowed, share=LARGEST_BEND)
    change = max(abs(line.at(_told(each)) - _told(each)) for each in found.levels)
    u = _u_of_change(found.levels, basis)
    if change <= K * u:
        yield message("adjust-mere-noise", change=change, expanded=K * u)


def _u_of_change(levels: Sequence[Level], basis: Basis) -> float:
    """Return how well the change is known [Pa]: the scatter about the line at its worst level, and the reference."""
    fit = least_squares([_told(each) for each in levels], [each.pressure.value for each in levels])
    scatter = max(fit.u_at(_told(each)) or 0.0 for each in levels)
    return sqrt(scatter**2 + basis.u_reference_pa**2)


def bend_of(found: Characteristics) -> float:
    """Return what no straight line takes away [Pa]: least-squares non-linearity and hysteresis, one on the other."""
    straight = 0.0 if found.linearity is None else found.linearity.least_squares.value
    return straight + (0.0 if found.hysteresis is None else found.hysteresis.value)


def _allowed_bend(found: Characteristics, basis: Basis) -> float | None:
    return None if basis.tolerance is None else LARGEST_BEND * basis.tolerance * found.span.value


def _notes(run: CheckRun, found: Characteristics, basis: Basis) -> Iterator[Message]:
    if run.sensor.reference == "absolute":
        yield message("adjust-in-absolute")
    if basis.tolerance is None:
        yield message("adjust-without-tolerance")
    if run.read_as == "displayed-pressure" and basis.scaled is None:
        yield message("adjust-setting-assumed")
    part = (found.levels[-1].pressure.value - found.levels[0].pressure.value) / found.span.value
    if SMALLEST_PART <= part < 0.9:
        yield message("adjust-drawn-on", highest=found.levels[-1].pressure.value, share=part)
    yield message("adjust-write-down-old")
