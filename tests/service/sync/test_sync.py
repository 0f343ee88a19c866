"""Two homes brought together: what goes, what comes, what an erasing does, what is shown as a conflict."""

from __future__ import annotations

import hashlib
import json
from dataclasses import replace

import pytest

from steadyhead.errors import RecordError, SyncError
from steadyhead.service.record.demo import begin_demo
from steadyhead.service.record.erasing import erase
from steadyhead.service.record.pages import visit_page
from steadyhead.service.record.photos import add_photo, remove_photo
from steadyhead.service.record.readings import Kept, add_reading, correct_reading
from steadyhead.service.record.visits import start_visit
from steadyhead.service.sync import spans, talk
from steadyhead.service.sync.far import answer
from steadyhead.service.sync.near import pair, sync
from steadyhead.service.sync.talk import Ask, Reply, document
from steadyhead.visit.facts import Fact
from steadyhead.visit.ids import ulid_text
from tests.record.bench import fact
from tests.record.device import Device
from tests.service.photos.made import jpeg, png
from tests.service.sync.wire import Wire, brought_together, driven

PLATE = {"signal": "0.5..4.5 V ratiometric", "range": "0..100 psi"}


def two() -> tuple[Device, Device]:
    """Return a phone and a laptop."""
    return Device(seed=1), Device(seed=2)


def read(device: Device, visit: str, value: str) -> str:
    """Take a gauge reading; return its id."""
    kept = add_reading(device.given, visit, {"measure": "gauge-pressure", "value": value})
    assert isinstance(kept, Kept)
    return kept.id


def hold(device: Device, *facts: Fact) -> None:
    """Put facts into a device's record."""
    with device.store.writing() as work:
        work.add(facts)
        work.commit()


def test_what_either_has_both_have_afterwards_photos_too_and_again_brings_nothing() -> None:
    """Counted by hand: two facts of a visit (it and its system), one reading or one photo each."""
    phone, laptop = two()
    here = start_visit(phone.given, {"text": "pump hunts"}, sensor=PLATE)
    read(phone, here, "48 psi")
    there = start_visit(laptop.given, {"text": "no water"}, sensor=PLATE)
    add_photo(laptop.given, there, jpeg())
    add_photo(phone.given, here, png())
    tally = brought_together(phone, laptop)
    assert (tally.came.new, tally.sent, tally.came.photos, tally.photos_sent) == (3, 4, 1, 1)
    assert phone.store.facts == laptop.store.facts
    assert phone.store.blobs == laptop.store.blobs
    assert len(phone.store.blobs) == 2
    again = brought_together(phone, laptop)
    assert again.came.nothing
    assert (again.sent, again.photos_sent) == (0, 0)


def test_a_sync_that_finds_nothing_asks_once_for_facts_and_once_for_photos() -> None:
    """One span of fewer than 256 facts; one list of photos."""
    phone, laptop = two()
    add_photo(phone.given, start_visit(phone.given, {}, sensor=PLATE), jpeg())
    brought_together(phone, laptop)
    wire = Wire(laptop.given)
    driven(sync(phone.given), wire.carry)
    assert wire.asks == ["compare", "photos"]


def test_an_erasing_wins_whichever_side_made_it_and_takes_the_photo_along() -> None:
    """Rule 2 of the union; one visit erased at the phone, one at the laptop while the phone was away."""
    phone, laptop = two()
    one = start_visit(phone.given, {"text": "secret-one"}, sensor=PLATE)
    two_ = start_visit(phone.given, {"text": "secret-two"}, sensor=PLATE)
    add_photo(phone.given, one, jpeg())
    brought_together(phone, laptop)
    erase(phone.given, one)
    erase(laptop.given, two_)
    read(phone, two_, "48 psi")
    tally = brought_together(phone, laptop)
    assert tally.came.erased == 2  # the visit and its reading here
    assert tally.erased == 2  # the visit and its photo there
    assert phone.store.facts == laptop.store.facts
    assert phone.store.blobs == laptop.store.blobs == {}
    assert all("secret" not in str(each.body) for each in phone.store.facts.values())


def test_what_both_corrected_is_told_as_a_conflict() -> None:
    """Both hold the reading, and each corrects it otherwise."""
    phone, laptop = two()
    visit = start_visit(phone.given, {}, sensor=PLATE)
    reading = read(phone, visit, "48 psi")
    brought_together(phone, laptop)
    correct_reading(phone.given, visit, reading, {"value": "46 psi"})
    correct_reading(laptop.given, visit, reading, {"value": "41 psi"})
    assert brought_together(phone, laptop).came.conflicts == (reading,)
    for device in (phone, laptop):
        (row,) = visit_page(device.given, visit).rows
        assert {each.value for each in row.heads} == {"46 psi", "41 psi"}


