"""Two devices' facts brought together: the same in any order, and nothing lost but what a purge takes."""

from __future__ import annotations

from hypothesis import given, settings
from hypothesis import strategies as st

from steadyhead.visit.facts import Fact, canonical, emptied
from steadyhead.visit.heads import entities_of, heads_of
from steadyhead.visit.ids import at_text, ulid_text
from steadyhead.visit.union import chosen, covers, targets_of, union
from tests.record.bench import A_MORNING, fact

NUMBERS = st.integers(1, 12)
#: Clocks from a year behind to a year ahead, and programs of several versions.
TIMES = st.integers(-365, 365).map(lambda days: at_text(A_MORNING + days * 86_400_000))
PROGRAMS = st.sampled_from(["0.1.0", "0.2.0", "1.0.0rc1", ""])
BODIES = st.sampled_from([{"text": "a"}, {"text": "b"}, {"text": "a", "new": [1]}, {}])


@st.composite
def said(draw: st.DrawFn) -> Fact:
    """Return a fact of an honest device or a broken one: ids come twice, with any content."""
    number, about = draw(NUMBERS), draw(st.none() | NUMBERS)
    return fact(
        number, draw(st.sampled_from(["note", "reading", "system", "vibration"])), about,
        body=draw(BODIES), visit=draw(st.none() | NUMBERS), at=draw(TIMES), program=draw(PROGRAMS),
        supersedes=draw(st.lists(NUMBERS, max_size=2, unique=True)),
        extra=draw(st.sampled_from([{}, {"signature": "x"}])),
    )  # fmt: skip


@st.composite
def purge(draw: st.DrawFn) -> Fact:
    """Return a purge; its id may be another fact's, as only a hostile device would have it."""
    return fact(draw(NUMBERS), "purge", of=draw(st.lists(NUMBERS, max_size=3)), at=draw(TIMES))


SIDE = st.lists(said() | purge(), max_size=8)


@given(SIDE, SIDE)
def test_the_order_of_two_sides_does_not_matter(one: list[Fact], other: list[Fact]) -> None:
    """Commutative: a set has no order."""
    assert union(one, other).facts == union(other, one).facts


@given(SIDE, SIDE, SIDE)
@settings(max_examples=150)
def test_it_does_not_matter_who_meets_whom_first(one: list[Fact], other: list[Fact], third: list[Fact]) -> None:
    """Associative, with purges before, between and after."""
    left = union(union(one, other).facts, third).facts
    right = union(one, union(other, third).facts).facts
    assert left == right == union(one, other, third).facts


@given(SIDE, SIDE)
def test_meeting_again_changes_nothing(one: list[Fact], other: list[Fact]) -> None:
    """Idempotent: a sync may be repeated."""
    both = union(one, other).facts
    assert union(both, both).facts == both
    assert union(both, other).facts == both


@given(SIDE, st.randoms(use_true_random=False))
def test_facts_that_come_one_by_one_end_the_same(side: list[Fact], chance: object) -> None:
    """A sync may be cut off and go on, in any order of facts."""
    shuffled = list(side)
    chance.shuffle(shuffled)  # type: ignore[attr-defined]
    stands: tuple[Fact, ...] = ()
    for each in shuffled:
        stands = union(stands, [each]).facts
    assert stands == union(side).facts


@given(st.lists(said(), max_size=8), st.lists(said(), max_size=8))
def test_nothing_is_lost_where_nothing_is_purged(one: list[Fact], other: list[Fact]) -> None:
    """Every id stands, with a content that somebody wrote, and every id with two contents is reported."""
    both = union(one, other)
    assert {each.id for each in both.facts} == {each.id for each in (*one, *other)}
    assert {canonical(each) for each in both.facts} <= {canonical(each) for each in (*one, *other)}
    contents: dict[str, set[str]] = {}
    for each in (*one, *other):
        contents.setdefault(each.id, set()).add(canonical(each))
    told = {id_ for id_, texts in contents.items() if len(texts) > 1}
    assert set(both.collisions) == told


@given(SIDE, SIDE)
def test_a_purge_wins_over_whatever_comes(one: list[Fact], other: list[Fact]) -> None:
    """After a union no fact that any purge of it covers has a body, an author or a key beside the fields."""
    facts = union(one, other).facts
    targets = targets_of(facts)
    assert all(each == emptied(each) for each in facts if covers(targets, each))


@given(st.lists(said(), min_size=1, max_size=4), st.randoms(use_true_random=False))
def test_one_content_of_an_id_is_chosen_whatever_the_order(side: list[Fact], chance: object) -> None:
    """The least of a total order is the same in any order."""
    shuffled = list(side)
    chance.shuffle(shuffled)  # type: ignore[attr-defined]
    assert chosen(*side) == chosen(*shuffled)


@given(st.lists(said(), max_size=10))
def test_every_entity_has_a_head_and_all_its_facts(side: list[Fact]) -> None:
    """Nothing that was said is hidden, also where facts name one another in a ring."""
    facts = union(side).facts
    entities = entities_of(facts)
    assert sorted(each.id for entity in entities for each in entity.history) == [each.id for each in facts]
    assert all(entity.heads for entity in entities)
    assert {each.id for entity in entities for each in entity.heads} == {each.id for each in heads_of(facts)}


@given(st.lists(said(), max_size=10))
def test_every_value_of_a_head_holds_or_is_told_as_a_conflict(side: list[Fact]) -> None:
    """A key of an only head holds; of two heads each value holds, or stands among the conflicts, or was replaced."""
    for entity in entities_of(union(side).facts):
        if len(entity.heads) == 1:
            assert dict(entity.body) == dict(entity.head.body)
            assert entity.conflicts == {}
        for key, values in entity.conflicts.items():
            assert key not in entity.body
            assert len(values) == len(entity.heads)


def test_a_fact_about_another_entity_replaces_nothing() -> None:
    """Rule 1 of the heads: a stranger that names it hides no reading."""
    reading, stranger = fact(1, "reading"), fact(2, "note", supersedes=[1])
    assert [each.id for each in heads_of([reading, stranger])] == [reading.id, stranger.id]


def test_a_field_that_one_device_changed_holds_and_one_that_both_changed_shows_both() -> None:
    """The rule itself, on two devices that set out from the same fact."""
    first = fact(1, "system", 1, body={"name": "A", "cable": {"length": "12 m"}, "sensor": {"range": "0..100 psi"}})
    office = fact(2, "system", 1, body={**first.body, "name": "B"}, supersedes=[1])
    van_body = {**first.body, "name": "C", "cable": {"length": "15 m", "shield": True}}
    van = fact(3, "system", 1, body=van_body, supersedes=[1])
    (entity,) = entities_of([van, first, office])
    assert entity.body == {"cable": {"length": "15 m", "shield": True}, "sensor": {"range": "0..100 psi"}}
    assert entity.conflicts == {"name": ("B", "C")}
    assert [each.id for each in entity.heads] == [ulid_text(2), ulid_text(3)]
    settled = fact(4, "system", 1, body={**van_body, "name": "B"}, supersedes=[2, 3])
    (after,) = entities_of([settled, van, first, office])
    assert (after.conflicts, after.body["name"], len(after.history)) == ({}, "B", 4)
