"""The same store on a real PostgreSQL: what SQLite shows it shows, and it refuses what SQLite refuses."""

from __future__ import annotations

import tempfile
import threading
from collections.abc import Iterator
from pathlib import Path

import pytest
from alembic.autogenerate import compare_metadata
from alembic.migration import MigrationContext
from sqlalchemy import text
from sqlalchemy.exc import DBAPIError

from steadyhead.errors import StoreError, StoreVersionError
from steadyhead.store import copies, engines, health
from steadyhead.store.bundle import bundle_of
from steadyhead.store.migrating import climb
from steadyhead.store.migrations import revisions
from steadyhead.store.opening import open_store
from steadyhead.store.places import Place
from steadyhead.store.tables import DERIVED, LASTING
from steadyhead.store.unit import Store
from steadyhead.store.versions import TODAY, renew_derived, version_of
from steadyhead.visit.facts import canonical, emptied
from tests.record.bench import fact
from tests.record.memory import MemoryStore
from tests.store.postgresql import server
from tests.store.samples import PHOTO, PICTURE, READINGS, SHA256, VISIT, WHOLE, filled
from tests.store.test_store_properties import seen
from tests.store.test_versions import next_revision
from tests.support import cannot_run

pytestmark = pytest.mark.laptop


@pytest.fixture(scope="module")
def address() -> Iterator[str]:
    """Return the address of a real server."""
    try:
        import psycopg  # noqa: F401, PLC0415 - it wants the system's own library
    except ImportError as error:
        cannot_run(f"the library of PostgreSQL's clients is missing: {error}")
    with tempfile.TemporaryDirectory() as folder, server(Path(folder)) as found:
        yield found


@pytest.fixture
def place(address: str, tmp_path: Path) -> Iterator[Place]:
    """Return a database without a table."""
    yield Place(address, tmp_path)
    engine = engines.postgresql_engine(address)
    with engines.writer(engine) as connection, connection.begin():
        connection.execute(text("DROP SCHEMA public CASCADE"))
        connection.execute(text("CREATE SCHEMA public"))
    engine.dispose()


@pytest.fixture
def store(place: Place) -> Iterator[Store]:
    """Return a new store."""
    made = open_store(place)
    yield made
    made.close()


def test_it_shows_what_the_naive_twin_shows(store: Store) -> None:
    """The invented visit, a correction, a conflict, a collision, a purge, other alphabets; twice over."""
    batches = [
        list(WHOLE),
        [fact(30, "reading", 10, visit=3, body={"value": "11 psi"}, supersedes=[10])],
        [fact(31, "system", 2, body={"name": "Élan 水 100 %"}), fact(10, "reading", visit=3, body={"value": "x"})],
        [fact(32, "vibration", extra={"z": [1, None, "\u0000"]}), fact(33, "purge", of=[12]), fact(12, "note")],
    ]
    twin = MemoryStore()
    for batch in [*batches, *batches]:
        with twin.work() as naive, store.writing() as unit:
            assert set(unit.add(batch).new) == set(naive.add(batch).new)
            unit.commit()
            naive.commit()
    with twin.work() as naive, store.reading() as unit:
        assert seen(unit) == seen(naive)
    wrong = {check.id for check in health.examine(store.engine).checks if not check.fine}
    assert wrong == {"collisions", "shown-photos"}


def test_what_is_not_committed_never_happened(store: Store) -> None:
    """The promise of a unit of work."""
    with store.writing() as unit:
        unit.add(WHOLE)
        unit.put_blob(PICTURE, "image/jpeg")
    with store.reading() as unit:
        assert unit.facts() == ()
        assert unit.blob(SHA256) is None


def test_a_purge_takes_bodies_and_photos(store: Store) -> None:
    """The rules of a purge."""
    with filled(store).writing() as unit:
        unit.add([fact(60, "purge", of=[3])])
        unit.commit()
    with store.reading() as unit:
        assert unit.facts(visit=VISIT.id) == tuple(emptied(one) for one in (VISIT, *READINGS, PHOTO))
        assert unit.blob(SHA256) is None


