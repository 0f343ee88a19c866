"""A unit of work: all of it or nothing, once, and as it went in."""

from __future__ import annotations

import hashlib

import pytest

from steadyhead.errors import StoreBusyError
from steadyhead.service.ports import PhotoShown
from steadyhead.store import engines
from steadyhead.store.opening import open_store
from steadyhead.store.places import Place
from steadyhead.store.unit import Store
from steadyhead.visit.facts import canonical, emptied
from steadyhead.visit.ids import ulid_text
from tests.record.bench import fact
from tests.store.samples import PHOTO, PICTURE, READINGS, SHA256, SYSTEM, VISIT, WHOLE, filled


def test_what_is_committed_is_there_when_the_store_is_opened_again(place: Place) -> None:
    """The promise of a commit."""
    store = open_store(place)
    filled(store).close()
    again = open_store(place)
    with again.reading() as unit:
        assert unit.facts() == tuple(sorted(WHOLE, key=lambda one: one.id))
    again.close()


def test_what_is_not_committed_never_happened(store: Store) -> None:
    """The promise of a unit of work: facts, photos, settings and lists alike."""
    with store.writing() as unit:
        unit.add(WHOLE)
        unit.put_blob(PICTURE, "image/jpeg")
        unit.set_setting("author", "Ann")
        assert unit.visit_cards()
    with store.reading() as unit:
        assert unit.facts() == ()
        assert unit.visit_cards() == ()
        assert unit.blob(SHA256) is None
        assert unit.setting("author") is None


def test_an_error_takes_everything_back(store: Store) -> None:
    """As above, with an error of the caller's own."""
    with pytest.raises(ZeroDivisionError):
        _work_that_fails(store)
    with store.reading() as unit:
        assert unit.facts() == ()


def _work_that_fails(store: Store) -> None:
    with store.writing() as unit:
        unit.add(WHOLE)
        _ = 1 // 0


def test_adding_again_changes_nothing(store: Store) -> None:
    """A sync may be repeated."""
    filled(store)
    with store.writing() as unit:
        added = unit.add(WHOLE)
        unit.commit()
    assert (added.new, added.collisions) == ((), ())


def test_what_a_newer_version_wrote_comes_out_as_it_went_in(store: Store) -> None:
    """The canonical text, sign by sign: an unknown kind, unknown keys, other alphabets, deep tables."""
    strange = fact(
        40, "vibration", body={"z": [1, 2.5, None, True, {"b": "ß", "a": "水\u0000"}], "a": ""},
        extra={"signature": {"by": "Ω"}}, supersedes=(9, 3, 7),
    )  # fmt: skip
    with store.writing() as unit:
        unit.add([strange])
        unit.commit()
    with store.reading() as unit:
        found = unit.fact(strange.id)
    assert found is not None
    assert canonical(found) == canonical(strange)


def test_facts_are_asked_by_what_they_speak_of(store: Store) -> None:
    """The invented visit: those of the visit include the visit's own."""
    with filled(store).reading() as unit:
        assert unit.facts(about=SYSTEM.id) == (SYSTEM,)
        assert unit.facts(visit=VISIT.id) == (VISIT, *READINGS, PHOTO)
        assert unit.facts(visit=VISIT.id, kind="reading") == READINGS
        assert unit.facts(kind="site", visit=VISIT.id) == ()
        assert unit.fact(VISIT.visit or "") == VISIT


def test_lists_find_by_a_word_without_regard_to_capitals_and_wildcards(store: Store) -> None:
    """The invented visit; % and _ are signs like others."""
    with filled(store).reading() as unit:
        assert [card.visit for card in unit.visit_cards(text="RELIEF")] == [VISIT.id]
        assert [card.name for card in unit.system_cards(text="0..100")] == ["House pump"]
        assert [card.name for card in unit.entities("site", text="fernhill")] == ["Fernhill Row"]
        assert unit.visit_cards(text="%") == unit.visit_cards(text="relief_valve") == ()


def test_lists_come_last_changed_first_and_page_by_page(store: Store) -> None:
    """Seven visits with one reading each, taken in another order than the visits were begun."""
    visits = [fact(100 + n, "visit", visit=100 + n, body={"state": "open"}) for n in range(7)]
    readings = [fact(300 - n, "reading", visit=100 + n) for n in range(7)]
    with store.writing() as unit:
        unit.add([*visits, *readings])
        unit.commit()
    with store.reading() as unit:
        pages = [unit.visit_cards(limit=3)]
        while pages[-1]:
            pages.append(unit.visit_cards(limit=3, before=pages[-1][-1].last))
    assert [card.visit for page in pages for card in page] == [visit.id for visit in visits]
    assert [len(page) for page in pages] == [3, 3, 1, 0]


