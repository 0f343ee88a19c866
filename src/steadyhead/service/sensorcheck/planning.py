"""Use case: which points to take, and what this gauge could decide with them at all.

Rules
-----
1. The first thing that is said is how far off the sensor must be before this gauge could convict it.
2. What it could convict is worked out for a perfect sensor at each level, by the model that judges the real one.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import isinf

from steadyhead.errors import SensorCheckError
from steadyhead.messages import Message, message
from steadyhead.quantities import UNITS
from steadyhead.sensorcheck.conformity import Rule
from steadyhead.sensorcheck.decidable import Decidable, decidable
from steadyhead.sensorcheck.judging import tolerance_of
from steadyhead.sensorcheck.points import Allowed, Plan, PurposeId, plan
from steadyhead.sensorcheck.progress import steps_left
from steadyhead.sensorcheck.run import CheckRun


@dataclass(frozen=True, slots=True, kw_only=True)
class Planned:
    """What to take.

    Parameters
    ----------
    plan
        The points.
    first
        What this gauge can convict at all, before anything else.
    decidable
        The same at each level; none where nobody said how good the gauge is.
    tolerance_pa
        Greatest error allowed [Pa].
    left
        How many points are still to be taken.
    notes
        What was assumed, and what cannot be reached.
    """

    plan: Plan
    first: Message
    decidable: tuple[Decidable, ...]
    tolerance_pa: float
    left: int
    notes: tuple[Message, ...]


def pascal(unit: str) -> float:
    """Return how many pascal a unit of pressure is.

    >>> pascal("bar")
    100000.0
    """
    return next(each.factor for each in UNITS if each.symbol == unit and each.dimension == "pressure")


def planned(
    run: CheckRun, allowed: Allowed, purpose: PurposeId, *, unit: str = "psi", rule: Rule | None = None
) -> Planned:
    """Return which points to take, and what they could decide.

    Parameters
    ----------
    run
        The check; points that it has already are counted.
    allowed
        What the place allows.
    purpose
        How thorough it is to be.
    unit
        Unit of pressure in use: levels are round in it.
    rule
        How it will be decided; None: a guard band as wide as the expanded uncertainty.

    Raises
    ------
    SensorCheckError
        ``nothing-to-check``.
    """
    made = plan(
        run.sensor, allowed, purpose, pressure_from=run.pressure_from, conditions=run.conditions, unit_pa=pascal(unit)
    )
    tolerance, assumed = tolerance_of(run)
    try:
        found = decidable(run, made.levels, tolerance, rule or Rule())
        first = _first(found, tolerance.value)
    except SensorCheckError as error:
        found, first = (), error.message
    notes = (*assumed, *(said for each in found for said in each.cautions), *made.notes)
    return Planned(
        plan=made, first=first, decidable=found, tolerance_pa=tolerance.value, left=len(steps_left(made, run.points)),
        notes=tuple(dict.fromkeys(notes)),
    )  # fmt: skip


def _first(found: tuple[Decidable, ...], tolerance_pa: float) -> Message:
    """Return in one line what can be convicted over the whole plan: the worst of its levels."""
    beyond = max(each.convicts_beyond for each in found)
    within = min(each.clears_within for each in found)
    if isinf(beyond):
        return message("plan-decides-nothing", tolerance=tolerance_pa)
    if within <= 0.0:
        return message("plan-convicts-only", beyond=beyond, tolerance=tolerance_pa)
    return message("plan-convicts", beyond=beyond, within=within, tolerance=tolerance_pa)