@pytest.mark.parametrize(
    "statement",
    [
        "UPDATE fact SET body = '{\"value\":\"7 psi\"}' WHERE kind = 'reading'",
        "UPDATE fact SET body = '{}', extra = '{}'",
        "DELETE FROM fact",
        "UPDATE blob SET bytes = ''",
    ],
)
def test_a_fact_is_neither_changed_nor_deleted(store: Store, statement: str) -> None:
    """The guards, against the database's own language."""
    with filled(store).writing() as unit, pytest.raises(DBAPIError, match="is never"):
        unit.connection.execute(text(statement))


def test_a_reader_sees_one_moment_and_may_not_write(store: Store) -> None:
    """A snapshot of one transaction."""
    filled(store)
    with store.reading() as reader:
        before = reader.facts()
        with store.writing() as writer:
            writer.add([fact(50)])
            writer.commit()
        assert reader.facts() == before
        with pytest.raises(DBAPIError, match="read-only"):
            reader.set_setting("author", "Ann")


def test_writers_at_once_keep_lists_in_step(store: Store) -> None:
    """Four workers add readings to one visit; every list is what it would be made anew."""
    filled(store)

    def work(number: int) -> None:
        for reading in range(5):
            with store.writing() as unit:
                unit.add([fact(1000 * number + reading, "reading", visit=3)])
                unit.commit()

    workers = [threading.Thread(target=work, args=(number,)) for number in range(1, 5)]
    for worker in workers:
        worker.start()
    for worker in workers:
        worker.join()
    assert health.examine(store.engine).sound
    with store.reading() as unit:
        assert unit.visit_cards()[0].readings == len(READINGS) + 20


def test_climbing_from_nothing_makes_the_tables_of_today(place: Place) -> None:
    """Alembic's own comparison: no difference."""
    engine = engines.postgresql_engine(str(place.address))
    with engines.writer(engine) as connection, connection.begin():
        climb(connection, "0000")
        assert compare_metadata(MigrationContext.configure(connection), LASTING) == []
    engine.dispose()


def test_an_older_database_is_migrated_and_a_newer_one_refused(place: Place, store: Store) -> None:
    """The invented next revision; with it the database is newer than the program."""
    filled(store)
    again = open_store(place, [*revisions(), next_revision()])
    with again.reading() as unit:
        assert unit.facts() == tuple(sorted(WHOLE, key=lambda one: one.id))
        assert version_of(unit.connection) == next_revision().revision
    again.close()
    with pytest.raises(StoreVersionError, match=rf"data-newer \(got='{int(TODAY) + 1}', must_be='{int(TODAY)}'\)"):
        open_store(place)


def test_projections_are_made_anew(store: Store) -> None:
    """The doctor's own check, after a list was broken."""
    with filled(store).writing() as unit:
        unit.connection.execute(text("UPDATE visit_card SET readings = 99"))
        unit.commit()
    assert not health.examine(store.engine).sound
    with store.writing() as unit:
        renew_derived(unit.connection)
        unit.commit()
    assert health.examine(store.engine).sound


def test_a_bundle_is_made_and_backup_and_restore_are_the_server_s(place: Place, store: Store) -> None:
    """A file is backed up by us, a server by its own tools."""
    bundle = bundle_of(filled(store).engine, health.examine(store.engine), place.folder / "none.log")
    tables = {table.name for table in (*LASTING.sorted_tables, *DERIVED.sorted_tables)}
    assert set(bundle["database"]["tables"]) == tables
    assert bundle["database"]["backend"] == "postgresql"
    with pytest.raises(StoreError, match="data-on-a-server"):
        copies.back_up(store.engine, place, place.folder / "monday.db")
    with pytest.raises(StoreError, match="data-on-a-server"):
        copies.restore(place, place.folder / "monday.db", "now")


def test_strange_text_comes_out_as_it_went_in(store: Store) -> None:
    """The canonical text; PostgreSQL's text knows no sign 0."""
    strange = fact(40, "vibration", body={"a": "水\u0000", "b": 1.5}, extra={"c": {}}, supersedes=(9, 3))
    with store.writing() as unit:
        unit.add([strange])
        unit.commit()
    with store.reading() as unit:
        found = unit.fact(strange.id)
    assert found is not None
    assert canonical(found) == canonical(strange)


def test_a_server_that_does_not_answer_is_told_without_a_password() -> None:
    """No such folder of sockets."""
    with pytest.raises(StoreError, match="no-server") as refused:
        open_store(Place("postgresql://ann:secret@/record?host=/nowhere", Path()))
    assert "secret" not in str(refused.value)