def test_a_photo_is_kept_once_under_its_hash(store: Store) -> None:
    """The hash of "abc" is printed in FIPS 180-2, appendix B.1 (from memory)."""
    with store.writing() as unit:
        sha256 = unit.put_blob(b"abc", "image/png")
        assert unit.put_blob(b"abc", "image/png") == sha256
        unit.put_thumbnail(sha256, b"a", "image/webp")
        unit.put_thumbnail(sha256, b"b", "image/webp")
        unit.commit()
    assert sha256 == "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"
    with store.reading() as unit:
        photo, small = unit.blob(sha256), unit.thumbnail(sha256)
    assert photo is not None
    assert small is not None
    assert (photo.data, photo.media_type, small.data) == (b"abc", "image/png", b"b")


def test_a_setting_is_kept_and_replaced(store: Store) -> None:
    """The last word counts."""
    with store.writing() as unit:
        unit.set_setting("author", "Ann")
        unit.set_setting("author", "Bea")
        unit.commit()
    with store.reading() as unit:
        assert unit.setting("author") == "Bea"
        assert unit.setting("zone") is None


def test_a_reader_sees_one_moment_while_another_writes(store: Store) -> None:
    """A snapshot: what came after its first question is not in its second."""
    if store.engine.dialect.name == "sqlite" and not _has_write_ahead_log(store):
        pytest.skip("with a rollback journal the writer waits for the reader: one request at a time, as in a browser")
    filled(store)
    with store.reading() as reader:
        before = reader.facts()
        with store.writing() as writer:
            writer.add([fact(50)])
            writer.commit()
        assert reader.facts() == before
    with store.reading() as reader:
        assert len(reader.facts()) == len(before) + 1


def _has_write_ahead_log(store: Store) -> bool:
    with engines.bare(store.engine) as connection:
        return connection.exec_driver_sql("PRAGMA journal_mode").scalar() == "wal"


def test_a_second_writer_that_has_waited_enough_is_told_so(place: Place, store: Store) -> None:
    """The error names the file; it comes before anything is done, and the first writer's work is whole."""
    hasty = Store(engines.sqlite_engine(place.file, place.journal, patience_s=0.05))
    with store.writing() as first:
        for done in (first.facts, lambda: first.add(WHOLE)):
            with pytest.raises(StoreBusyError, match="data-busy"), hasty.writing():
                pass
            done()
        first.commit()
    with hasty.writing() as second:
        assert len(second.facts()) == len(WHOLE)
    hasty.close()


def test_a_purge_empties_what_it_covers_and_takes_its_photo_along(store: Store) -> None:
    """The rules of a purge."""
    with filled(store).writing() as unit:
        unit.add([fact(60, "purge", of=[3])])
        unit.commit()
    with store.reading() as unit:
        assert unit.facts(visit=VISIT.id) == tuple(emptied(one) for one in (VISIT, *READINGS, PHOTO))
        assert unit.blob(SHA256) is None
        assert unit.purged([VISIT.id, SYSTEM.id]) == {VISIT.id}
        assert [card.complaint for card in unit.visit_cards()] == [""]


def test_after_a_purge_no_byte_of_what_was_said_is_left_in_any_file(place: Place, store: Store) -> None:
    """The right to erasure, looked for in the bytes of the database and of everything beside it."""
    filled(store)
    said = (b"Relief valve", b"relief valve", b"12 psi", PICTURE)
    assert all(word in _bytes_in(place) for word in said)
    with store.writing() as unit:
        unit.add([fact(60, "purge", of=[3])])
        unit.commit()
    assert [word for word in said if word in _bytes_in(place)] == []


def _bytes_in(place: Place) -> bytes:
    return b"".join(file.read_bytes() for file in sorted(place.folder.iterdir()))


def test_after_a_purge_the_file_is_smaller(place: Place, store: Store) -> None:
    """A photo of a million bytes: no page of it is left, free or not."""
    with store.writing() as unit:
        sha256 = unit.put_blob(bytes(1_000_000), "image/jpeg")
        unit.add([fact(20, "photo", visit=3, body={"sha256": sha256}), fact(21, "purge", of=[3])])
        unit.commit()
    with engines.bare(store.engine) as connection:
        assert connection.exec_driver_sql("PRAGMA freelist_count").scalar() == 0
    assert place.file.stat().st_size < 1_000_000


def test_a_photo_that_comes_after_its_purge_is_not_kept(store: Store) -> None:
    """Another device did not know of the purge yet."""
    with store.writing() as unit:
        unit.add([fact(21, "purge", of=[3])])
        unit.commit()
    with filled(store).reading() as unit:
        assert unit.blob(SHA256) is None
        assert unit.fact(PHOTO.id) == emptied(PHOTO)


