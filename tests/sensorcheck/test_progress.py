"""Where a check stands in its plan: taken in order, out of order, besides it, more than once."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from steadyhead.sensorcheck.points import Allowed, Plan, plan
from steadyhead.sensorcheck.progress import next_step
from steadyhead.sensorcheck.run import Direction, Point
from steadyhead.visit.record import Interval, Sensor, Signal

SENSOR = Sensor(signal=Signal(kind="voltage", low=0.5, high=4.5, wires=3), range=Interval(0.0, 10e5))
PLAN: Plan = plan(SENSOR, Allowed(relief_pa=7e5, weakest_pa=9e5), "repeat")


def point(pressure: float, direction: Direction, cycle: int = 1) -> Point:
    """Return a point."""
    return Point(reference_pa=pressure, direction=direction, cycle=cycle, signal=1.0)


def taken(count: int) -> list[Point]:
    """Return the first so many points of the plan, each a little off."""
    return [point(step.pressure_pa + 3e3, step.direction, step.cycle) for step in PLAN.steps[:count]]


def test_before_the_first_point_the_first_step_comes() -> None:
    """The plan's own order."""
    assert next_step(PLAN, []) == PLAN.steps[0]


@given(st.integers(0, len(PLAN.steps) - 1))
def test_after_so_many_points_the_next_step_comes(count: int) -> None:
    """Each point takes its own step, hit nearly."""
    assert next_step(PLAN, taken(count)) == PLAN.steps[count]


def test_after_all_points_nothing_comes() -> None:
    """The plan is done."""
    assert next_step(PLAN, taken(len(PLAN.steps))) is None


def test_a_step_that_was_passed_over_comes_at_the_end() -> None:
    """Going on counts more than going back."""
    points = [each for number, each in enumerate(taken(len(PLAN.steps))) if number != 2]
    assert next_step(PLAN, points[:3]) == PLAN.steps[4]
    assert next_step(PLAN, points) == PLAN.steps[2]


def test_a_point_besides_the_plan_takes_nothing() -> None:
    """Far above its levels, and of a cycle that it does not have."""
    besides = [point(20e5, "up"), point(0.0, "up", cycle=9)]
    assert next_step(PLAN, besides) == PLAN.steps[0]


@given(st.lists(st.builds(point, st.floats(-1e5, 12e5), st.sampled_from(["up", "down"]), st.integers(1, 4))))
def test_every_point_takes_at_most_one_step(points: list[Point]) -> None:
    """So the plan is never done with fewer points than it has steps."""
    if len(points) < len(PLAN.steps):
        assert next_step(PLAN, points) is not None
