"""The makes that are drawn spread evenly; the odds before the first reading are those of the families."""

from __future__ import annotations

from math import isclose

import pytest

from steadyhead.diagnosis import priors
from steadyhead.diagnosis.cells import TWO_WAYS, cells, single_odds
from steadyhead.diagnosis.makes import COMMON, DIMENSIONS, designs
from steadyhead.diagnosis.priors import prior
from steadyhead.diagnosis.shipped import FAMILIES, NONE_OF_THESE
from steadyhead.loop.faults import FAULTS, Fault, faults_of
from tests.diagnosis.visits import BARE_AMPLIFIED, BARE_BOOSTER, BARE_CURRENT, BARE_HOUSE, HOUSE, system

KINDS = [(3, "ratiometric"), (3, "voltage"), (3, "current"), (2, "loop")]
FAMILY = {fault.id: fault.family for fault in FAULTS}
SUM_ERROR = 1e-12  #: of probability: some hundred roundings


@pytest.mark.parametrize("count", [2, 5, 12])
def test_every_coordinate_of_a_latin_hypercube_takes_the_middle_of_each_part_once(count: int) -> None:
    """The definition of a Latin hypercube."""
    wanted = [(k + 0.5) / count for k in range(count)]
    for values in zip(*designs(count, DIMENSIONS, 7), strict=True):
        assert sorted(values) == wanted


def test_the_same_seed_gives_the_same_makes_and_another_one_others() -> None:
    """A property: every run and every version of Python judges the same makes."""
    assert designs(8, DIMENSIONS, 2906) == list(COMMON)
    assert designs(8, DIMENSIONS, 2907) != list(COMMON)


def test_no_two_coordinates_of_the_makes_are_nearly_one() -> None:
    """A property: two coordinates that went together would let one pass for the other; ranks by Spearman's formula."""
    count = len(COMMON)
    columns = [[round(value * count - 0.5) for value in column] for column in zip(*COMMON, strict=True)]
    for i, one in enumerate(columns):
        for other in columns[:i]:
            squares = sum((a - b) ** 2 for a, b in zip(one, other, strict=True))
            assert abs(1.0 - 6.0 * squares / (count * (count**2 - 1))) < 0.9


@pytest.mark.parametrize("text", [BARE_HOUSE, BARE_BOOSTER, BARE_AMPLIFIED])
def test_every_fault_and_place_is_judged_over_the_same_makes(text: str) -> None:
    """The contract: a reading that only tells the make moves no suspect against another."""
    makes: dict[tuple[str, str], list[tuple[float, ...]]] = {}
    for cell in cells(system(text)):
        if len(cell.parts) == 1:
            makes.setdefault((cell.fault, cell.place), []).append(cell.make)
    assert all(held == list(COMMON) for held in makes.values())


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
    found = [cell for cell in cells(told) if len({part.fault for part in cell.parts}) == 1]
    alone = sum(cell.weight for cell in found)
    odds = prior(told.wires, told.kind)
    known = {fault.id: fault for fault in FAULTS}
    whole = sum(odds[fault] for fault in {cell.fault for cell in found})
    for fault in {cell.fault for cell in found}:
        own = [cell for cell in found if cell.fault == fault]
        assert isclose(sum(cell.weight for cell in own), alone * odds[fault] / whole, rel_tol=1e-9)
        in_two = TWO_WAYS[fault][1] if fault in TWO_WAYS else 0.0
        at_once = sum(cell.weight for cell in own if len(cell.parts) == 2)
        assert isclose(at_once, alone * in_two * odds[fault] / whole, rel_tol=1e-9)
        for place, share in known[fault].places:
            there = sum(cell.weight for cell in own if [part.place for part in cell.parts] == [place])
            assert isclose(there, alone * (1.0 - in_two) * share * odds[fault] / whole, rel_tol=1e-9)


@pytest.mark.parametrize("why", ["no cock", "No cock here, and the thread is stuck"])
def test_a_cock_that_somebody_said_is_not_there_is_not_shut(why: str) -> None:
    """Closed form: what is not there has no odds."""
    text = BARE_HOUSE + f'[[declined]]\nmeasure = "displayed-pressure"\narrangement = "vented"\nwhy = "{why}"\n'
    assert single_odds(system(text))["sensor-cock-shut"] == 0.0
    assert single_odds(system(BARE_HOUSE))["sensor-cock-shut"] > 0.0