def test_a_visit_that_goes_to_another_system_leaves_the_former(store: Store) -> None:
    """A correction of the visit; both systems' cards are read off the facts."""
    other = fact(30, "system", body={"name": "Booster"})
    moved = fact(31, "visit", 3, visit=3, body={"system": other.id, "state": "open"}, supersedes=[3])
    with filled(store).writing() as unit:
        unit.add([other])
        unit.add([moved])
        unit.commit()
    with store.reading() as unit:
        assert {card.name: card.visits for card in unit.system_cards()} == {"House pump": 0, "Booster": 1}


def test_a_photo_that_another_fact_shows_stays(store: Store) -> None:
    """Two visits with the same picture; one is purged."""
    with filled(store).writing() as unit:
        unit.add([fact(61, "photo", visit=62, body=dict(PHOTO.body)), fact(70, "purge", of=[3])])
        unit.commit()
    with store.reading() as unit:
        photo = unit.blob(SHA256)
    assert photo is not None
    assert hashlib.sha256(photo.data).hexdigest() == SHA256


def test_both_contents_of_one_id_are_kept(store: Store) -> None:
    """A collision is reported, and neither content is lost."""
    other = fact(10, "reading", visit=3, body={"value": "99 psi"})
    with filled(store).writing() as unit:
        added = unit.add([other])
        unit.commit()
    assert added.collisions == (other.id,)
    with store.reading() as unit:
        kept = set(unit.connection.exec_driver_sql("SELECT content FROM collision").scalars())
    assert kept == {canonical(other), canonical(READINGS[0])}


def test_every_fact_is_read_page_by_page_in_the_order_of_ids(store: Store) -> None:
    """Seven facts in pages of three: 3, 3, 1, none."""
    with store.writing() as unit:
        unit.add([fact(number, supersedes=(number - 1,)) for number in range(7, 0, -1)])
        unit.commit()
    pages, after = [], ""
    with store.reading() as unit:
        while page := unit.facts_after(after, 3):
            pages.append([each.id for each in page])
            after = page[-1].id
        assert unit.facts_after("", 7) == unit.facts()
    assert pages == [[ulid_text(number) for number in some] for some in ((1, 2, 3), (4, 5, 6), (7,))]


def test_photos_that_facts_show_are_listed_with_their_size_or_none(store: Store) -> None:
    """One that is here, twice shown; one whose bytes never came; bytes that nothing shows are not listed."""
    with store.writing() as unit:
        here, unshown = unit.put_blob(b"photo", "image/jpeg"), unit.put_blob(b"other", "image/jpeg")
        away = "f" * 64
        bodies = [{"sha256": sha256} for sha256 in (here, here, away)]
        unit.add([fact(number, "photo", body=body) for number, body in enumerate(bodies, 1)])
        unit.commit()
    with store.reading() as unit:
        assert unit.photos_shown("", 9) == (PhotoShown(here, 5), PhotoShown(away, None))
        assert unit.photos_shown(here, 9) == (PhotoShown(away, None),)
        assert unit.photos_shown("", 1) == (PhotoShown(here, 5),)
    assert unshown != here


def test_facts_are_told_with_their_length_without_being_read(store: Store) -> None:
    """Beside the text that travels: within some hundred signs, whatever its signs; page by page."""
    said = [{"text": "wet" * length, "who": "Zoë"} for length in (0, 50, 2000)]
    with store.writing() as unit:
        unit.add([fact(number, about=9, body=body) for number, body in enumerate(said, 1)])
        unit.commit()
    with store.reading() as unit:
        found = unit.fact_sizes("", 9)
        facts = unit.facts()
        assert unit.fact_sizes(found[0].id, 1) == found[1:2]
    assert [(each.id, each.kind, each.about, each.visit) for each in found] == [
        (each.id, each.kind, each.about, each.visit) for each in facts
    ]
    assert all(abs(each.size - len(canonical(one))) < 200 for each, one in zip(found, facts, strict=True))


def test_facts_that_show_a_photo_are_found_by_it(store: Store) -> None:
    """Two of three, in the order of their ids, whichever kind they are of; none for no photo."""
    bodies = [{"sha256": "a" * 64}, {"sha256": "b" * 64}, {"sha256": "a" * 64}]
    with store.writing() as unit:
        unit.add([fact(number, "photo", body=body) for number, body in enumerate(bodies, 1)])
        unit.commit()
    with store.reading() as unit:
        assert [each.id for each in unit.facts_showing(["a" * 64])] == [ulid_text(1), ulid_text(3)]
        assert unit.facts_showing([]) == ()
