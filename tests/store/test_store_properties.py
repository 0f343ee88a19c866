"""The store against its naive twin in memory, and its lists against lists made anew, on any facts in any order."""

from __future__ import annotations

import itertools
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from hypothesis import given, settings
from hypothesis import strategies as st

from steadyhead.bootstrap import place_named
from steadyhead.service.ports import UnitOfWork
from steadyhead.store import engines, health
from steadyhead.store.opening import open_store
from steadyhead.store.unit import Store
from steadyhead.visit.facts import Fact
from steadyhead.visit.ids import ulid_text
from tests.record.bench import fact
from tests.record.memory import MemoryStore

NUMBERS = st.integers(1, 7)
KINDS = st.sampled_from(
    ["site", "system", "visit", "reading", "photo", "note", "vibration", "check", "check-point", "stock"]
)
WORDS = st.sampled_from(["Fernhill", "fernhill row", "Élan", "", "100 %"])
BODIES = st.fixed_dictionaries(
    {},
    optional={
        "name": WORDS,
        "state": st.sampled_from(["open", "closed"]),
        "system": NUMBERS.map(ulid_text),
        "site": NUMBERS.map(ulid_text),
        "complaint": st.fixed_dictionaries({}, optional={"text": WORDS}),
        "sensor": st.fixed_dictionaries({}, optional={"signal": st.just("4..20 mA"), "range": st.just("0..10 bar")}),
        "sha256": st.sampled_from(["a", "b"]),
    },
)


@st.composite
def said(draw: st.DrawFn) -> Fact:
    """Return a fact of an honest device or a broken one: ids come twice, entities change their kind."""
    return fact(
        draw(NUMBERS), draw(KINDS), draw(st.none() | NUMBERS), body=draw(BODIES), visit=draw(st.none() | NUMBERS),
        author=draw(st.sampled_from(["Ann", "Bea"])), supersedes=draw(st.lists(NUMBERS, max_size=2, unique=True)),
    )  # fmt: skip


@st.composite
def purge(draw: st.DrawFn) -> Fact:
    """Return a purge."""
    return fact(draw(NUMBERS), "purge", of=draw(st.lists(NUMBERS, max_size=2)))


BATCHES = st.lists(st.lists(said() | purge(), max_size=5), max_size=3)


@contextmanager
def new_store() -> Iterator[Store]:
    """Give a new store, which does not wait for the disk."""
    with tempfile.TemporaryDirectory() as folder:
        store = open_store(place_named(str(Path(folder) / "record.db")))
        try:
            with engines.bare(store.engine) as connection:  # what is asked here is asked without a loss of power
                connection.exec_driver_sql("PRAGMA synchronous=OFF")
            yield store
        finally:
            store.close()


def seen(unit: UnitOfWork) -> list[object]:
    """Return all that a unit shows."""
    ids = [ulid_text(number) for number in range(1, 8)]
    kinds = ("site", "system", "visit", "instrument", "check", "stock")
    return [
        unit.facts(),
        [unit.facts(visit=id_) for id_ in ids],
        [unit.facts(about=id_, kind="visit") for id_ in ids],
        unit.purged(ids),
        sorted(unit.visit_cards(), key=lambda card: card.visit),
        sorted(unit.system_cards(text="FERN"), key=lambda card: card.system),
        sorted(unit.visit_cards(state="open", text="100 %"), key=lambda card: card.visit),
        [unit.entities(kind) for kind in kinds],
    ]


@settings(max_examples=16)
@given(BATCHES)
def test_the_store_shows_what_its_naive_twin_shows(batches: list[list[Fact]]) -> None:
    """The twin holds everything in one dictionary and makes every list anew each time it is asked."""
    twin = MemoryStore()
    with new_store() as store:
        for batch in batches:
            with twin.work() as naive, store.writing() as unit:
                mine, theirs = unit.add(batch), naive.add(batch)
                assert set(mine.new) == set(theirs.new)
                unit.commit()
                naive.commit()
        with twin.work() as naive, store.reading() as unit:
            assert seen(unit) == seen(naive)


@settings(max_examples=16)
@given(BATCHES)
def test_lists_that_were_kept_in_step_are_those_made_anew(batches: list[list[Fact]]) -> None:
    """Every projection, row by row, by the doctor's own check; references and integrity with it."""
    with new_store() as store:
        for batch in batches:
            with store.writing() as unit:
                unit.add(batch)
                unit.commit()
        report = health.examine(store.engine)
    given = {"collisions", "shown-photos"}  # the facts themselves may be wrong in these
    assert [check.id for check in report.checks if not check.fine and check.id not in given] == []


@settings(max_examples=10)
@given(st.lists(said() | purge(), max_size=5), st.randoms(use_true_random=False))
def test_the_order_of_arrival_does_not_matter(facts: list[Fact], chance: object) -> None:
    """A sync may bring facts one by one in any order, or all at once."""
    shuffled = list(facts)
    chance.shuffle(shuffled)  # type: ignore[attr-defined]
    pictures = []
    for batches in ([facts], [[one] for one in shuffled]):
        with new_store() as store:
            for batch, _ in itertools.product(batches, range(2)):
                with store.writing() as unit:
                    unit.add(batch)
                    unit.commit()
            with store.reading() as unit:
                pictures.append(seen(unit))
    assert pictures[0] == pictures[1]
