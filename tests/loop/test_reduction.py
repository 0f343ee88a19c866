"""The plan of a circuit's reduction: the same as solving all points at once, whatever the shape."""

from __future__ import annotations

from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st

from steadyhead.loop.network import COMMON, Network
from steadyhead.loop.reduction import planned

POINTS = ("a", "b", "c", "d", COMMON)
links = st.lists(
    st.tuples(st.sampled_from(POINTS), st.sampled_from(POINTS), st.integers(1, 50)), min_size=1, max_size=9
)


def joined(drawn: list[tuple[str, str, int]]) -> Network:
    """Return a network of drawn links in which every point reaches common, with currents pushed into two of them."""
    network = Network()
    for point in POINTS[:-1]:
        network.join(point, COMMON, 1000.0)
    for a, b, ohm in drawn:
        network.join(a, b, float(ohm))
    network.push("a", 1.0)
    network.push("b", 2.0)
    return network


def schur(network: Network, kept: list[str]) -> list[list[Fraction]]:
    """Return minus the conductances between the kept points, the others eliminated in exact fractions (Kron)."""
    names = [*kept, *(name for name in POINTS if name not in kept)]
    whole = [[Fraction(0)] * len(names) for _ in names]
    for a, b, siemens in network.links:
        i, j = names.index(a), names.index(b)
        for p, q, sign in ((i, j, -1), (j, i, -1), (i, i, 1), (j, j, 1)):
            whole[p][q] += sign * Fraction(siemens)
    for out in range(len(names) - 1, len(kept) - 1, -1):
        for p in range(out):
            factor = whole[p][out] / whole[out][out]
            for q in range(out):
                whole[p][q] -= factor * whole[out][q]
    return [row[: len(kept)] for row in whole[: len(kept)]]


@given(links)
def test_the_planned_reduction_is_krons_in_exact_fractions(drawn: list[tuple[str, str, int]]) -> None:
    """Kron's reduction (1939; from memory), worked out exactly beside it."""
    network = joined(drawn)
    plan = network.plan()
    rows, taken = network.reduced(plan)
    exact = schur(network, list(plan.numbers))
    assert sorted(taken) == sorted(set(POINTS) - set(plan.numbers))
    for i, row in enumerate(rows):
        for j, siemens in enumerate(row):
            if i != j:
                assert abs(Fraction(siemens) - exact[i][j]) <= Fraction(1, 10**12)


def test_circuits_of_one_shape_share_one_plan_and_others_do_not() -> None:
    """A property: the plan is made of names alone."""
    one, other = joined([("c", "d", 5)]), joined([("c", "d", 7)])
    assert one.plan() is other.plan()
    assert joined([("c", "a", 5)]).plan() is not one.plan()
    assert planned((("a", "b"),), (), ("a",)).numbers == {COMMON: 0, "a": 1}
