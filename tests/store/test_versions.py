"""Old databases stay readable, and a newer one is left alone; archived databases are kept as the SQL text they had."""

from __future__ import annotations

import shutil
import sqlite3
from contextlib import closing
from pathlib import Path
from types import ModuleType

import pytest
from alembic import op
from alembic.autogenerate import compare_metadata
from alembic.migration import MigrationContext
from sqlalchemy import Column, Text

from steadyhead.errors import StoreVersionError
from steadyhead.store import engines, health
from steadyhead.store.migrating import climb
from steadyhead.store.migrations import REVISIONS, revisions
from steadyhead.store.opening import open_store
from steadyhead.store.places import Place
from steadyhead.store.tables import LASTING
from steadyhead.store.unit import Store
from steadyhead.store.versions import TODAY, version_of
from tests.store.samples import PHOTO, PICTURE, READINGS, SHA256, VISIT, WHOLE, filled

ARCHIVE = sorted((Path(__file__).parent / "archive").glob("*.sql"))


def unpacked(archive: Path, file: Path) -> None:
    """Make the database that an archived SQL text tells."""
    with closing(sqlite3.connect(file)) as connection:
        connection.executescript(archive.read_text(encoding="utf-8"))


def next_revision(*, fails: bool = False) -> ModuleType:
    """Return an invented revision after today's, which adds a column."""
    step = ModuleType("invented")

    def upgrade() -> None:
        with op.batch_alter_table("setting") as table:
            table.add_column(Column("since", Text))
        if fails:
            op.execute("SELECT * FROM no_such_table")

    step.revision, step.upgrade = f"{int(TODAY) + 1:04}", upgrade  # type: ignore[attr-defined]
    return step


@pytest.mark.parametrize("archive", ARCHIVE, ids=lambda archive: archive.stem)
def test_an_archived_database_is_brought_to_today_with_all_that_is_in_it(archive: Path, place: Place) -> None:
    """The invented visit that every archived database holds."""
    unpacked(archive, place.file)
    store = open_store(place)
    with store.reading() as unit:
        assert unit.facts(visit=VISIT.id) == (VISIT, *READINGS, PHOTO)
        photo = unit.blob(SHA256)
        assert unit.setting("author") == "Ann Marlowe"
        assert version_of(unit.connection) == TODAY
    assert photo is not None
    assert photo.data == PICTURE
    assert health.examine(store.engine).sound
    store.close()


def test_every_version_has_an_archived_database() -> None:
    """One for each revision, for ever."""
    assert [archive.stem for archive in ARCHIVE] == [f"schema-{name[1:5]}" for name in REVISIONS]
    assert revisions()[-1].revision == TODAY


def test_climbing_from_nothing_makes_the_tables_of_today(place: Place) -> None:
    """Alembic's own comparison of a database with the tables: no difference."""
    engine = engines.sqlite_engine(place.file, place.journal)
    with engines.writer(engine) as connection, connection.begin():
        climb(connection, "0000")
        assert compare_metadata(MigrationContext.configure(connection), LASTING) == []
    engine.dispose()


def test_an_older_database_is_copied_then_migrated(place: Place, store: Store) -> None:
    """The invented next revision; the copy is of the former version, and whole."""
    with filled(store).writing() as unit:
        unit.connection.exec_driver_sql("UPDATE visit_card SET readings = 99")  # what a migration may leave behind
        unit.commit()
    store.close()
    again = open_store(place, [*revisions(), next_revision()])
    with again.reading() as unit:
        assert unit.facts() == tuple(sorted(WHOLE, key=lambda one: one.id))
        assert unit.visit_cards()[0].readings == len(READINGS)
        assert version_of(unit.connection) == next_revision().revision
        assert unit.connection.exec_driver_sql("SELECT since FROM setting").all() == []
        assert unit.connection.exec_driver_sql("PRAGMA foreign_keys").scalar() == 1
    again.close()
    copy = open_store(Place(place.folder / f"record-before-migration-from-{TODAY}.db", place.folder, place.journal))
    with copy.reading() as unit:
        assert unit.facts() == tuple(sorted(WHOLE, key=lambda one: one.id))
    copy.close()


