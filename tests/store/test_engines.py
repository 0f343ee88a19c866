"""How SQLite is set, and that questions are answered by an index."""

from __future__ import annotations

import os
import sqlite3
import sys
from pathlib import Path

import pytest

from steadyhead.errors import StoreDamagedError, StoreError
from steadyhead.store import copies, engines, health
from steadyhead.store.opening import open_store
from steadyhead.store.places import Place
from steadyhead.store.unit import Store
from tests.store.samples import VISIT, WHOLE, filled

#: Figures of SQLite's own list of pragmas: FULL is 2, INCREMENTAL is 2.
SET = {
    "synchronous": 2, "foreign_keys": 1, "auto_vacuum": 2, "secure_delete": 1, "recursive_triggers": 1,
    "application_id": 0x53544448,
}  # fmt: skip


@pytest.mark.parametrize("pragma", SET)
def test_a_connection_is_set_as_the_rules_say(store: Store, pragma: str) -> None:
    """The rules of the module, asked of SQLite itself."""
    with engines.bare(store.engine) as connection:
        assert connection.exec_driver_sql(f"PRAGMA {pragma}").scalar() == SET[pragma]


def test_the_journal_is_the_place_s(place: Place, store: Store) -> None:
    """A log on a laptop, a rollback file in a browser."""
    with engines.bare(store.engine) as connection:
        assert connection.exec_driver_sql("PRAGMA journal_mode").scalar() == place.journal


def test_an_older_sqlite_is_refused(place: Place, monkeypatch: pytest.MonkeyPatch) -> None:
    """3.39 is the one inside the browser's Python."""
    monkeypatch.setattr(sqlite3, "sqlite_version_info", (3, 38, 5))
    monkeypatch.setattr(sqlite3, "sqlite_version", "3.38.5")
    with pytest.raises(StoreError, match=r"sqlite-too-old \(got='3.38.5', must_be='3.39'\)"):
        engines.sqlite_engine(place.file)


def test_a_file_that_is_no_database_is_refused_and_not_touched(place: Place) -> None:
    """A photo under the record's name."""
    place.file.write_bytes(b"\xff\xd8\xff\xe0" * 1000)
    with pytest.raises(StoreDamagedError, match="data-not-a-database"):
        open_store(place)
    assert place.file.read_bytes() == b"\xff\xd8\xff\xe0" * 1000


def test_a_folder_in_the_record_s_place_is_refused(place: Place) -> None:
    """SQLite cannot open it."""
    place.file.mkdir()
    with pytest.raises(StoreError, match="data-cannot-open"):
        open_store(place)


def test_a_file_where_its_folder_should_be_is_refused(place: Place) -> None:
    """The system cannot make the folder."""
    (place.folder / "taken").write_text("x", encoding="utf-8")
    with pytest.raises(StoreError, match="data-cannot-open"):
        open_store(Place(place.folder / "taken" / "record.db", place.folder, place.journal))


def test_a_full_disk_is_told_and_what_was_kept_before_is_safe(store: Store) -> None:
    """SQLite is told that the file may not grow, as a disk would tell it."""
    filled(store)
    with engines.bare(store.engine) as connection:
        pages = connection.exec_driver_sql("PRAGMA page_count").scalar()
        connection.exec_driver_sql(f"PRAGMA max_page_count={pages}")
    with pytest.raises(StoreError, match="data-disk-full"), store.writing() as unit:
        unit.put_blob(bytes(1_000_000), "image/jpeg")
    with store.reading() as unit:
        assert len(unit.facts()) == len(WHOLE)
    assert health.examine(store.engine).sound


def test_a_file_whose_middle_is_broken_is_told_to_be_damaged(place: Place, store: Store) -> None:
    """Half of the pages overwritten: the doctor finds it wrong, or it cannot be read at all and the error says so."""
    filled(store).close()
    content = bytearray(place.file.read_bytes())
    middle = len(content) // 2
    content[middle:] = b"\xa5" * (len(content) - middle)
    place.file.write_bytes(content)
    engine = engines.sqlite_engine(place.file, place.journal)
    with pytest.raises(StoreDamagedError, match="data-damaged"):
        assert health.examine(engine).sound
    engine.dispose()


@pytest.mark.skipif(os.name == "nt" or sys.platform == "emscripten", reason="file modes are POSIX's")
def test_nobody_but_the_owner_may_read_a_record_or_a_copy_of_it(tmp_path: Path) -> None:
    """The modes of files and folders; no bit for group or others."""
    place = Place(tmp_path / "deep" / "record.db", tmp_path / "deep")
    store = filled(open_store(place))
    copies.back_up(store.engine, place, tmp_path / "deep" / "copies" / "monday.db")
    store.close()
    copies.restore(place, tmp_path / "deep" / "copies" / "monday.db", "now")
    modes = {path.name: path.stat().st_mode & 0o077 for path in (tmp_path / "deep").rglob("*")}
    assert modes == dict.fromkeys(["record.db", "copies", "monday.db", "record-before-restore-now.db"], 0)


QUESTIONS = {
    "a visit's facts": "SELECT * FROM fact WHERE visit = :id OR about = :id ORDER BY id",
    "an entity's facts": "SELECT * FROM fact WHERE about = :id ORDER BY id",
    "what replaces": "SELECT * FROM supersedes WHERE names = :id",
    "today's open visits": "SELECT * FROM visit_card WHERE state = 'open' AND last < :id ORDER BY last DESC LIMIT 50",
    "all visits": "SELECT * FROM visit_card WHERE last < :id ORDER BY last DESC LIMIT 50",
    "a system's visits": "SELECT * FROM visit_card WHERE system = :id ORDER BY last DESC LIMIT 50",
    "systems": "SELECT * FROM system_card ORDER BY last DESC LIMIT 50",
    "sites by name": "SELECT * FROM entity WHERE kind = 'site' ORDER BY search LIMIT 50",
    "whether another fact shows a photo": "SELECT fact FROM shown WHERE sha256 = :id LIMIT 1",
}


@pytest.mark.parametrize("question", QUESTIONS)
def test_a_question_of_a_page_is_answered_by_an_index(store: Store, question: str) -> None:
    """SQLite's own plan: no table is read from end to end but by an index."""
    with filled(store).reading() as unit:
        rows = unit.connection.exec_driver_sql("EXPLAIN QUERY PLAN " + QUESTIONS[question], {"id": VISIT.id}).all()
    steps = [str(row[-1]) for row in rows]
    assert [step for step in steps if step.startswith("SCAN") and "USING" not in step] == []
