"""What a visit's memory keeps: the next answer takes less, and is the same to the last digit."""

from __future__ import annotations

import gc
from dataclasses import replace

import pytest

from steadyhead.diagnosis import looking, memory
from steadyhead.diagnosis.diagnose import diagnose
from steadyhead.diagnosis.memory import Memory
from steadyhead.visit import parse_visit
from steadyhead.visit.record import Visit
from tests.diagnosis.visits import BOOSTER, VAN, gauge, reading, supply
from tests.once import afresh

LOW = reading("displayed-signal", "7.0 mA")
VISIT = parse_visit(BOOSTER + VAN + gauge("50 psi") + LOW + supply("24.0 V")).visit
BEFORE = replace(VISIT, readings=VISIT.readings[:2])


def before_the_last_reading(visit: Visit) -> Visit:
    """Return the visit as it stood one reading before."""
    return replace(visit, readings=visit.readings[:-1])


@pytest.fixture
def solved(monkeypatch: pytest.MonkeyPatch) -> list[None]:
    """Count the loops that are solved."""
    counted: list[None] = []
    solve = looking._solved

    def counting(*arguments: object, **named: object) -> looking.Solved:
        counted.append(None)
        return solve(*arguments, **named)  # type: ignore[arg-type]

    monkeypatch.setattr(looking, "_solved", counting)
    return counted


def test_an_answer_is_the_same_with_a_memory_as_without(solved: list[None]) -> None:
    """A property: what is kept depends on no reading's figure; and it is used, or nothing would be saved."""
    with afresh():
        fresh = diagnose(VISIT)
        alone = len(solved)
        known = Memory()
        diagnose(before_the_last_reading(VISIT), memory=known)
        solved.clear()
        assert diagnose(VISIT, memory=known) == fresh
    assert len(solved) < 0.85 * alone


def test_other_plates_are_not_answered_from_a_memory_of_these() -> None:
    """A property: a loop with another input is another loop."""
    before = before_the_last_reading(VISIT)
    other = replace(before, controller=replace(before.controller, input_resistance_ohm=120.0))
    with afresh():
        known = Memory()
        diagnose(before, memory=known)
        assert diagnose(other, memory=known) == diagnose(other)


def test_a_full_memory_is_emptied_and_goes_on(monkeypatch: pytest.MonkeyPatch) -> None:
    """A property: it holds at most so much."""
    monkeypatch.setattr(memory, "MOST", 3)
    known = Memory()
    for number in range(10):
        assert known.of(number, lambda number=number: 2 * number) == 2 * number  # type: ignore[misc]
        assert len(known) <= 3
    assert known.of(9, lambda: -1) == 18


def test_an_answer_leaves_no_rings_of_values_behind() -> None:
    """Python's own search (`gc.collect`) finds next to nothing to take away: so it may be kept away meanwhile."""
    with afresh():
        diagnose(BEFORE)
        gc.collect()
        diagnose(BEFORE, memory=Memory())
        assert gc.collect() < 100
        assert gc.isenabled()


def test_whoever_has_switched_the_search_off_finds_it_off() -> None:
    """An answer puts it back as it was."""
    gc.disable()
    try:
        diagnose(BEFORE)
        assert not gc.isenabled()
    finally:
        gc.enable()
