"""Where a check stands in its plan: which point comes next.

Rules
-----
1. A point takes the first open step of its cycle and direction whose pressure is nearest to it; pressures need not be
   hit exactly, but nearer than to any other level.
2. The next step is the first open one after the last that was taken; where none is, the first open one.
3. A point that fits no step is an extra one: it counts for the sensor, and takes nothing of the plan.
"""

from __future__ import annotations

from collections.abc import Iterable

from steadyhead.sensorcheck.points import Plan, Step
from steadyhead.sensorcheck.run import Point


def next_step(plan: Plan, points: Iterable[Point]) -> Step | None:
    """Return what is taken next, or None where all was taken.

    Parameters
    ----------
    plan
        What is to be taken.
    points
        What was taken, in its order.
    """
    left, last = _walked(plan, points)
    return next((step for step in left if step.number > last), left[0] if left else None)


def steps_left(plan: Plan, points: Iterable[Point]) -> tuple[Step, ...]:
    """Return every step that is still to be taken, in the plan's order."""
    return tuple(_walked(plan, points)[0])


def _walked(plan: Plan, points: Iterable[Point]) -> tuple[list[Step], int]:
    """Return the open steps, and the number of the last one that was taken."""
    left = list(plan.steps)
    last = 0
    for point in points:
        step = _taken(plan, left, point)
        if step is not None:
            left.remove(step)
            last = step.number
    return left, last


def _taken(plan: Plan, left: Iterable[Step], point: Point) -> Step | None:
    """Return the open step that a point takes."""
    level = min(plan.levels, key=lambda each: abs(each - point.reference_pa))
    others = [abs(each - level) for each in plan.levels if each != level]
    near = abs(level - point.reference_pa) <= (min(others) / 2 if others else float("inf"))
    asked = (point.cycle, point.direction, level)
    return next((s for s in left if near and (s.cycle, s.direction, s.pressure_pa) == asked), None)
