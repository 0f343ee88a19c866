"""Properties of pairs: order changes neither id nor remedy, what is mended covers its parts, and all weighs one."""

from __future__ import annotations

from math import isclose

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from steadyhead.diagnosis.cells import BY_ID, cells, double, of_pair
from steadyhead.diagnosis.makes import DIMENSIONS
from steadyhead.diagnosis.pairs import cause_of, covers, pair_id, pair_remedy, root_of, together
from steadyhead.loop.faults import FAULTS
from tests.diagnosis.visits import BARE_BOOSTER, BARE_HOUSE, HOUSE, VAN, gauge, signal, system

FAULT = st.sampled_from([fault.id for fault in FAULTS])
TWO = st.tuples(FAULT, FAULT).filter(lambda two: together(BY_ID[two[0]], BY_ID[two[1]]))
REMEDY = st.sampled_from(sorted({fault.remedy for fault in FAULTS}))


@given(TWO)
def test_the_order_of_two_faults_changes_nothing(two: tuple[str, str]) -> None:
    """A property: the contract sorts ids; a cause is of both."""
    one, other = two
    assert pair_id(one, other) == pair_id(other, one) == "+".join(sorted(two))
    assert cause_of(one, other) == cause_of(other, one)
    assert root_of(one, other) == root_of(other, one)
    assert together(BY_ID[other], BY_ID[one])


@given(TWO)
def test_a_pairs_cells_weigh_what_the_pair_weighs_and_mend_both(two: tuple[str, str]) -> None:
    """A property: shares of a whole sum to it; the contract's `x+y`, or `x` where both are the same."""
    found = of_pair(BY_ID[two[0]], BY_ID[two[1]], 0.25)
    assert isclose(sum(cell.weight for cell in found), 0.25, rel_tol=1e-12)
    for cell in found:
        assert cell.fault == pair_id(*two)
        assert all(covers(cell.remedy, BY_ID[fault].remedy) for fault in two)
        assert cell.remedy.split("+") == sorted({BY_ID[fault].remedy for fault in two})
        first, second = cell.parts
        assert double(second, first, cell.weight, cell.make) == cell
        assert len(cell.make) == DIMENSIONS


@given(st.lists(REMEDY, min_size=1, max_size=2), st.lists(REMEDY, min_size=1, max_size=2))
def test_covering_is_being_a_part_of(one: list[str], other: list[str]) -> None:
    """Set theory, on the words themselves."""
    first, second = pair_remedy(*one), pair_remedy(*other)
    assert covers(first, second) == (set(other) <= set(one))
    assert covers(pair_remedy(*one, *other), first)


@settings(max_examples=8, deadline=None)
@given(st.lists(REMEDY, min_size=1, max_size=3))
@pytest.mark.parametrize("text", [BARE_HOUSE, BARE_BOOSTER, HOUSE + VAN])
def test_whatever_was_mended_all_suspects_weigh_one(text: str, mended: list[str]) -> None:
    """A property of shares; nothing is excluded by a repair that was made."""
    done = "".join(f'[[action]]\nremedy = "{remedy}"\nafter_reading = 1\n' for remedy in mended)
    read = gauge("3 bar") + gauge("3 bar") if text != HOUSE + VAN else gauge("48 psi") + signal("1.12 V")
    found = cells(system(text + read + done))
    assert isclose(sum(cell.weight for cell in found), 1.0, abs_tol=1e-9)
    assert min(cell.weight for cell in found) > 0.0
    assert {cell.fault for cell in found} == {cell.fault for cell in cells(system(text))}
