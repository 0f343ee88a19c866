"""The cheapest way through a small belief, by closed forms and by trying every way without cutting any off."""

from __future__ import annotations

import random
from dataclasses import replace
from itertools import product

import pytest

from benchmarks import regret
from benchmarks.lookahead import Cheapest, Masses, World, followed
from benchmarks.regret import mean_and_half
from tests.benchmarks.tidy import need_ngspice

CHECKS = ("a", "b", "c")
MINUTES = {"a": 3.0, "b": 5.0, "c": 1.0}
SHUT, OPEN = "shut", "open"


def world(remedies: str, *looks: tuple[float, ...]) -> World[str, str]:
    """Return a world in which each check says "x" with a chance for each cell; the first one opens the covers for 2."""
    shown = {
        check: [(("x", p), ("y", 1.0 - p)) for p in row] for check, row in zip(CHECKS, looks, strict=False)
    }
    return World(list(remedies), shown, lambda check, place: MINUTES[check] + 2.0 * (place == SHUT), lambda *_: OPEN)


class Fixed:
    """A policy that asks a list of checks, one after the other, whatever they show."""

    def __init__(self, checks: list[str]) -> None:
        self._checks = checks

    def __call__(self, _masses: Masses, asked: frozenset[str], _place: str) -> str | None:
        """Return the next of its checks."""
        return next((check for check in self._checks if check not in asked), None)


def naive(given: World[str, str], masses: Masses, place: str, left: tuple[str, ...]) -> float:
    """Return the cheapest way by plain recursion."""
    ways = [given.stopping(masses)]
    for check in left:
        after = tuple(other for other in left if other != check)
        ways.append(
            given.minutes(check, place) * sum(masses)
            + sum(naive(given, part, OPEN, after) for part in given.split(masses, check).values())
        )
    return min(ways)


def test_a_check_that_tells_all_is_paid_where_it_is_cheaper_than_the_doubt() -> None:
    """By hand: 0.3 of a second trip are 36 minutes, the check 5 with its covers; 0.02 of one are 2.4."""
    told = world("AB", (1.0, 0.0))
    cost, check = Cheapest(told).best((0.7, 0.3), SHUT)
    assert (round(cost, 9), check) == (5.0, "a")
    cost, check = Cheapest(told).best((0.98, 0.02), SHUT)
    assert (round(cost, 9), check) == (2.4, None)


def test_two_checks_that_tell_only_together_are_both_paid() -> None:
    """By hand: each alone leaves half and half, both tell all: 3 + 2 for the covers, then 5."""
    crossed = world("AABB", (1.0, 0.0, 1.0, 0.0), (1.0, 0.0, 0.0, 1.0))
    assert Cheapest(crossed).cost((0.25,) * 4, SHUT) == pytest.approx(10.0)


@pytest.mark.parametrize("seed", range(30))
def test_no_way_is_cheaper_and_none_was_cut_off_wrongly(seed: int) -> None:
    """Plain recursion over every way, on random worlds of four cells and three checks."""
    rng = random.Random(seed)  # noqa: S311 - seeded
    rows = [tuple(rng.choice((0.0, 1.0, rng.random())) for _ in range(4)) for _ in CHECKS]
    weights = [rng.random() + 0.05 for _ in range(4)]
    masses = tuple(w / sum(weights) for w in weights)
    given = world(rng.choice(("ABCD", "AABC", "ABAB")), *rows)
    assert Cheapest(given).cost(masses, SHUT) == pytest.approx(naive(given, masses, SHUT, CHECKS), abs=1e-6)


def test_following_the_cheapest_way_costs_what_it_says() -> None:
    """The two ways to count, forwards and backwards, of one random world."""
    given = world("ABC", (0.9, 0.2, 0.1), (0.5, 0.9, 0.1), (0.3, 0.4, 0.9))
    shares = (0.5, 0.3, 0.2)

    def policy(masses: Masses, asked: frozenset[str], place: str) -> str | None:
        left = {check: look for check, look in given.looks.items() if check not in asked}
        return Cheapest(replace(given, looks=left)).best(masses, place)[1]

    assert followed(given, policy, shares, SHUT) == pytest.approx(Cheapest(given).cost(shares, SHUT))


def test_stopping_at_once_costs_a_second_trip_for_all_but_the_likeliest() -> None:
    """By hand: 0.5 of A stand against 0.3 and 0.2: 60 minutes."""
    given = world("ABC", (0.5, 0.5, 0.5))
    assert followed(given, Fixed([]), (0.5, 0.3, 0.2), SHUT) == pytest.approx(60.0)


def test_every_policy_costs_at_least_the_cheapest_way() -> None:
    """All policies that ask a fixed list of checks: no list undercuts it."""
    given = world("AABB", (0.9, 0.2, 0.6, 0.1), (0.5, 0.9, 0.1, 0.3), (0.3, 0.4, 0.9, 0.6))
    shares = (0.4, 0.3, 0.2, 0.1)
    least = Cheapest(given).cost(shares, SHUT)
    for wanted in product((False, True), repeat=3):
        fixed = [check for check, asked in zip(CHECKS, wanted, strict=True) if asked]
        assert followed(given, Fixed(fixed), shares, SHUT) >= least - 1e-9


def test_the_interval_of_a_mean_is_the_normal_one() -> None:
    """By hand: the standard deviation of 1 and 3 is the root of 2, over the root of 2 observations: 1.96."""
    mean, half = mean_and_half([1.0, 3.0])
    assert (mean, round(half, 6)) == (2.0, 1.959964)


@pytest.mark.ngspice
def test_the_planner_pays_nothing_less_than_the_cheapest_way(capsys: pytest.CaptureFixture[str]) -> None:
    """A property of one small case; the figures themselves are the benchmark's."""
    need_ngspice()
    small = regret.drawn("test", "two-wire")
    found = regret.measured(small)
    assert 0.0 < found.cheapest <= found.planned + 1e-6
    assert regret.main(["--case", "two-wire:test", "--trace"]) == 0
    assert "cheapest" in capsys.readouterr().out
