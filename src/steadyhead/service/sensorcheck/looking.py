"""Use case: everything that a screen or a paper says of a sensor check.

Rules
-----
1. A run is looked at whole: its characteristics, the decision with a budget at each level, a new setting, five lines.
2. The setting is worked out for every run, so that a reader sees why it is refused, too.
3. What was assumed and what was left out is told once each, in the order in which it was met.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from math import fsum, hypot, sqrt

from steadyhead.errors import SensorCheckError
from steadyhead.figures import Figure
from steadyhead.messages import Message, message
from steadyhead.sensorcheck.adjusting import Adjustment, Basis, adjustment
from steadyhead.sensorcheck.at_sensor import range_here
from steadyhead.sensorcheck.characteristics import Characteristics, characteristics, error_line
from steadyhead.sensorcheck.comparing import Dated, drift_per_year, of_one_sensor
from steadyhead.sensorcheck.conformity import Rule
from steadyhead.sensorcheck.error_model import ErrorAtPoint
from steadyhead.sensorcheck.judging import Judgement, judge
from steadyhead.sensorcheck.run import CheckRun
from steadyhead.sensorcheck.series import SeriesFigures, series_figures
from steadyhead.service.sensorcheck.five_lines import five_lines
from steadyhead.visit.record import Interval

#: Inputs that the scatter of the run itself shows; all others are the instruments' and the place's.
_OF_THE_RUN = frozenset(("scatter", "hysteresis"))


@dataclass(frozen=True, slots=True, kw_only=True)
class Looked:
    """What a run says.

    Parameters
    ----------
    run
        The run.
    rule
        How it was decided.
    found
        Errors, levels and characteristics.
    series
        The same freed of zero, cycle by cycle.
    judged
        The decision, with a budget at each level.
    adjusted
        A new setting for the controller, or why there is none.
    lines
        Five plain lines for the house call.
    notes
        What was assumed, left out or not reached.
    """

    run: CheckRun
    rule: Rule
    found: Characteristics
    series: SeriesFigures
    judged: Judgement
    adjusted: Adjustment
    lines: tuple[Message, ...]
    notes: tuple[Message, ...]


def look(
    run: CheckRun, rule: Rule | None = None, *, scaled: Interval | None = None, keep_low: bool = False
) -> Looked:
    """Return everything that a run says of its sensor.

    Parameters
    ----------
    run
        The check with its points.
    rule
        How it is decided; None: a guard band as wide as the expanded uncertainty.
    scaled
        The controller's setting as found [Pa]; None: nobody looked.
    keep_low
        Whether a new setting may change the upper end only.

    Raises
    ------
    FitError
        ``no-usable-point``: not one point is usable.
    SensorCheckError
        ``reference-accuracy-unknown`` or ``reference-off-scale``: nothing can be decided.
    """
    rule = rule or Rule()
    found = characteristics(run)
    judged = judge(run, rule)
    basis = Basis(
        tolerance=judged.tolerance.value / found.span.value,
        u_reference_pa=max(_u_of_instruments(each.point) for each in judged.levels), scaled=scaled, keep_low=keep_low,
    )  # fmt: skip
    adjusted = adjustment(run, found, basis)
    if judged.outcome == "pass":
        adjusted = replace(adjusted, notes=(message("adjust-not-needed"), *adjusted.notes))
    return Looked(
        run=run, rule=rule, found=found, series=series_figures(found.levels), judged=judged, adjusted=adjusted,
        lines=five_lines(run, found, judged, adjusted),
        notes=tuple(dict.fromkeys((*found.notes, *judged.cautions))),
    )  # fmt: skip


def _u_of_instruments(point: ErrorAtPoint) -> float:
    """Return the standard uncertainty of an error from all that the run's own scatter does not show [Pa]."""
    rows = (row for row in point.budget.rows if row.input.name not in _OF_THE_RUN)
    return sqrt(fsum(row.contribution**2 for row in rows))


@dataclass(frozen=True, slots=True, kw_only=True)
class Drift:
    """How a sensor drifted over its checks: the days, and zero and span error in a year [Pa]; None: not to be told."""

    days: tuple[str, ...]
    zero: Figure | None
    span: Figure | None


def drift(runs: Sequence[CheckRun], serial: str) -> Drift:
    """Return how a sensor drifted over its as-found checks.

    Parameters
    ----------
    runs
        Checks of any sensors, in any order.
    serial
        The sensor's serial number.

    Raises
    ------
    SensorCheckError
        ``serial-unknown``, or ``drift-needs-two-days``.
    FitError
        A check has no usable point.

    Notes
    -----
    As-left runs are passed over: what somebody adjusted is no drift. So is what lies before an adjustment, which this
    cannot know; give it the checks since then.
    """
    mine = [each for each in of_one_sensor(runs, serial) if each.stage == "as-found"]
    zeros: list[Dated] = []
    spans: list[Dated] = []
    for run in mine:
        found, known = characteristics(run), _known_at_ends(run)
        if found.zero is not None:
            zeros.append(Dated(day=run.began[:10], figure=replace(found.zero, standard_uncertainty=known[0])))
        if found.sensor_span is not None:
            spans.append(Dated(day=run.began[:10], figure=replace(found.sensor_span, standard_uncertainty=known[1])))
    return Drift(days=tuple(each.day for each in zeros), zero=drift_per_year(zeros), span=_drift_of(spans))


def _known_at_ends(run: CheckRun) -> tuple[float | None, float | None]:
    """Return how well the zero error and the span error of a run are known [Pa]; None where nobody can say.

    The instruments' share at the lowest and the highest level, as if the two had nothing in common, which is too much
    rather than too little; where an end was drawn on to, the scatter of the line there too.
    """
    try:
        levels = judge(run, Rule()).levels
    except SensorCheckError:
        return None, None
    line = error_line([each.level for each in levels])
    range_ = range_here(run.sensor, run.conditions)
    ends = [
        hypot(each.point.budget.combined, (line.u_at(end) if line is not None else None) or 0.0)
        for each, end in ((levels[0], range_.low), (levels[-1], range_.high))
    ]
    return ends[0], hypot(*ends)


def _drift_of(figures: Sequence[Dated]) -> Figure | None:
    return drift_per_year(figures) if len({each.day for each in figures}) > 1 else None