def test_a_migration_that_fails_leaves_everything_as_it_was(place: Place, store: Store) -> None:
    """One transaction: neither the new column nor the new version is there, and the guards stand."""
    filled(store).close()
    with pytest.raises(StoreVersionError, match=r"data-not-migrated .*no_such_table"):
        open_store(place, [*revisions(), next_revision(fails=True)])
    again = open_store(place)
    with again.reading() as unit:
        columns = unit.connection.exec_driver_sql("PRAGMA table_info(setting)").all()
        assert [column[1] for column in columns] == ["name", "value"]
        assert unit.facts() == tuple(sorted(WHOLE, key=lambda one: one.id))
    with closing(sqlite3.connect(place.file)) as plain, pytest.raises(sqlite3.IntegrityError, match="never deleted"):
        plain.execute("DELETE FROM fact")
    again.close()


def with_spare(place: Place) -> Place:
    """Return a place with just so many files, as in a browser."""
    return Place(place.file, place.folder, "truncate", place.file.with_name("record.db-before"))


def test_a_home_with_one_spare_file_has_the_copy_there_until_the_next_opening(place: Place, store: Store) -> None:
    """Of the version before the migration; what a former one left there is overwritten."""
    filled(store).close()
    few = with_spare(place)
    assert few.spare is not None
    few.spare.write_bytes(b"left over")
    open_store(few, [*revisions(), next_revision()]).close()
    with closing(sqlite3.connect(few.spare)) as copy:
        assert copy.execute("SELECT version_num FROM alembic_version").fetchall() == [(TODAY,)]
        assert copy.execute("SELECT count(*) FROM fact").fetchall() == [(len(WHOLE),)]
    open_store(few, [*revisions(), next_revision()]).close()
    assert not few.spare.exists()


def test_a_migration_that_breaks_its_transaction_is_undone_from_the_copy(place: Place, store: Store) -> None:
    """A step that commits half of itself and then fails: the record is what it was, every fact of it."""
    filled(store).close()
    few = with_spare(place)

    def upgrade() -> None:
        connection = op.get_bind()
        connection.exec_driver_sql("DROP TABLE setting")
        connection.exec_driver_sql("UPDATE alembic_version SET version_num = '0098'")
        connection.exec_driver_sql("COMMIT")
        raise ZeroDivisionError

    step = ModuleType("breaks")
    step.revision, step.upgrade = f"{int(TODAY) + 1:04}", upgrade  # type: ignore[attr-defined]
    with pytest.raises(StoreVersionError, match="data-not-migrated"):
        open_store(few, [*revisions(), step])
    again = open_store(few)
    assert health.examine(again.engine).sound
    with again.reading() as unit:
        assert version_of(unit.connection) == TODAY
        assert unit.facts() == tuple(sorted(WHOLE, key=lambda one: one.id))
    again.close()


def test_a_newer_database_is_refused_and_not_touched(place: Place, store: Store) -> None:
    """The message says which version was got and which it must be at most."""
    filled(store).close()
    with closing(sqlite3.connect(place.file)) as plain, plain:
        plain.execute("PRAGMA journal_mode=DELETE").close()
        plain.execute("UPDATE alembic_version SET version_num = '0099'")
    before = place.file.read_bytes()
    with pytest.raises(StoreVersionError, match=rf"data-newer \(got='99', must_be='{int(TODAY)}'\)"):
        open_store(place)
    after = shutil.copy(place.file, place.folder / "after.db")
    assert Path(after).read_bytes()[100:] == before[100:]  # but for the header, which says how it is journalled


@pytest.mark.parametrize("application", [0, 7])
def test_another_program_s_database_is_refused_and_not_touched(place: Place, application: int) -> None:
    """A database with tables of its own, with and without a word on whose it is."""
    with closing(sqlite3.connect(place.file)) as plain, plain:
        plain.execute(f"PRAGMA application_id={application}")
        plain.execute("CREATE TABLE fact (id TEXT)")
        plain.execute("CREATE TABLE alembic_version (version_num TEXT)")
        plain.execute("INSERT INTO alembic_version VALUES ('0001')")
    with pytest.raises(StoreVersionError, match="data-of-another-program"):
        open_store(place)
    with closing(sqlite3.connect(place.file)) as plain:
        assert len(plain.execute("SELECT * FROM sqlite_master").fetchall()) == 2
