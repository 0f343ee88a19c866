"""Whatever two homes do, and wherever the wire is cut, they end with one record, and the next sync finds nothing."""

from __future__ import annotations

from dataclasses import dataclass, field

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from steadyhead.service.record.beside import add_note
from steadyhead.service.record.erasing import erase
from steadyhead.service.record.pages import visit_page
from steadyhead.service.record.photos import add_photo
from steadyhead.service.record.readings import add_reading, correct_reading
from steadyhead.service.record.visits import end_visit, start_visit
from steadyhead.service.sync import spans, talk
from steadyhead.visit.heads import entities_of
from steadyhead.visit.union import emptied_ids, union
from tests.record.device import Device
from tests.service.photos.made import jpeg, png
from tests.service.sync.wire import brought_together, cut_off

STEP = st.tuples(
    st.sampled_from(("read", "read", "correct", "note", "end", "photo", "visit", "erase", "cut", "sync")),
    st.integers(0, 1),
    st.integers(0, 40_000),
)
PHOTOS = (jpeg(), png())


@dataclass
class Pair:
    """A phone and a laptop, with the visits that either began."""

    phone: Device = field(default_factory=lambda: Device(seed=1))
    laptop: Device = field(default_factory=lambda: Device(seed=2))
    visits: list[str] = field(default_factory=list)

    def take(self, step: str, who: int, number: int) -> None:
        """Let one of them do one thing, or both meet."""
        device, other = (self.phone, self.laptop) if who else (self.laptop, self.phone)
        device.clock.now += 1000
        known = [id_ for id_ in self.visits if stands(device, id_)]
        if step == "sync":
            brought_together(device, other)
        elif step == "cut":
            cut_off(device, other, number % 6000, short=bool(number % 2))
        elif step == "visit" or not known:
            self.visits.append(start_visit(device.given, {"text": f"call {number}"}))
        else:
            self.work(step, device, known[number % len(known)], number)

    def work(self, step: str, device: Device, visit: str, number: int) -> None:
        """Let one device do something in a visit."""
        rows = visit_page(device.given, visit).rows
        if step == "read":
            add_reading(device.given, visit, {"measure": "gauge-pressure", "value": f"{number % 90} psi"})
        elif step == "correct" and rows:
            correct_reading(device.given, visit, rows[number % len(rows)].id, {"value": f"{number % 90} psi"})
        elif step == "note":
            add_note(device.given, visit, f"note {number}")
        elif step == "end":
            end_visit(device.given, visit, ("watching", "open")[number % 2])
        elif step == "photo":
            add_photo(device.given, visit, PHOTOS[number % 2])
        elif step == "erase" and number % 3 == 0:
            erase(device.given, visit)


def stands(device: Device, visit: str) -> bool:
    """Tell whether a device has a visit that was not erased."""
    with device.given.reading() as work:
        return bool(work.facts(about=visit)) and not work.purged([visit])


@pytest.fixture(autouse=True)
def _small(monkeypatch: pytest.MonkeyPatch) -> None:
    """Make every message so small that a few facts take many of them."""
    monkeypatch.setattr(spans, "SIZE", 3)
    monkeypatch.setattr(talk, "MOST_SPANS", 2)
    monkeypatch.setattr(talk, "MOST_IDS", 2)
    monkeypatch.setattr(talk, "MOST_MARKS", 4)
    monkeypatch.setattr(talk, "MOST_PHOTOS", 1)
    monkeypatch.setattr(talk, "MOST_FACTS_BYTES", 700)


def holds(pair: Pair) -> None:
    """Hold both records against the union of the two as they were, and against each other."""
    before = [list(device.store.facts.values()) for device in (pair.phone, pair.laptop)]
    brought_together(pair.phone, pair.laptop)
    facts = {fact.id: fact for fact in union(*before).facts}
    assert dict(pair.phone.store.facts) == dict(pair.laptop.store.facts) == facts
    assert pair.phone.store.blobs == pair.laptop.store.blobs
    purged = emptied_ids(facts.values())
    heads = entities_of(facts.values(), purged)
    for device in (pair.phone, pair.laptop):
        assert entities_of(device.store.facts.values(), purged) == heads
    again = brought_together(pair.laptop, pair.phone)
    assert again.came.nothing
    assert (again.sent, again.photos_sent) == (0, 0)


@given(st.lists(STEP, max_size=16))
@settings(max_examples=40, deadline=None)
def test_both_end_with_the_union_of_what_they_had_whatever_happened_before(steps: list[tuple[str, int, int]]) -> None:
    """The union of the facts (`steadyhead.visit.union`), worked out apart from any sync; then nothing differs."""
    pair = Pair()
    for step in steps:
        pair.take(*step)
    holds(pair)


def test_a_sync_may_be_cut_at_any_byte_and_begun_again() -> None:
    """Every 41st byte of the some 6,800 that it takes, the request cut short or lost; always the same end."""
    whole = prepared()
    brought_together(whole.phone, whole.laptop)
    cuts = 0
    for cut in range(0, 7000, 41):
        pair = prepared()
        cuts += cut_off(pair.phone, pair.laptop, cut, short=bool(cut % 2))
        brought_together(pair.laptop, pair.phone)
        assert pair.phone.store.facts == pair.laptop.store.facts == whole.phone.store.facts
        assert pair.phone.store.blobs == pair.laptop.store.blobs == whole.phone.store.blobs
    assert cuts > 160


def prepared() -> Pair:
    """Return two devices with something to say to each other, the same every time."""
    pair = Pair()
    for step in (("visit", 1, 1), ("read", 1, 30), ("photo", 1, 2), ("sync", 0, 0), ("read", 0, 31), ("correct", 1, 40),
                 ("correct", 0, 41), ("visit", 0, 5), ("photo", 0, 3), ("end", 1, 2), ("erase", 1, 0)):  # fmt: skip
        pair.take(*step)
    return pair