def test_a_kind_of_a_newer_version_passes_through_as_it_came() -> None:
    """A fact of an invented kind with an invented key, to a second home and on to a third."""
    phone, laptop = two()
    third = Device(seed=3)
    strange = replace(fact(7, "echo-sounding", body={"depth": "12 m"}), extra={"boat": [1, {"a": None}]})
    hold(phone, strange)
    assert brought_together(laptop, phone).came.newer == ("echo-sounding",)
    brought_together(laptop, third)
    assert third.store.facts[strange.id] == strange


def test_the_invented_visit_stays_at_home_and_work_done_at_its_system_takes_the_system_along() -> None:
    """A first start shows the invented visit; one at the same system is somebody's own."""
    phone, laptop = two()
    text = '[sensor]\nsignal = "0.5..4.5 V ratiometric"\nrange = "0..100 psi"\n'
    demo = begin_demo(phone.given, f"schema = 1\n{text}")
    assert brought_together(phone, laptop).sent == 0
    assert laptop.store.facts == {}
    start_visit(phone.given, {"text": "no water"}, system=visit_page(phone.given, demo).system_id)
    assert brought_together(phone, laptop).sent == 2
    assert {each.kind for each in laptop.store.facts.values()} == {"visit", "system"}


def test_a_phone_may_leave_the_photos_of_others_where_they_are() -> None:
    """Its own go, the others' don't come; later they may."""
    phone, laptop = two()
    add_photo(laptop.given, start_visit(laptop.given, {}, sensor=PLATE), jpeg())
    add_photo(phone.given, start_visit(phone.given, {}, sensor=PLATE), png())
    tally = brought_together(phone, laptop, photos=False)
    assert (tally.came.photos, tally.photos_sent) == (0, 1)
    assert (len(phone.store.blobs), len(laptop.store.blobs)) == (1, 2)
    assert brought_together(phone, laptop).came.photos == 1


def test_no_message_is_larger_than_it_may_be_with_thousands_of_facts_on_both_sides() -> None:
    """5,000 notes of 300 signs on one side, 700 on the other; some large ones among them."""
    phone, laptop = two()
    hold(laptop, *(fact(number, body={"text": "x" * 300}) for number in range(1, 10001, 2)))
    large = {number: {"text": "y" * (200_000 if number % 500 == 0 else 10)} for number in range(2, 1401, 2)}
    hold(phone, *(fact(number, body=body) for number, body in large.items()))
    wire = Wire(laptop.given)
    tally = driven(sync(phone.given), wire.carry)
    assert (tally.came.new, tally.sent) == (5000, 700)
    assert phone.store.facts == laptop.store.facts
    assert wire.largest <= talk.MOST_BODY


def test_facts_of_a_clock_that_is_years_ahead_are_refused_and_nothing_of_their_batch_is_kept() -> None:
    """Twenty years after the bench's morning; 48 bits of milliseconds stand before 80 of chance."""
    phone, laptop = two()
    ahead = (phone.clock() + 20 * 366 * 86_400_000) << 80
    hold(laptop, fact(ahead), fact(5))
    with pytest.raises(RecordError, match="archive-from-afar"):
        brought_together(phone, laptop)
    assert phone.store.facts == {}


def test_spans_cover_every_id_and_hold_each_fact_once() -> None:
    """600 facts in spans of 256: 256, 256, 88; the last ends where ids end."""
    phone, _ = two()
    hold(phone, *(fact(number) for number in range(1, 601)))
    with phone.given.reading() as work:
        found = spans.spans_after(work, "", 64, frozenset())
        first = spans.spans_after(work, "", 2, frozenset())
        rest = spans.spans_after(work, first[-1].upto, 64, frozenset())
    assert [each.count for each in found] == [256, 256, 88]
    assert [each.after for each in found] == ["", *(each.upto for each in found[:-1])]
    assert found[-1].upto == spans.END == "7" + 25 * "Z"
    assert [*first, *rest] == found


def test_an_emptied_fact_and_the_same_in_full_have_different_marks() -> None:
    """SHA-256 over the canonical text (docs/sync.md)."""
    note = fact(1)
    text = '{"about":"' + ulid_text(1)
    assert spans.mark(note) == hashlib.sha256(_canonical(note).encode()).hexdigest()[:20]
    assert _canonical(note).startswith(text)
    assert spans.mark(note) != spans.mark(replace(note, body={}))


def _canonical(note: Fact) -> str:
    """Return the text of a fact by the rules of docs/record.md, written apart from the package."""
    plain = {name: getattr(note, name) for name in note.__dataclass_fields__ if name != "extra"}
    return json.dumps({**plain, **note.extra}, sort_keys=True, separators=(",", ":"), ensure_ascii=False)


