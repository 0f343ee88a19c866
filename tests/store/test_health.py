"""The doctor finds what was broken on purpose, and its bundle holds no word of anybody's."""

from __future__ import annotations

import json
import sqlite3
from contextlib import closing

import pytest

from steadyhead.store import health
from steadyhead.store.bundle import bundle_of
from steadyhead.store.logbook import FILE, Logbook
from steadyhead.store.places import Place
from steadyhead.store.unit import Store
from tests.record.bench import fact
from tests.store.samples import PICTURE, WHOLE, filled


def wrong(store: Store) -> set[str]:
    """Return the ids of the checks that were not passed."""
    return {check.id for check in health.examine(store.engine).checks if not check.fine}


def test_a_healthy_record_is_sound(store: Store) -> None:
    """The invented visit, with its photo; every check looked at something but the one for collisions."""
    report = health.examine(filled(store).engine)
    assert report.sound
    assert tuple(check.id for check in report.checks) == health.CHECK_IDS
    assert (report.facts, report.photos) == (len(WHOLE), 1)
    assert [check.id for check in report.checks if check.looked_at == 0] == ["collisions"]


@pytest.mark.parametrize(
    ("statement", "check"),
    [
        ("UPDATE fact SET body = '{' WHERE kind = 'note' OR kind = 'reading'", "facts"),
        ("UPDATE blob SET bytes = x'00'", "photos"),
        ("DELETE FROM blob", "shown-photos"),
        ("INSERT INTO thumbnail VALUES ('x', 'image/webp', x'00')", "references"),
        ("UPDATE visit_card SET readings = 7", "projections"),
        ("DELETE FROM system_card", "projections"),
        ("INSERT INTO entity VALUES ('x', 'site', 'x', 1, 'x')", "projections"),
        ("INSERT INTO purged VALUES ('x', 'x')", "projections"),
        ("INSERT INTO collision SELECT id, 'x', 'x' FROM fact LIMIT 1", "collisions"),
    ],
)
def test_what_is_broken_is_found(place: Place, store: Store, statement: str, check: str) -> None:
    """Broken by another program, with the guards taken away."""
    filled(store)
    with closing(sqlite3.connect(place.file)) as plain, plain:
        for (guard,) in plain.execute("SELECT name FROM sqlite_master WHERE type = 'trigger'").fetchall():
            plain.execute(f"DROP TRIGGER {guard}")
        plain.execute(statement)
    assert wrong(store) == {check}


def test_a_bundle_holds_no_word_of_anybody_s(place: Place, store: Store) -> None:
    """Every word of the facts' bodies, of names and of a log that somebody wrote texts into, is looked for."""
    filled(store)
    with store.writing() as unit:
        unit.add([fact(90, "fernhill-secret", author="Zebedee", body={"customer": "Quillfeather"})])
        unit.set_setting("author", "Ann Marlowe")
        unit.commit()
    log = Logbook(place.folder)
    log.note("added", facts=3, name="Quillfeather")
    log.note("refused", message="data-busy", got="Zebedee")
    log.note("failed", error="Quillfeather", visit=WHOLE[2].id)
    log.note("Quillfeather")
    log.note("quillfeather")
    log.close()
    with (place.folder / FILE).open("a", encoding="utf-8") as file:
        file.write("Traceback (most recent call last):\n  Quillfeather 555-0134\n")
        file.write("2026-05-04T07:09:31Z INFO added facts=Ann\n")
    found = bundle_of(store.engine, health.examine(store.engine), place.folder / FILE)
    text = json.dumps(found).casefold()
    names = ("fernhill", "ann", "marlowe", "zebedee", "quillfeather")
    texts = ("relief", "pump", "psi", "310 m", "555-0134", "secret")
    assert [word for word in (*names, *texts) if word in text] == []
    assert PICTURE.hex() not in text
    assert found["kinds"] == {"other": 1, "photo": 1, "reading": 5, "site": 1, "system": 1, "visit": 1}
    assert [line.split(" ", 2)[2] for line in found["log"]["lines"]] == [
        "added facts=3", "refused message=data-busy", f"failed error=? visit={WHOLE[2].id}", "added facts=?",
    ]  # fmt: skip
    assert found["log"]["left_out"] == 4


def test_a_bundle_without_a_log_is_a_bundle(place: Place, store: Store) -> None:
    """The log may be gone."""
    found = bundle_of(store.engine, health.examine(store.engine), place.folder / "gone.log")
    assert found["log"] == {"lines": [], "left_out": 0}
