"""A browser without files that stay open keeps the record too; run by ``python3 scripts/offline.py --prove``."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest
from playwright.sync_api import expect

from tests.offline.conftest import FOLDER
from tests.offline.handed import Handed
from tests.offline.killed import Killable
from tests.offline.shown import app_of, begin, read, values
from tests.offline.updates_in_chromium import list_anew

pytestmark = [pytest.mark.laptop, pytest.mark.chromium]

#: What older browsers and some private windows lack, taken away before anything asks for it.
LACKS = b"delete FileSystemFileHandle.prototype.createSyncAccessHandle;\n"


def test_without_such_files_a_reading_is_kept_before_it_is_answered_for(tmp_path: Path, browser: Killable) -> None:
    """The browser is killed right after the answer, nobody serves; it is said that this way is slower."""
    site = tmp_path / "site"
    shutil.copytree(FOLDER, site)
    script = site / "shell" / "opfsfs.js"
    lacking = LACKS + script.read_bytes()
    script.write_bytes(lacking)
    list_anew(site / "sw.js", lacking)
    server = Handed(site)
    try:
        page = browser.start()
        page.goto(server.address)
        begin(app_of(page))
        read(app_of(page), "48")
        expect(values(app_of(page))).to_have_text(["48 psi"])
        browser.kill()
    finally:
        server.stop()
    page = browser.start()
    page.goto(server.address)
    expect(values(app_of(page))).to_have_text(["48 psi"])
    expect(page.get_by_text("in a slower way")).to_be_visible()