@pytest.mark.parametrize(
    ("what", "body"),
    [
        ("compare", b""), ("compare", b"{"), ("compare", b"[]"), ("compare", b'{"spans": 1}'),
        ("compare", b'{"spans": [["", "x", 1, ""]]}'), ("compare", b'{"spans": [["", "", 1]]}'),
        ("compare", b'{"spans": [[1, 2, 3, 4]]}'), ("give", b'{"ids": "x"}'), ("give", b'{"ids": [1]}'),
        ("take", b'{"facts": ["{}"]}'), ("take", b'{"facts": [{}]}'), ("photos", b'{"sha256": ["../x"]}'),
        ("take", b"\xff\xfe"), ("compare", b"[" * 100_000), ("photos/" + 64 * "0", b"not these bytes"),
    ],
)  # fmt: skip
def test_a_message_that_cannot_be_used_is_refused_and_changes_nothing(what: str, body: bytes) -> None:
    """400 with an id that says why."""
    phone, _ = two()
    hold(phone, fact(1))
    before = dict(phone.store.facts)
    reply = answer(phone.given, what, body)
    assert reply.status == 400
    assert document(reply.body)["error"]
    assert phone.store.facts == before


@pytest.mark.parametrize(("what", "body"), [("nothing", b"{}"), ("compare", None), ("photos/" + 64 * "a", None),
                                            ("../settings", b"{}")])  # fmt: skip
def test_an_address_that_is_none_is_told_so(what: str, body: bytes | None) -> None:
    """404."""
    assert answer(two()[0].given, what, body).status == 404


def test_a_photo_that_no_fact_shows_is_neither_given_nor_kept() -> None:
    """One that was taken out here, with its bytes; somebody sends them again."""
    phone, _ = two()
    visit = start_visit(phone.given, {}, sensor=PLATE)
    photo = add_photo(phone.given, visit, jpeg())
    ((sha256, blob),) = phone.store.blobs.items()
    assert answer(phone.given, f"photos/{sha256}", None).body == blob.data
    remove_photo(phone.given, visit, photo)
    assert document(answer(phone.given, f"photos/{sha256}", blob.data).body) == {"new": 0}
    assert answer(phone.given, f"photos/{sha256}", None).status == 404
    assert phone.store.blobs == {}


@pytest.mark.parametrize(
    ("reply", "says"),
    [
        (Reply(401, b"{}"), "sync-not-paired"), (Reply(404, b"<html>"), "sync-none-there"),
        (Reply(500, b"oops"), "sync-refused"), (Reply(200, b"<html>"), "sync-cut-off"),
        (Reply(200, b'{"differ": [{"after": ""'), "sync-cut-off"), (Reply(200, b"{}"), "sync-unread"),
        (Reply(200, b'{"differ": [], "upto": ""}'), "sync-unread"),
        (Reply(200, b'{"differ": [{"after": "", "upto": "", "marks": [[1, 2]]}], "upto": ""}'), "sync-unread"),
    ],
)  # fmt: skip
def test_a_home_that_answers_otherwise_is_told_in_words_and_nothing_is_changed(reply: Reply, says: str) -> None:
    """Another version, another program, a proxy's page, a reply that was cut."""
    phone, _ = two()
    hold(phone, fact(1))
    with pytest.raises(SyncError, match=says):
        driven(sync(phone.given), lambda _: reply)
    assert set(phone.store.facts) == {ulid_text(1)}


def test_facts_that_were_not_asked_for_are_refused() -> None:
    """A home that answers with more than was asked."""
    phone, laptop = two()
    hold(laptop, fact(1), fact(2))

    def more(ask: Ask) -> Reply:
        body = json.dumps({"ids": [ulid_text(1), ulid_text(2)]}).encode() if ask.what == "give" else ask.body
        return answer(laptop.given, ask.what, body)

    hold(phone, fact(2))
    with pytest.raises(SyncError, match="sync-unread"):
        driven(sync(phone.given), more)


def test_a_code_is_sent_once_and_answered_by_a_key() -> None:
    """What is wrong with a code is not told (docs/security.md)."""
    talked = pair("1234 5678", "Ben")
    ask = next(talked)
    assert (ask.what, document(ask.body or b"")) == ("pair", {"code": "1234 5678", "name": "Ben"})
    with pytest.raises(StopIteration) as end:
        talked.send(Reply(200, b'{"key": "0123456789abcdef"}'))
    assert end.value.value == "0123456789abcdef"
    refused = pair("1", "")
    next(refused)
    with pytest.raises(SyncError, match="join-wrong"):
        refused.send(Reply(403, b"{}"))


def test_one_id_with_two_contents_is_settled_alike_on_both_sides_and_told() -> None:
    """Rule 3 of the union: the canonical text that sorts first; nobody who is honest does this."""
    for mine, theirs in (("a", "b"), ("b", "a")):
        phone, laptop = two()
        hold(phone, fact(1, body={"text": mine}))
        hold(laptop, fact(1, body={"text": theirs}))
        assert brought_together(phone, laptop).came.collisions == (ulid_text(1),)
        assert phone.store.facts == laptop.store.facts
        assert phone.store.facts[ulid_text(1)].body == {"text": "a"}
