"""Properties of the loop solver that hold whatever the loop is: reciprocity, harmless leaks, order, scale."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from steadyhead.errors import CircuitError, FloatingNodeError
from steadyhead.loop.draft import SensorKind
from steadyhead.loop.elements import chain
from steadyhead.loop.network import COMMON, Network
from steadyhead.loop.parts import Leak
from steadyhead.loop.readings import at_rest, ohms
from steadyhead.loop.solve import solve
from tests.loop.random_loops import KINDS, STANCES, Drawn, drawn, seeded

seeds = st.integers(0, 10**9)
kinds = st.sampled_from(KINDS)
ohm = st.floats(-2, 11).map(lambda power: 10.0**power)
NODES = "abcdef"
pairs = st.tuples(st.sampled_from(NODES), st.sampled_from([*NODES, COMMON]), ohm)


def network_of(links: list[tuple[str, str, float]], factor: float = 1.0) -> Network:
    """Return a network in which every node is tied to common, and the given links besides."""
    network = Network()
    for a, b, size in [*links, *((node, COMMON, 1e6) for node in NODES)]:
        network.join(a, b, size * factor)
    return network


def case_of(seed: int, kind: SensorKind) -> Drawn:
    """Return a random loop by a number."""
    return drawn(seeded(f"property {seed}"), kind)


@given(st.lists(pairs, min_size=3, max_size=12), st.permutations(NODES))
def test_two_points_see_each_other_alike(links: list[tuple[str, str, float]], order: list[str]) -> None:
    """Reciprocity: what a current at one point does at another, it does the other way round."""
    one, other = order[0], order[1]
    there, back = network_of(links), network_of(links)
    there.push(one, 1e-3)
    back.push(other, 1e-3)
    assert solve(there).volt(other) == pytest.approx(solve(back).volt(one), rel=1e-12)


@given(st.lists(pairs, min_size=3, max_size=12), st.randoms())
def test_the_order_in_which_a_network_is_joined_does_not_matter(
    links: list[tuple[str, str, float]], random: object
) -> None:
    """The same links, shuffled."""
    shuffled = list(links)
    random.shuffle(shuffled)  # type: ignore[attr-defined]
    assert solve(network_of(shuffled)).ohms_between("a", COMMON) == pytest.approx(
        solve(network_of(links)).ohms_between("a", COMMON), rel=1e-12
    )


@given(st.lists(pairs, min_size=3, max_size=12), st.floats(1e-3, 1e3))
def test_resistances_scale(links: list[tuple[str, str, float]], factor: float) -> None:
    """A network of resistances that are all k times as large has k times the resistance."""
    assert solve(network_of(links, factor)).ohms_between("a", "b") == pytest.approx(
        factor * solve(network_of(links)).ohms_between("a", "b"), rel=1e-12
    )


@given(st.lists(pairs, min_size=3, max_size=12), pairs)
def test_another_path_never_raises_a_resistance(
    links: list[tuple[str, str, float]], path: tuple[str, str, float]
) -> None:
    """Rayleigh's monotonicity law."""
    before = solve(network_of(links)).ohms_between("a", "b")
    assert solve(network_of([*links, path])).ohms_between("a", "b") <= before * (1 + 1e-12)


@given(seeds, kinds, st.sampled_from(("supply", "signal")))
def test_a_leak_of_a_hundred_gigohm_changes_nothing(seed: int, kind: SensorKind, wire: str) -> None:
    """At 24 V it lets 0.24 nA through: on 3 Gohm of a broken wire 1 V, on a megohm a quarter of a millivolt.

    An output that follows its supply passes on what the leak does to that, and one that just begins to drive makes more
    of it: a microvolt at the most.
    """
    case = case_of(seed, kind)
    leaky = case.loop._replace(leaks=(*case.loop.leaks, Leak(a=f"run.{wire}", b="earth", ohm=1e11)))
    if case.arrangement == "temporary-cable":
        return
    before, after = (at_rest(loop, case.arrangement, case.source) for loop in (case.loop, leaky))
    if before.regions != after.regions:
        return
    blur = 3e-10 * sum(before.ohms_between(end, COMMON) for end in (f"run.{wire}", "earth"))
    for node in before.numbers:
        assert abs(before.volt(node) - after.volt(node)) <= blur + 1e-6


@given(seeds, kinds)
def test_asking_for_fewer_points_changes_no_answer(seed: int, kind: SensorKind) -> None:
    """Joining the links between points that nobody asks for is exact."""
    case = case_of(seed, kind)
    asked = frozenset(("controller.signal", "sensor.signal"))
    whole = at_rest(case.loop, case.arrangement, case.source)
    part = at_rest(case.loop, case.arrangement, case.source, asked)
    if whole.regions == part.regions:
        for node in asked & set(whole.numbers):
            assert part.volt(node) == pytest.approx(whole.volt(node), rel=1e-9, abs=1e-9)
    if "sensor.signal" in part.taken:
        assert part.volt("sensor.signal") == pytest.approx(whole.volt("sensor.signal"), rel=1e-9, abs=1e-6)


@given(seeds, kinds)
def test_a_good_guess_of_the_regions_changes_no_answer(seed: int, kind: SensorKind) -> None:
    """Starting where the answer lies gives the same answer at once."""
    case = case_of(seed, kind)
    first = at_rest(case.loop, case.arrangement, case.source)
    again = at_rest(case.loop, case.arrangement, case.source, guess=first.regions)
    assert again.way == "direct"
    for node in first.numbers:
        assert again.volt(node) == pytest.approx(first.volt(node), rel=1e-9, abs=1e-9)


@given(seeds, kinds, st.sampled_from(STANCES))
def test_ohms_between_two_points_are_the_same_both_ways(seed: int, kind: SensorKind, stance: str) -> None:
    """Where no battery is, the leads may be exchanged; a dead cable is linear."""
    case = drawn(seeded(f"ohms {seed}"), kind, (stance,))
    if not stance.startswith("dead") or any(leak.volts for leak in case.loop.leaks):
        return
    red, black = (f"wire.{name}" for name in list(case.loop.conductors)[:2])
    assert ohms(case.loop, stance, red, black) == pytest.approx(ohms(case.loop, stance, black, red), rel=1e-12)


@given(st.integers(2, 6))
def test_an_island_is_named_and_not_guessed(size: int) -> None:
    """Points that are tied to each other, and to nothing else, have no voltage."""
    names = [f"sensor.{k}" for k in range(size)]
    network = Network()
    for a, b in pairwise(names):
        network.add(chain(a, b, [(0.0, 0.0)], (1e-3, 2e-3), 0))
    with pytest.raises(FloatingNodeError) as refused:
        solve(network)
    assert refused.value.message.values["point"] in names


@given(seeds, kinds)
def test_the_solver_answers_or_says_that_it_does_not(seed: int, kind: SensorKind) -> None:
    """Never another error, and never a number that is none."""
    case = case_of(seed, kind)
    try:
        operation = at_rest(case.loop, case.arrangement, case.source)
    except CircuitError:
        return
    assert all(-1e3 < volt < 1e3 for volt in operation.volts)
