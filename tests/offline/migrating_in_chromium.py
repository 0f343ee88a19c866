"""A migration that fails, on the browser's own files; run by ``python3 scripts/offline.py --prove``."""

from __future__ import annotations

import json

import pytest
from playwright.sync_api import expect

from tests.offline.handed import Handed
from tests.offline.killed import Killable
from tests.offline.shown import app_of, begin, read, values

pytestmark = [pytest.mark.laptop, pytest.mark.chromium]

#: An invented next version of the tables, which fails after its first change; then what is in the record and the copy.
FAILS = """() => self.python.runPython(`
import json, sqlite3
from contextlib import closing
from types import ModuleType
from alembic import op
from steadyhead.errors import StoreVersionError
from steadyhead.offline.boot import RECORD
from steadyhead.store.migrations import revisions
from steadyhead.store.opening import open_store
from steadyhead.store.versions import TODAY

step = ModuleType("invented")
step.revision = f"{int(TODAY) + 1:04}"

def upgrade():
    op.execute("DROP TABLE fact")
    op.execute("SELECT * FROM no_such_table")

def told(file):
    with closing(sqlite3.connect(file)) as asked:
        return [asked.execute(line).fetchone()[0] for line in (
            "SELECT version_num FROM alembic_version", "SELECT COUNT(*) FROM fact", "PRAGMA integrity_check")]

step.upgrade = upgrade
before = told(RECORD.file)
try:
    open_store(RECORD, [*revisions(), step]).close()
    failed = ""
except StoreVersionError as error:
    failed = str(error)
json.dumps([TODAY, failed, before, told(RECORD.file), told(RECORD.spare)])`)"""
SPARE = """() => self.python.runPython(
  'from steadyhead.offline.boot import RECORD; RECORD.file.exists() and not RECORD.spare.exists()')"""


def test_a_migration_that_fails_leaves_the_record_and_a_whole_copy_in_the_browsers_files(
    handed: Handed, browser: Killable
) -> None:
    """Both have each fact; after a kill the visit is there and goes on, and the copy's file is empty again."""
    page = browser.start()
    page.goto(handed.address)
    begin(app_of(page))
    read(app_of(page), "48")
    expect(values(app_of(page))).to_have_text(["48 psi"])
    visit = page.url
    handed.stop()
    today, failed, before, record, copy = json.loads(page.workers[0].evaluate(FAILS))
    assert "no_such_table" in failed
    assert before[0] == today
    assert before[1] > 1
    assert before[2] == "ok"
    assert (record, copy) == (before, before)
    browser.kill()

    page = browser.start()
    page.goto(visit)
    expect(values(app_of(page))).to_have_text(["48 psi"])
    assert page.workers[0].evaluate(SPARE)
    read(app_of(page), "47")
    expect(values(app_of(page))).to_have_count(2)
