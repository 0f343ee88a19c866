"""Everything in one file or in several: each by itself, in any order, and what stays at home."""

from __future__ import annotations

import random
from itertools import permutations

import pytest

from steadyhead.service.record import everything
from steadyhead.service.record.demo import begin_demo
from steadyhead.service.record.erasing import erase
from steadyhead.service.record.everything import part_bytes, whole
from steadyhead.service.record.exchange import import_visit
from steadyhead.service.record.photos import add_photo
from steadyhead.service.record.visits import start_visit
from steadyhead.visit.archive import read_archive
from steadyhead.visit.facts import Fact
from tests.record.device import Device
from tests.record.memory import MemoryWork
from tests.service.photos.made import jpeg, png, webp

PLATE = {"signal": "0.5..4.5 V ratiometric", "range": "0..100 psi"}
PHOTOS = (jpeg(), png(), webp())


@pytest.fixture
def phone() -> Device:
    """Return a phone with three visits, a photo in each, and one that was erased."""
    device = Device(seed=1)
    for number, photo in enumerate(PHOTOS):
        add_photo(device.given, start_visit(device.given, {"text": f"call {number}"}, sensor=PLATE), photo)
    erase(device.given, start_visit(device.given, {"text": "secret"}, sensor=PLATE))
    return device


def test_the_parts_of_a_large_record_make_the_whole_in_any_order(
    phone: Device, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Parts of one photo and of a few facts; every part by itself keeps its photo."""
    monkeypatch.setattr(everything, "PHOTOS_OF_A_PART", 1)
    monkeypatch.setattr(everything, "FACTS_OF_A_PART", 1500)
    found = whole(phone.given)
    assert (found.visits, found.facts, found.photos) == (4, len(phone.store.facts), 3)
    files = [part_bytes(phone.given, number) for number in range(1, len(found.parts) + 1)]
    assert len(files) > 3
    orders = list(permutations(files))
    for order in random.Random(4).sample(orders, min(6, len(orders))):  # noqa: S311 - the same orders every time
        laptop = Device(seed=2)
        for file in order:
            import_visit(laptop.given, file, "part.visits")
        assert dict(laptop.store.facts) == dict(phone.store.facts)
        assert dict(laptop.store.blobs) == dict(phone.store.blobs)
    alone = Device(seed=3)
    assert import_visit(alone.given, files[-1], "part.visits").photos == 1


def test_to_tell_the_parts_what_the_facts_say_is_not_read(phone: Device, monkeypatch: pytest.MonkeyPatch) -> None:
    """With a store that refuses to read facts page by page."""
    monkeypatch.setattr(MemoryWork, "facts_after", lambda *_: pytest.fail("every fact is read"))
    assert whole(phone.given).facts == len(phone.store.facts)


def test_of_a_part_no_more_is_read_than_it_holds(phone: Device, monkeypatch: pytest.MonkeyPatch) -> None:
    """By count, in parts of a few facts and pages of one: those of the part, and the one that is past its end."""
    monkeypatch.setattr(everything, "FACTS_OF_A_PART", 1500)
    monkeypatch.setattr(everything, "PAGE", 1)
    parts = whole(phone.given).parts
    facts = sorted(phone.store.facts)
    read: list[str] = []
    plain = MemoryWork.facts_after

    def counted(work: MemoryWork, after: str, limit: int) -> tuple[Fact, ...]:
        found = plain(work, after, limit)
        read.extend(fact.id for fact in found)
        return found

    monkeypatch.setattr(MemoryWork, "facts_after", counted)
    part = parts[1]
    part_bytes(phone.given, 2)
    own = [id_ for id_ in facts if part.after < id_ <= part.upto]
    assert read[: len(own)] == own
    assert len(read) <= len(own) + 1


def test_the_same_part_is_the_same_bytes_and_says_nothing_of_what_was_erased(phone: Device) -> None:
    """No time of day, no order of a dictionary; a purged text is in no file."""
    assert part_bytes(phone.given, 1) == part_bytes(phone.given, 1)
    assert b"secret" not in part_bytes(phone.given, 1)
    assert b"call 1" in part_bytes(phone.given, 1)


def test_the_invented_visit_is_in_no_file() -> None:
    """A record that holds it alone gives a file without facts, and taking that in changes nothing."""
    device, other = Device(seed=1), Device(seed=2)
    begin_demo(device.given, 'schema = 1\n[sensor]\nsignal = "0.5..4.5 V ratiometric"\nrange = "0..100 psi"\n')
    assert whole(device.given).facts == 0
    data = part_bytes(device.given, 1)
    assert read_archive(data, "a.visits").facts == ()
    assert import_visit(other.given, data, "a.visits").nothing
    assert other.store.facts == {}
