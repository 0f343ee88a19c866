"""The error of the sensor at each point, and the levels that the points stand at.

Rules
-----
1. An error is what the sensor told, less what stood at it: in pressure, in percent of its span, and in its own signal.
2. Points at about one pressure are one *level*: a level begins where the next pressure is more than `SAME_LEVEL` of the
   span above the lowest of it. Errors are compared, not readings, so that pressures need not be hit exactly.
3. The mean error of a level is the mean of its mean going up and its mean coming down, so that one direction taken more
   often does not weigh more; where only one was taken it is that one's.
4. A point that says nothing of the sensor is left out and told.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from steadyhead.errors import FitError
from steadyhead.figures import Figure
from steadyhead.messages import Message, message
from steadyhead.published.source import Source
from steadyhead.sensorcheck.at_sensor import pressure_at_sensor, range_ends
from steadyhead.sensorcheck.output import output, signal_ends, told_pressure, unusable
from steadyhead.sensorcheck.run import CheckRun, Direction
from steadyhead.sensorcheck.spread import mean

SAME_LEVEL = 0.02  #: of span
IEC = Source(
    cite="IEC 61298-2:2008, Process measurement and control devices, methods of evaluating performance, part 2",
    locator="clause 4, accuracy related factors",
    seen="memory",
)


@dataclass(frozen=True, slots=True, kw_only=True)
class PointError:
    """What one point says.

    Parameters
    ----------
    number
        Which point of the run, from 1.
    cycle, direction
        As the point has them.
    true
        Pressure at the sensor [Pa].
    told
        Pressure that the sensor told [Pa].
    error
        The one less the other [Pa].
    of_span
        The same as a fraction of the sensor's span.
    in_signal
        The same in the sensor's own signal [V or A]; None where only a display was read.
    """

    number: int
    cycle: int
    direction: Direction
    true: Figure
    told: Figure
    error: Figure
    of_span: Figure
    in_signal: Figure | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Level:
    """Points at about one pressure.

    Parameters
    ----------
    pressure
        Mean pressure at the sensor [Pa].
    points
        Its points, in the order in which they were taken.
    up, down
        Mean error of those taken going up, and coming down; None where there are none [Pa].
    both
        Mean error of the level [Pa].
    """

    pressure: Figure
    points: tuple[PointError, ...]
    up: Figure | None
    down: Figure | None
    both: Figure

    def towards(self, direction: Direction) -> tuple[PointError, ...]:
        """Return the points that were approached in a direction."""
        return tuple(each for each in self.points if each.direction == direction)


def left_out(run: CheckRun) -> tuple[Message, ...]:
    """Return why each point that says nothing of the sensor was left out."""
    found = (unusable(run, number) for number in range(1, len(run.points) + 1))
    return tuple(each for each in found if each is not None)


def point_errors(run: CheckRun) -> tuple[PointError, ...]:
    """Return the error at each usable point, in the order in which they were taken.

    Raises
    ------
    FitError
        ``no-usable-point``: not one point says anything of the sensor.
    """
    span = span_figure(run)
    found = tuple(_point_error(run, number, span) for number in _usable(run))
    if not found:
        raise FitError(message("no-usable-point"))
    return found


def span_figure(run: CheckRun) -> Figure:
    """Return the sensor's span: the width of its range [Pa]."""
    low, high = range_ends(run)
    return Figure(
        name="span", value=high.value - low.value, dimension="pressure", formula=f"{high.name} - {low.name}",
        inputs=(low, high),
    )  # fmt: skip


def levels_of(errors: Iterable[PointError], span_pa: float) -> tuple[Level, ...]:
    """Return the levels of points, the lowest first.

    Parameters
    ----------
    errors
        What the points say.
    span_pa
        The sensor's span [Pa].
    """
    groups: list[list[PointError]] = []
    for each in sorted(errors, key=lambda one: one.true.value):
        if groups and each.true.value - groups[-1][0].true.value <= SAME_LEVEL * span_pa:
            groups[-1].append(each)
        else:
            groups.append([each])
    return tuple(_level(sorted(group, key=lambda one: one.number)) for group in groups)


def mean_figure(name: str, figures: Iterable[Figure]) -> Figure:
    """Return the mean of figures of one dimension."""
    inputs = tuple(figures)
    return Figure(
        name=name, value=mean([each.value for each in inputs]), dimension=inputs[0].dimension, formula="sum / count",
        inputs=inputs, source=IEC,
    )  # fmt: skip


def part_of(name: str, figure: Figure, span: Figure) -> Figure:
    """Return a pressure as a fraction of the span."""
    return Figure(
        name=name, value=figure.value / span.value, dimension="percent", formula=f"{figure.name} / span",
        inputs=(figure, span),
    )  # fmt: skip


def _usable(run: CheckRun) -> Iterator[int]:
    return (number for number in range(1, len(run.points) + 1) if unusable(run, number) is None)


def _point_error(run: CheckRun, number: int, span: Figure) -> PointError:
    point, true, told = run.points[number - 1], pressure_at_sensor(run, number), told_pressure(run, number)
    error = Figure(
        name="error", value=told.value - true.value, dimension="pressure", formula="pressure-told - pressure-at-sensor",
        inputs=(told, true), source=IEC,
    )  # fmt: skip
    return PointError(
        number=number, cycle=point.cycle, direction=point.direction, true=true, told=told, error=error,
        of_span=part_of("error-of-span", error, span), in_signal=_in_signal(run, number, true, span),
    )  # fmt: skip


def _in_signal(run: CheckRun, number: int, true: Figure, span: Figure) -> Figure | None:
    """Return the error in the sensor's own signal; a ratiometric one's at its nominal supply."""
    if run.read_as == "displayed-pressure":
        return None
    signal, (first, last), low = output(run, number), signal_ends(run), range_ends(run)[0]
    width = last.value - first.value
    expected = Figure(
        name="signal-expected", value=first.value + (true.value - low.value) / span.value * width,
        dimension=signal.dimension,
        formula=f"signal-low + (pressure-at-sensor - {low.name}) / span x (signal-high - signal-low)",
        inputs=(first, last, true, low, span),
    )  # fmt: skip
    return Figure(
        name="error-in-signal", value=signal.value - expected.value, dimension=signal.dimension,
        formula=f"{signal.name} - signal-expected", inputs=(signal, expected), source=IEC,
    )  # fmt: skip


def _level(points: list[PointError]) -> Level:
    ups = [each.error for each in points if each.direction == "up"]
    downs = [each.error for each in points if each.direction == "down"]
    up = mean_figure("mean-error-up", ups) if ups else None
    down = mean_figure("mean-error-down", downs) if downs else None
    return Level(
        pressure=mean_figure("level", (each.true for each in points)), points=tuple(points), up=up, down=down,
        both=mean_figure("mean-error", (each for each in (up, down) if each is not None)),
    )  # fmt: skip
