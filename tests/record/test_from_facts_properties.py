"""Whatever facts say, a visit comes out of them: nothing that another device wrote can stop the one that is here."""

from __future__ import annotations

from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st

from steadyhead.loop.vocabulary import ARRANGEMENTS, MEASURES, POINTS
from steadyhead.visit import parse_visit
from steadyhead.visit.archive import Archive, archive_bytes, read_archive
from steadyhead.visit.fact_kinds import KINDS
from steadyhead.visit.facts import Fact, canonical, fact_from_text
from steadyhead.visit.from_facts import visit_of_facts
from steadyhead.visit.heads import entities_of
from steadyhead.visit.ids import ulid_text
from steadyhead.visit.tables import text_of_tables
from steadyhead.visit.union import union
from tests.record.bench import ToldClock, fact, seeded_ids

#: All that a fact may hold: every sign but the NUL.
SIGNS = st.characters(codec="utf-8", exclude_characters="\0")
PLAIN: st.SearchStrategy[Any] = st.recursive(
    st.none() | st.booleans() | st.integers(-(2**53), 2**53) | st.floats(allow_nan=False, allow_infinity=False)
    | st.text(SIGNS, max_size=12),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(SIGNS, max_size=6), inner, max_size=3),
    max_leaves=5,
)  # fmt: skip
TEXTS = st.sampled_from([
    "48 psi", "1.12 V", "OL", "12 m", "22 AWG", "4..20 mA", "0.5..4.5 V ratiometric", "0..100 psi", "0..10 bar abs",
    "1 %", "right", "two", "absolute", "none", "250 ohm", "-5 psi", "2.1..2.6 V jumping", "B", "open", "gauge", "meter",
    "fixed", "", *MEASURES[:8], *list(ARRANGEMENTS)[:8], *POINTS[:4],
])  # fmt: skip
INNER = {"signal", "range", "length", "scaled", "text", "new"}
KEYS = sorted({key.name for kind in KINDS for key in kind.keys} | INNER)
VALUES = TEXTS | PLAIN | st.dictionaries(st.sampled_from(KEYS), TEXTS | PLAIN, max_size=4)
BODIES = st.dictionaries(st.sampled_from(KEYS), VALUES, max_size=6)


@st.composite
def heard(draw: st.DrawFn) -> Fact:
    """Return a fact of a device that may be newer, broken or hostile: any known kind, any body."""
    number = draw(st.integers(2, 12))
    kind = draw(st.sampled_from([kind.id for kind in KINDS if kind.id != "purge"] + ["vibration"]))
    about = {"visit": 1, "system": 13, "site": 14}.get(kind, number)
    replaced = draw(st.lists(st.integers(1, 12), max_size=2, unique=True))
    return fact(
        number, kind, about, visit=1, body=draw(BODIES), supersedes=replaced,
        instrument=draw(st.sampled_from([None, ulid_text(2), ulid_text(3)])),
    )  # fmt: skip


FIRST = fact(1, "visit", 1, visit=1, body={"system": ulid_text(13), "site": ulid_text(14), "state": "open"})


@given(st.lists(heard(), max_size=8))
@settings(max_examples=80, deadline=None)
def test_any_facts_give_a_visit_that_a_visit_file_can_hold(heard_facts: list[Fact]) -> None:
    """The visit comes out; its text reads back as the same visit; every row has its entity."""
    facts = union([FIRST], heard_facts).facts
    told = visit_of_facts(facts, FIRST.about)
    assert parse_visit(text_of_tables(told.tables)).visit == told.visit
    counts = (len(told.visit.readings), len(told.visit.declined), len(told.visit.actions))
    assert counts == (len(told.readings), len(told.declined), len(told.actions))


@given(st.lists(heard(), max_size=8), st.randoms(use_true_random=False))
@settings(max_examples=40, deadline=None)
def test_the_order_of_facts_does_not_change_the_visit(heard_facts: list[Fact], chance: object) -> None:
    """A set has no order."""
    facts = list(union([FIRST], heard_facts).facts)
    before = visit_of_facts(facts, FIRST.about)
    chance.shuffle(facts)  # type: ignore[attr-defined]
    after = visit_of_facts(facts, FIRST.about)
    assert (after.visit, after.clashes, after.set_aside) == (before.visit, before.clashes, before.set_aside)


@given(st.lists(heard(), max_size=8))
@settings(deadline=None)
def test_facts_come_out_of_their_text_and_out_of_an_archive_as_they_went_in(heard_facts: list[Fact]) -> None:
    """Round trip of the canonical text and of the archive."""
    facts = union([FIRST], heard_facts).facts
    assert [canonical(fact_from_text(canonical(each))) for each in facts] == [canonical(each) for each in facts]
    data = archive_bytes(Archive(text="", facts=facts))
    assert [canonical(each) for each in read_archive(data, "").facts] == [canonical(each) for each in facts]


@given(st.lists(st.tuples(st.integers(0, 3), st.integers(-(10**9), 10**9)), min_size=1, max_size=12))
def test_readings_stand_in_the_order_in_which_they_were_entered(entered: list[tuple[int, int]]) -> None:
    """Four devices, one after the other, with clocks that are days apart: each has seen what came before."""
    clocks = [ToldClock() for _ in range(4)]
    makers = [seeded_ids(clock, seed) for seed, clock in enumerate(clocks)]
    made: list[str] = []
    for device, step in entered:
        clocks[device].now += step
        made.append(makers[device].new(max(made, default="")))
    assert made == sorted(set(made))
    facts = [Fact(id=id_, kind="reading", about=id_, at="") for id_ in reversed(made)]
    assert [entity.about for entity in entities_of(facts)] == made
