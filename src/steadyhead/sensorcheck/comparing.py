"""What an adjustment or a repair changed, and how a sensor drifts from one check to the next.

Rules
-----
1. As-found and as-left are compared level by level; only levels that both runs have are.
2. A drift is a slope over dates: least squares, weighted where every figure has its uncertainty. It is refused with
   fewer than two dates: one check has no drift.
3. Two dates give a line and no scatter: then the drift's uncertainty comes from the figures' own, or is not known.
4. Where more dates scatter wider than their uncertainties say, the drift's uncertainty is widened by that ratio.
5. Checks belong to one sensor by its serial number; whoever gathers them must see to it (`of_one_sensor`).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from steadyhead.errors import SensorCheckError
from steadyhead.figures import COMMON_PRACTICE, Figure, given
from steadyhead.messages import message
from steadyhead.published.source import Source
from steadyhead.sensorcheck.characteristics import Characteristics
from steadyhead.sensorcheck.errors import SAME_LEVEL, Level
from steadyhead.sensorcheck.lines import Fit, least_squares, weighted_least_squares
from steadyhead.sensorcheck.run import CheckRun

DAYS_PER_YEAR = 365.2425  #: mean length of a calendar year
_BIRGE = Source(
    cite="common practice, after R. T. Birge", locator="widen by sqrt(chi-squared / degrees) where that is above 1",
    seen="memory",
)  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class Changed:
    """The mean error at a level before and after, and the difference [Pa]."""

    found: Level
    left: Level
    change: Figure


def compared(as_found: Characteristics, as_left: Characteristics) -> tuple[Changed, ...]:
    """Return how the mean error changed at each level that both runs have.

    Raises
    ------
    SensorCheckError
        ``no-level-in-common``.
    """
    found = [
        _changed(before, after)
        for before in as_found.levels
        for after in as_left.levels
        if abs(after.pressure.value - before.pressure.value) <= SAME_LEVEL * as_found.span.value
    ]
    if not found:
        raise SensorCheckError(message("no-level-in-common"))
    return tuple(found)


def _changed(before: Level, after: Level) -> Changed:
    change = Figure(
        name="change", value=after.both.value - before.both.value, dimension="pressure",
        formula="mean-error as left - mean-error as found", inputs=(after.both, before.both),
    )  # fmt: skip
    return Changed(found=before, left=after, change=change)


@dataclass(frozen=True, slots=True, kw_only=True)
class Dated:
    """A figure of a check, such as its zero error, and the day of the check (``2026-03-14``)."""

    day: str
    figure: Figure


def of_one_sensor(runs: Sequence[CheckRun], serial: str) -> tuple[CheckRun, ...]:
    """Return the runs of the sensor with a serial number, oldest first; a run without its day is left out.

    Raises
    ------
    SensorCheckError
        ``serial-unknown``: an empty number belongs to no sensor.
    """
    if not serial.strip():
        raise SensorCheckError(message("serial-unknown"))
    mine = [each for each in runs if each.serial.strip().casefold() == serial.strip().casefold() and each.began]
    return tuple(sorted(mine, key=lambda each: each.began))


def drift_per_year(figures: Sequence[Dated]) -> Figure:
    """Return how much a figure drifts in a year, with its standard uncertainty where that can be told.

    ``slope of the figure over the days x 365.2425``.

    Parameters
    ----------
    figures
        The same figure of several checks of one sensor, in any order.

    Raises
    ------
    SensorCheckError
        ``drift-needs-two-days``: fewer than two different days; ``day-unreadable``: no such day.

    Examples
    --------
    >>> zero = [Dated(day=day, figure=given("zero-error", error, "pressure", "check"))
    ...         for day, error in (("2024-01-01", 0.0), ("2026-01-01", 800.0))]
    >>> round(drift_per_year(zero).value, 1)
    399.7
    """
    days = [_day(each.day) for each in figures]
    if len(set(days)) < 2:
        raise SensorCheckError(message("drift-needs-two-days", got=len(set(days))))
    years = [each / DAYS_PER_YEAR for each in days]
    fit, u = _fitted(years, [each.figure for each in figures])
    first = figures[0].figure
    inputs = [each.figure for each in figures]
    inputs += [given("years", year - years[0], "number", each.day) for year, each in zip(years, figures, strict=True)]
    return Figure(
        name=f"{first.name}-drift", value=fit.slope, dimension=first.dimension,
        formula=f"slope of {first.name} over years", inputs=tuple(inputs), standard_uncertainty=u,
        source=_BIRGE if u is not None and len(figures) > 2 else COMMON_PRACTICE,
    )  # fmt: skip


def _day(text: str) -> int:
    try:
        return date.fromisoformat(text[:10]).toordinal()
    except ValueError as error:
        told = message("day-unreadable", got=text, must_be="a day such as '2026-03-14'")
        raise SensorCheckError(told) from error


def _fitted(years: Sequence[float], figures: Sequence[Figure]) -> tuple[Fit, float | None]:
    values = [each.value for each in figures]
    known = [each.standard_uncertainty for each in figures if each.standard_uncertainty]
    if len(known) < len(figures):
        fit = least_squares(years, values)
        return fit, fit.u_slope
    fit = weighted_least_squares(years, values, known)
    widened = max(1.0, fit.residual_sd or 1.0)
    return fit, None if fit.u_slope is None else fit.u_slope * widened
