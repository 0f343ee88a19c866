"""The planner on random toy beliefs, against every way tried out by brute force."""

from __future__ import annotations

from itertools import product
from math import isclose

from hypothesis import example, given, settings
from hypothesis import strategies as st

from steadyhead.diagnosis.checks import Standing
from steadyhead.diagnosis.estimates import SHIPPED
from tests.diagnosis.toy_planning import (
    A_LOOK,
    BOARD,
    CABLE,
    CABLE_TOO,
    LOOK,
    LOOK_TOO,
    SENSOR,
    SENSOR_TOO,
    SETTING,
    one_cell,
    planner,
)

OUTSIDE = Standing(None, at_sensor=False)
FAULTS = (CABLE, CABLE_TOO, SENSOR, SENSOR_TOO, BOARD, SETTING)
WORDS = ("wrong", "right")
#: Chances that a fault shows "wrong", some of them certain.
CHANCES = st.one_of(st.just(0.0), st.just(1.0), st.floats(0.05, 0.95))
WEIGHTS = st.lists(st.floats(0.05, 1.0), min_size=len(FAULTS), max_size=len(FAULTS))
LOOKED = st.lists(CHANCES, min_size=len(FAULTS), max_size=len(FAULTS))
SLACK = 1e-6  #: rounding of sums of some hundred minutes


def stop(masses: dict[str, float]) -> float:
    """Return what stopping costs: of all remedies that could be carried out the cheapest mistake, as the rule says."""
    by_remedy: dict[str, float] = {}
    for fault, mass in masses.items():
        by_remedy[one_cell(fault).remedy] = by_remedy.get(one_cell(fault).remedy, 0.0) + mass
    best = max(by_remedy, key=lambda r: (by_remedy[r], r))
    return (SHIPPED.second_trip + SHIPPED.cost(best)) * (sum(by_remedy.values()) - by_remedy[best])


def seen(masses: dict[str, float], chances: dict[str, float], word: str) -> dict[str, float]:
    """Return the masses after one word."""
    return {f: m * (chances[f] if word == "wrong" else 1.0 - chances[f]) for f, m in masses.items()}


def looks(chances: dict[str, float]) -> dict[str, tuple[tuple[str, float], ...]]:
    """Return what a look shows under each fault."""
    return {f: tuple((w, p) for w, p in (("wrong", c), ("right", 1.0 - c)) if p > 0.0) for f, c in chances.items()}


@settings(deadline=None, max_examples=150)
@given(WEIGHTS, LOOKED, LOOKED)
@example([0.25, 1.0, 1.0, 1.0, 1.0, 0.5], [1.0, 0.0, 0.0, 0.0, 0.0, 1.0], [0.125, 0.0, 0.0, 0.0, 0.0, 0.0])
def test_what_a_check_surely_saves_is_the_best_of_every_way_through_two_looks(
    weights: list[float], first: list[float], second: list[float]
) -> None:
    """Brute force: after each word of the first look either stop or look again, all four ways; the cheapest counts."""
    masses = {f: w / sum(weights) for f, w in zip(FAULTS, weights, strict=True)}
    one, other = dict(zip(FAULTS, first, strict=True)), dict(zip(FAULTS, second, strict=True))
    found = planner(masses, {LOOK: looks(one), LOOK_TOO: looks(other)})
    plans = {plan.question: plan for plan in found.plans([LOOK, LOOK_TOO], OUTSIDE)}
    if LOOK not in plans:
        return
    ways = []
    for again in product((False, True), repeat=2):
        cost = A_LOOK
        for word, more in zip(WORDS, again, strict=True):
            left = seen(masses, one, word)
            after = A_LOOK * sum(left.values()) + sum(stop(seen(left, other, w)) for w in WORDS)
            cost += after if more else stop(left)
        ways.append(cost)
    assert isclose(plans[LOOK].surely, stop(masses) - min(ways), abs_tol=SLACK)


@settings(deadline=None, max_examples=150)
@given(WEIGHTS, LOOKED, st.floats(0.0, 1.0))
def test_a_look_that_shows_all_faults_alike_never_comes_first(
    weights: list[float], telling: list[float], alike: float
) -> None:
    """A property: it changes no odds, so whatever follows it can be had without it."""
    masses = {f: w / sum(weights) for f, w in zip(FAULTS, weights, strict=True)}
    idle = looks(dict.fromkeys(FAULTS, alike))
    found = planner(masses, {LOOK: idle, LOOK_TOO: looks(dict(zip(FAULTS, telling, strict=True)))})
    plans = found.plans([LOOK, LOOK_TOO], OUTSIDE)
    assert not plans or plans[0].question == LOOK_TOO


@settings(deadline=None, max_examples=100)
@given(WEIGHTS, LOOKED, LOOKED)
def test_the_order_in_which_checks_are_given_changes_nothing(
    weights: list[float], first: list[float], second: list[float]
) -> None:
    """A property."""
    masses = {f: w / sum(weights) for f, w in zip(FAULTS, weights, strict=True)}
    shown = {q: looks(dict(zip(FAULTS, row, strict=True))) for q, row in ((LOOK, first), (LOOK_TOO, second))}
    one, other = planner(masses, shown), planner(masses, shown)
    assert one.plans([LOOK, LOOK_TOO], OUTSIDE) == other.plans([LOOK_TOO, LOOK], OUTSIDE)
