"""A fact's contract: what is kept, what comes back, what is refused."""

from __future__ import annotations

import json
import random

import pytest

from steadyhead.errors import RecordError
from steadyhead.visit.facts import Fact, canonical, emptied, fact_from_json, fact_from_text
from steadyhead.visit.ids import LAST, Ids, at_text, is_ulid, ulid_number, ulid_text
from tests.record.bench import A_MORNING, ToldClock, fact, seeded_ids

PLAIN: dict[str, object] = {
    "id": "01ARZ3NDEKTSV4RRFFQ69G5FAV", "kind": "note", "about": "01ARZ3NDEKTSV4RRFFQ69G5FAV", "visit": None,
    "body": {"text": "wet plug"}, "at": "2026-05-04T07:09:31.250Z", "zone": "Europe/Berlin", "author": "Ann",
    "instrument": None, "program": "0.1.0", "supersedes": [],
}  # fmt: skip


def test_a_fact_is_written_with_sorted_keys_and_no_space_between() -> None:
    """The canonical form, written out by Python's own json beside it."""
    text = canonical(fact_from_json(PLAIN))
    assert text == json.dumps(PLAIN, sort_keys=True, ensure_ascii=False, separators=(",", ":"))


def test_what_a_newer_version_put_in_comes_out_as_it_came() -> None:
    """The same text, a new kind, a new key of the body and a new key beside the fields among it."""
    body = {"text": "x", "spectrum": [1, 2.5, None]}
    newer = {**PLAIN, "kind": "vibration", "body": body, "signature": {"by": ["k"]}}
    text = json.dumps(newer, sort_keys=True, separators=(",", ":"))
    assert canonical(fact_from_text(text)) == text


@pytest.mark.parametrize(
    ("key", "value"),
    [
        ("id", "01ARZ3NDEKTSV4RRFFQ69G5FA"), ("id", "01arz3ndektsv4rrffq69g5fav"), ("id", 5), ("kind", "Two words"),
        ("about", None), ("visit", "x"), ("body", []), ("at", "2026-05-04 07:09:31"), ("zone", "a\nb"),
        ("author", "x" * 201), ("instrument", 4), ("supersedes", "01ARZ3NDEKTSV4RRFFQ69G5FAV"),
        ("supersedes", ["01ARZ3NDEKTSV4RRFFQ69G5FAV"] * 2), ("author", None),
    ],
)  # fmt: skip
def test_a_field_of_another_form_is_refused_by_name(key: str, value: object) -> None:
    """The table of fields in the record's manual."""
    with pytest.raises(RecordError) as refusal:
        fact_from_json({**PLAIN, key: value})
    assert refusal.value.message.values["field"] == key


@pytest.mark.parametrize("key", ["id", "kind", "about", "body", "at"])
def test_a_fact_without_one_of_its_needed_fields_is_refused(key: str) -> None:
    """The table of fields in the record's manual."""
    with pytest.raises(RecordError, match=f"field='{key}'"):
        fact_from_json({name: value for name, value in PLAIN.items() if name != key})


@pytest.mark.parametrize(
    "text",
    [
        "", "[]", "nothing", json.dumps(PLAIN)[:-1] + ', "kind": "photo"}',
        json.dumps(PLAIN).replace('"wet plug"', '"wet plug", "text": "dry"'),
        '{"id":1,"id":2}', '{"body":NaN}', "[" * 100_000, b"\xff\xfe",
        json.dumps({**PLAIN, "body": {"x": 1}}).replace('"x": 1', '"x": 1e999'),
        json.dumps({**PLAIN, "body": {"x": "\ud800"}}), json.dumps({**PLAIN, "body": {"x": "\0"}}),
        json.dumps({**PLAIN, "body": {"x": json.loads("[" * 40 + "]" * 40)}}),
        json.dumps({**PLAIN, "body": {"text": "x" * 300_000}}),
    ],
)  # fmt: skip
def test_a_text_that_is_no_fact_is_refused(text: str | bytes) -> None:
    """JSON's own grammar (RFC 8259), and the limits in the record's manual."""
    with pytest.raises(RecordError):
        fact_from_text(text)


def test_what_remains_of_a_purged_fact_tells_nothing_that_anybody_said() -> None:
    """Every field but ids, kind, time and what it replaced is blank."""
    left = emptied(fact_from_json({**PLAIN, "instrument": PLAIN["id"], "new-key": "secret"}))
    assert left == Fact(id=str(PLAIN["id"]), kind="note", about=str(PLAIN["id"]), at=str(PLAIN["at"]), zone="")
    assert fact_from_text(canonical(left)) == left


def test_an_id_reads_as_the_number_that_base_32_says() -> None:
    """Python's own int() of base 32, whose signs are 0-9 and A-V."""
    to_python = str.maketrans("0123456789ABCDEFGHJKMNPQRSTVWXYZ", "0123456789ABCDEFGHIJKLMNOPQRSTUV")
    draw = random.Random(1)  # noqa: S311 - the same numbers every time
    for number in (0, 1, LAST, *(draw.getrandbits(128) for _ in range(200))):
        text = ulid_text(number)
        assert int(text.translate(to_python), 32) == number == ulid_number(text)
        assert is_ulid(text)


def test_an_id_begins_with_its_time() -> None:
    """The ULID specification's own example: 1469918176385 ms is 01ARYZ6S41 (ulid/javascript, README; from memory)."""
    assert Ids(lambda: 1469918176385, lambda _: 0).new()[:10] == "01ARYZ6S41"


def test_a_time_is_written_in_utc_with_milliseconds() -> None:
    """Days counted by hand: 20577 days after 1970 is 2026-05-04."""
    assert at_text(A_MORNING) == "2026-05-04T07:09:31.250Z"


def test_ids_sort_as_they_were_made_though_the_clock_stands_or_runs_back() -> None:
    """Rule 2 of the ids."""
    clock = ToldClock()
    ids = seeded_ids(clock)
    made = []
    for step in (0, 0, -5000, 3, -100_000, 0):
        clock.now += step
        made.append(ids.new())
    assert made == sorted(set(made))


def test_an_id_comes_after_the_one_that_it_is_told_of_though_the_clock_is_behind() -> None:
    """Rule 2 of the ids."""
    ahead = ulid_text((A_MORNING + 86_400_000) << 80)
    ids = seeded_ids(ToldClock())
    assert ahead < ids.new(ahead) < ids.new()


def test_two_devices_that_come_after_the_same_id_do_not_meet() -> None:
    """A step of chance of 64 bits: a thousand devices meet once in 10^13 such moments (birthday bound)."""
    ahead = ulid_text((A_MORNING + 86_400_000) << 80)
    made = {seeded_ids(ToldClock(), seed).new(ahead) for seed in range(1000)}
    assert len(made) == 1000


def test_no_id_is_made_where_none_is_left() -> None:
    """128 bits are 128 bits."""
    with pytest.raises(RecordError, match="ids-used-up"):
        seeded_ids(ToldClock()).new(ulid_text(LAST))
    with pytest.raises(RecordError, match="id-unreadable"):
        seeded_ids(ToldClock()).new("yesterday")


def test_two_facts_with_the_same_content_are_one_in_a_set() -> None:
    """A frozen value."""
    assert len({fact(1), fact(1)}) == 1
