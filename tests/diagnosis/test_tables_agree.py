"""Tables that stand in several packages speak of the same words."""

from __future__ import annotations

from steadyhead.diagnosis.inspections import INSPECTIONS
from steadyhead.diagnosis.priors import COSTS_MONEY
from steadyhead.diagnosis.shipped import FAMILIES, REPAIRS, SECOND_TRIP
from steadyhead.loop.faults import FAULTS
from steadyhead.loop.vocabulary import INSPECTION_ITEMS
from steadyhead.visit.remedies import REMEDIES


def test_every_remedy_of_a_fault_can_be_written_as_an_action_and_has_its_minutes() -> None:
    """The fault table, the visit file's words and the price list are three tables of one language."""
    of_faults = {fault.remedy for fault in FAULTS}
    assert of_faults <= set(REMEDIES)
    assert of_faults <= set(REPAIRS)
    assert set(REPAIRS) <= set(REMEDIES)
    assert set(COSTS_MONEY) <= set(REPAIRS)


def test_every_family_has_its_share_and_every_share_its_family() -> None:
    """A family without a share would never be suspected; a share without a family would be lost."""
    assert {fault.family for fault in FAULTS} == set(FAMILIES)


def test_every_item_that_can_be_written_can_be_asked_for() -> None:
    """The visit file's items and the looks that the planner knows are the same."""
    assert set(INSPECTIONS) == set(INSPECTION_ITEMS)


def test_no_remedy_costs_less_than_nothing_and_none_but_doing_nothing_is_free() -> None:
    """A price list with a free repair would let the planner guess."""
    for remedy, (work, part, _) in REPAIRS.items():
        assert work >= 0.0
        assert part >= 0.0
        assert (work + part > 0.0) == (remedy != "none")
    assert SECOND_TRIP.minutes == 120.0
