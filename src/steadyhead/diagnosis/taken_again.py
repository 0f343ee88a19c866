"""A figure that nothing explains is taken again before anybody goes home on an answer that calls it a slip.

Under each suspect the planner takes such a figure for a slip, so that reading it once more would tell nothing. But a
suspect is a model: where all of them contradict a figure, it is a slip, or something that none of them foresees. Only
the second reading tells which; a slip does not come twice.

Rules
-----
1. It is asked at once where the leads still lie there, else only where no other check is worth its minutes; and once:
   a figure that was read twice is no slip.
2. It is planned as if every second such figure came again, and the repair were then in vain (common practice: a figure
   that cannot be is read twice).
"""

from __future__ import annotations

from collections.abc import Collection, Sequence

from steadyhead.diagnosis.checks import Standing, minutes
from steadyhead.diagnosis.observing import Question
from steadyhead.diagnosis.planning import Plan, key
from steadyhead.diagnosis.prices import in_vain
from steadyhead.diagnosis.system import System

#: Part of the figures that nothing explains which come again.
COMES_AGAIN = 0.5
#: What takes no longer than this is asked at once [min].
AT_ONCE = 1.5


def with_taken_again(
    system: System, plans: Sequence[Plan], again: Collection[Question], here: Standing, remedy: str
) -> list[Plan]:
    """Return the plans with the readings among them that are worth taking again, best first.

    Parameters
    ----------
    system
        The visit's system.
    plans
        What is worth asking besides.
    again
        What can be asked once more of what was asked where nothing explains the figure.
    here
        Where the technician stands.
    remedy
        What would be done if the figure is a slip.
    """
    at_stake = COMES_AGAIN * in_vain(remedy, system.estimates)
    spent = {q: minutes(system, q, here) for q in again}
    most = AT_ONCE if plans else at_stake
    found = [Plan(q, cost, at_stake - cost, ()) for q, cost in spent.items() if cost < most]
    asked = {plan.question for plan in found}
    found += [plan for plan in plans if plan.question not in asked]
    return sorted(found, key=lambda plan: (-round(plan.saves, 9), key(plan.question)))
