"""Backup and restore: proved before they are trusted, and never over what stands there."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from pathlib import Path

import pytest

from steadyhead.errors import StoreBusyError, StoreDamagedError, StoreError, StoreVersionError
from steadyhead.store import copies, health
from steadyhead.store.opening import open_store
from steadyhead.store.places import Place
from steadyhead.store.unit import Store
from steadyhead.visit.facts import emptied
from tests.record.bench import fact
from tests.store.samples import PHOTO, PICTURE, READINGS, SHA256, VISIT, WHOLE, filled

EVERY_FACT = tuple(sorted(WHOLE, key=lambda one: one.id))


def backed_up(place: Place, store: Store) -> Path:
    """Return a backup of the invented visit."""
    return copies.back_up(filled(store).engine, place, place.folder / "monday.db").file


def names(place: Place) -> list[str]:
    """Return the names in the record's folder, less SQLite's own beside an open record."""
    return sorted(file.name for file in place.folder.iterdir() if not file.name.endswith(copies.SIDES))


@pytest.mark.laptop
def test_a_backup_holds_all_of_it_while_the_record_is_in_use(place: Place, store: Store) -> None:
    """The invented visit; another unit of work is open meanwhile."""
    filled(store)
    with store.reading() as unit:
        assert unit.facts()
        done = copies.back_up(store.engine, place, place.folder / "monday.db")
    assert (done.facts, done.photos) == (len(WHOLE), 1)
    assert names(place) == ["monday.db", "record.db"]
    copy = open_store(Place(done.file, place.folder, place.journal))
    with copy.reading() as unit:
        assert unit.facts() == EVERY_FACT
        photo = unit.blob(SHA256)
    copy.close()
    assert photo is not None
    assert photo.data == PICTURE


def test_a_backup_overwrites_nothing(place: Place, store: Store) -> None:
    """A file of that name stays as it is."""
    taken = place.folder / "monday.db"
    taken.write_bytes(b"mine")
    with pytest.raises(StoreError, match="copy-there"):
        copies.back_up(store.engine, place, taken)
    assert taken.read_bytes() == b"mine"


def test_a_backup_of_a_record_that_is_not_sound_is_refused_and_leaves_no_file(place: Place, store: Store) -> None:
    """A photo whose bytes changed: the guard is taken away first."""
    filled(store)
    with closing(sqlite3.connect(place.file)) as plain, plain:
        plain.execute("DROP TRIGGER guard_blob_update")
        plain.execute("UPDATE blob SET bytes = x'00'")
    with pytest.raises(StoreDamagedError, match=r"copy-damaged .*photos"):
        copies.back_up(store.engine, place, place.folder / "monday.db")
    assert names(place) == ["record.db"]


def test_a_restore_puts_the_backup_in_place_and_keeps_what_stood_there(place: Place, store: Store) -> None:
    """A fact that came after the backup is in the former record, and not in the restored one."""
    backup = backed_up(place, store)
    with store.writing() as unit:
        unit.add([fact(50)])
        unit.commit()
    store.close()
    done = copies.restore(place, backup, "20260504T070931Z")
    assert done.aside is not None
    assert names(place) == ["monday.db", "record-before-restore-20260504T070931Z.db", "record.db"]
    for file, count in ((place.file, len(WHOLE)), (done.aside, len(WHOLE) + 1)):
        found = open_store(Place(file, place.folder, place.journal))
        with found.reading() as unit:
            assert len(unit.facts()) == count
        found.close()


def test_what_was_erased_since_the_backup_stays_erased(place: Place, store: Store) -> None:
    """A purge wins over whatever comes later, a restore too; no byte of the photo comes back."""
    backup = backed_up(place, store)
    with store.writing() as unit:
        unit.add([fact(60, "purge", of=[3])])
        unit.commit()
    store.close()
    assert copies.restore(place, backup, "now").purges == 1
    assert PICTURE not in place.file.read_bytes()
    found = open_store(place)
    with found.reading() as unit:
        assert unit.facts(visit=VISIT.id) == tuple(emptied(one) for one in (VISIT, *READINGS, PHOTO))
        assert unit.blob(SHA256) is None
    assert health.examine(found.engine).sound
    found.close()


def test_a_restore_where_nothing_stands_makes_the_record(place: Place, store: Store, tmp_path: Path) -> None:
    """A new machine: also the folder is not there yet."""
    backup = backed_up(place, store)
    elsewhere = Place(tmp_path / "new" / "record.db", tmp_path / "new", place.journal)
    assert copies.restore(elsewhere, backup, "now").aside is None
    found = open_store(elsewhere)
    with found.reading() as unit:
        assert unit.facts() == EVERY_FACT
    found.close()


@pytest.mark.parametrize(
    ("content", "error"),
    [
        (b"", StoreVersionError),
        (b"SQLite format 3\x00" + bytes(84), StoreDamagedError),
        (b"not a database at all" * 100, StoreDamagedError),
    ],
)
def test_what_is_no_backup_is_refused_and_changes_nothing(
    place: Place, store: Store, content: bytes, error: type[StoreError]
) -> None:
    """Empty, cut off, something else."""
    filled(store).close()
    wrong = place.folder / "wrong.db"
    wrong.write_bytes(content)
    before = place.file.read_bytes()
    with pytest.raises(error):
        copies.restore(place, wrong, "now")
    assert place.file.read_bytes() == before
    assert names(place) == ["record.db", "wrong.db"]
    assert wrong.read_bytes() == content


def test_a_backup_that_was_damaged_since_is_refused(place: Place, store: Store) -> None:
    """Bytes in the middle of the file overwritten, as a bad stick would."""
    backup = backed_up(place, store)
    store.close()
    content = bytearray(backup.read_bytes())
    content[5000:-5000] = bytes(len(content) - 10_000)
    backup.write_bytes(content)
    with pytest.raises(StoreDamagedError):
        copies.restore(place, backup, "now")
    assert names(place) == ["monday.db", "record.db"]


def test_a_backup_that_is_not_there_is_refused(place: Place) -> None:
    """No file of that name."""
    with pytest.raises(StoreError, match="copy-missing"):
        copies.restore(place, place.folder / "monday.db", "now")


@pytest.mark.laptop
def test_a_restore_is_refused_while_the_record_is_open(place: Place, store: Store) -> None:
    """The app's connection stands open; the record and the name of the backup are as they were."""
    backup = backed_up(place, store)
    with pytest.raises(StoreBusyError, match="data-in-use"):
        copies.restore(place, backup, "now")
    assert names(place) == ["monday.db", "record.db"]
    with store.reading() as unit:
        assert unit.facts() == EVERY_FACT


def test_a_damaged_record_is_set_aside_with_its_log_and_the_backup_takes_its_place(place: Place, store: Store) -> None:
    """A log that stayed beside the restored record would be taken for its own."""
    backup = backed_up(place, store)
    store.close()
    place.file.write_bytes(b"broken" * 1000)
    (place.folder / "record.db-wal").write_bytes(b"a log of the broken one")
    copies.restore(place, backup, "now")
    assert (place.folder / "record-before-restore-now.db").read_bytes() == b"broken" * 1000
    assert (place.folder / "record-before-restore-now.db-wal").read_bytes() == b"a log of the broken one"
    found = open_store(place)
    with found.reading() as unit:
        assert unit.facts() == EVERY_FACT
    found.close()
