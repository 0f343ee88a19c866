"""The makes that are drawn spread evenly; the odds before the first reading are those of the families."""

from __future__ import annotations

from collections import Counter
from itertools import product
from math import isclose

import pytest

from steadyhead.diagnosis import priors
from steadyhead.diagnosis.cells import cells
from steadyhead.diagnosis.makes import DIMENSIONS, points
from steadyhead.diagnosis.priors import prior
from steadyhead.diagnosis.shipped import FAMILIES, NONE_OF_THESE
from steadyhead.loop.faults import FAULTS, Fault, faults_of
from tests.diagnosis.visits import BARE_AMPLIFIED, BARE_BOOSTER, BARE_CURRENT, BARE_HOUSE, HOUSE, known, system

KINDS = [(3, "ratiometric"), (3, "voltage"), (3, "current"), (2, "loop")]
FAMILY = {fault.id: fault.family for fault in FAULTS}
SUM_ERROR = 1e-12  #: of probability: some hundred roundings


@pytest.mark.parametrize("count", [5, 14, 30])
def test_points_lie_in_the_unit_cube_and_are_the_same_every_time(count: int) -> None:
    """A property of a fixed sequence."""
    found = points(3, count, DIMENSIONS)
    assert len(found) == count
    assert len(set(found)) == count
    assert all(len(point) == DIMENSIONS and min(point) >= 0.0 and max(point) < 1.0 for point in found)
    assert found == points(3, count, DIMENSIONS)


def octants(count: int) -> list[int]:
    """Return how many of so many points lie in each octant of any three neighbouring coordinates."""
    found = points(0, count, DIMENSIONS)
    corners = list(product((False, True), repeat=3))
    counted = [
        Counter(tuple(x >= 0.5 for x in point[first : first + 3]) for point in found) for first in range(DIMENSIONS - 2)
    ]
    return [each[corner] for each in counted for corner in corners]


def test_many_points_hit_every_octant() -> None:
    """A property of an even spread: of 4000 points no octant has less than half of its share, or half more."""
    found = octants(4000)
    assert min(found) > 250
    assert max(found) < 750


@known("three neighbouring steps of twenty are nearly in a whole-number relation")
def test_many_points_hit_every_octant_no_worse_than_chance() -> None:
    """A property of an even spread: within a fifth of 500; chance has a standard deviation of 21."""
    assert all(400 <= each <= 600 for each in octants(4000))


@known("steps near 1 walk slowly: a fault's few makes stay in one half of the first coordinates")
@pytest.mark.parametrize("count", [5, 14])
def test_even_a_faults_few_points_lie_in_both_halves_of_every_coordinate(count: int) -> None:
    """A property of an even spread; otherwise a fault would know one kind of device only, and its rival another.

    Five cells have faults without a size, fourteen those with one.
    """
    for index in range(len(FAULTS)):
        for values in zip(*points(index, count, DIMENSIONS), strict=True):
            below = sum(value < 0.5 for value in values)
            assert 0 < below < count, index


@pytest.mark.parametrize(("wires", "kind"), KINDS)
def test_odds_before_the_first_reading_sum_to_one(wires: int, kind: str) -> None:
    """Closed form."""
    found = prior(wires, kind)
    assert isclose(sum(found.values()), 1.0, abs_tol=SUM_ERROR)
    assert min(found.values()) > 0.0


@pytest.mark.parametrize(("wires", "kind"), KINDS)
def test_a_family_keeps_its_share_however_many_members_it_has(wires: int, kind: str) -> None:
    """The contract: priors are given to families and spread over their members; ratios by the table alone."""
    shares: dict[str, float] = {}
    for fault, share in prior(wires, kind).items():
        if fault in FAMILY:
            shares[FAMILY[fault]] = shares.get(FAMILY[fault], 0.0) + share
    one = shares["nothing"] / FAMILIES["nothing"].per_100
    for family, share in shares.items():
        assert isclose(share, FAMILIES[family].per_100 * one, rel_tol=1e-12)


def test_splitting_a_fault_in_variants_changes_no_other_familys_odds(monkeypatch: pytest.MonkeyPatch) -> None:
    """The contract: six variants of a rare thing do not outvote one common one."""
    before = prior(3, "ratiometric")
    noise = next(f for f in FAULTS if f.id == "noise-pickup")
    faults = faults_of(3, "ratiometric")
    more = (*faults, *[_renamed(noise, f"noise-{k}") for k in range(6)])
    monkeypatch.setattr(priors, "faults_of", lambda *_: more)
    after = prior(3, "ratiometric")
    for fault in faults:
        if fault.family != "noise":
            assert isclose(after[fault.id], before[fault.id], rel_tol=1e-12)


def _renamed(fault: Fault, id_: str) -> Fault:
    return Fault(
        id=id_, remedy=fault.remedy, family=fault.family, share=fault.share, change=fault.change, places=fault.places
    )


def test_what_none_of_these_explains_keeps_one_to_two_in_a_hundred() -> None:
    """Our own estimate, stated in the table."""
    for wires, kind in KINDS:
        assert 0.01 <= prior(wires, kind)["none-of-these"] <= 0.02
    assert 1.0 <= NONE_OF_THESE <= 2.0


@pytest.mark.parametrize("text", [HOUSE, BARE_HOUSE, BARE_BOOSTER, BARE_AMPLIFIED, BARE_CURRENT])
def test_cells_carry_all_probability_and_no_weight_is_below_zero(text: str) -> None:
    """Closed form."""
    found = cells(system(text))
    assert isclose(sum(cell.weight for cell in found), 1.0, abs_tol=SUM_ERROR)
    assert min(cell.weight for cell in found) > 0.0


@pytest.mark.parametrize("text", [BARE_HOUSE, BARE_BOOSTER, BARE_AMPLIFIED, BARE_CURRENT])
def test_the_cells_of_a_fault_carry_its_odds_and_places_their_shares(text: str) -> None:
    """Closed form: where no setting was read, cells divide a fault's probability by the shares of its places."""
    told = system(text)
    found = [cell for cell in cells(told) if len(cell.parts) == 1]
    alone = sum(cell.weight for cell in found)
    odds = prior(told.wires, told.kind)
    known = {fault.id: fault for fault in FAULTS}
    whole = sum(odds[fault] for fault in {cell.fault for cell in found})
    for fault in {cell.fault for cell in found}:
        own = [cell for cell in found if cell.fault == fault]
        assert isclose(sum(cell.weight for cell in own), alone * odds[fault] / whole, rel_tol=1e-9)
        for place, share in known[fault].places:
            there = sum(cell.weight for cell in own if cell.parts[0].place == place)
            assert isclose(there, alone * share * odds[fault] / whole, rel_tol=1e-9)
