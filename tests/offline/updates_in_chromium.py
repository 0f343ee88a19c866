"""A new build takes over from an old one, whole or not at all; run by ``python3 scripts/offline.py --prove``."""

from __future__ import annotations

import hashlib
import json
import re
import zipfile
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

from steadyhead.offline.build import build
from tests.offline.conftest import FOLDER
from tests.offline.handed import Handed
from tests.offline.killed import Killable
from tests.offline.shown import app_of, begin, read, values

pytestmark = [pytest.mark.laptop, pytest.mark.chromium]

#: Where a page of the second build tells it; each module and template of the archive stands where it stood.
HEAD, SECOND = b"<head>", b'<head>\n<meta name="build" content="second">'
TEMPLATE = "steadyhead/web/templates/base.html"
BUILD = "meta[name=build]"
#: Asks the web server for a new build, as a browser does by itself now and then.
LOOK = "async () => { const mine = await navigator.serviceWorker.getRegistration(); await mine.update(); }"
TRIED = f"async () => {{ try {{ await ({LOOK})(); }} catch {{ /* it ends as it should: in nothing */ }} }}"
KEPT = "async () => (await caches.keys()).filter(name => name.startsWith('steadyhead-build'))"
#: Whether the build that is under way here has ended, one way or the other.
ENDED = "async () => !(await navigator.serviceWorker.getRegistration()).installing"


class Site:
    """What a web server hands out at one address: a first build, and later another."""

    def __init__(self, folder: Path) -> None:
        self._folder = folder
        self.place = folder / "site"
        self.place.symlink_to(FOLDER)

    def renew(self) -> Path:
        """Lay a second build out, of the same parts but one page, and return its folder; nobody is given it yet."""
        archive, second = self._folder / "site.zip", self._folder / "second"
        with zipfile.ZipFile(FOLDER / "engine" / "site.zip") as first, zipfile.ZipFile(archive, "w") as other:
            for each in first.infolist():
                content = first.read(each)
                changed = content.replace(HEAD, SECOND) if each.filename == TEMPLATE else content
                other.writestr(each, changed, each.compress_type)
        build(FOLDER / "engine", archive, second)
        return second

    def give(self, folder: Path) -> None:
        """From now on hand another build out."""
        self.place.unlink()
        self.place.symlink_to(folder)


@pytest.fixture
def site(tmp_path: Path) -> Site:
    """Return a site with a first build."""
    return Site(tmp_path)


@pytest.fixture
def server(site: Site) -> Iterator[Handed]:
    """Return the site's server."""
    server = Handed(site.place)
    yield server
    server.stop()


def visited(page: Page, server: Handed) -> None:
    """Begin a visit in the first build, with one reading."""
    page.goto(server.address)
    app = app_of(page)
    begin(app)
    read(app, "48")
    expect(values(app)).to_have_text(["48 psi"])


def test_a_new_build_comes_at_a_tap_or_at_the_next_start_and_finds_the_record(
    site: Site, server: Handed, browser: Killable
) -> None:
    """The visit goes on in the old build until then; only what changed is fetched; then the old build is gone."""
    page = browser.start()
    visited(page, server)
    site.give(site.renew())
    server.asked.clear()
    page.evaluate(LOOK)
    expect(page.get_by_role("button", name="A new version is ready")).to_be_visible()
    assert sorted(server.asked) == ["/engine/site.zip", "/sw.js"]
    app = app_of(page)
    read(app, "47")
    expect(values(app)).to_have_count(2)
    expect(app.locator(BUILD)).to_have_count(0)
    server.stop()

    page.get_by_role("button", name="A new version is ready").click()
    expect(app.locator(BUILD)).to_have_count(1)
    expect(values(app)).to_have_count(2)
    assert len(page.evaluate(KEPT)) == 1


def test_a_new_build_that_nobody_tapped_for_is_taken_at_the_next_start(
    site: Site, server: Handed, browser: Killable
) -> None:
    """The browser was killed in between, and nobody serves any more."""
    page = browser.start()
    visited(page, server)
    site.give(site.renew())
    page.evaluate(LOOK)
    expect(page.get_by_role("button", name="A new version is ready")).to_be_visible()
    visit = page.url
    server.stop()
    browser.kill()
    page = browser.start()
    page.goto(visit)
    app = page.frame_locator("#app")
    expect(app.locator(BUILD)).to_have_count(1)
    expect(values(app)).to_have_text(["48 psi"])
    assert len(page.evaluate(KEPT)) == 1


def test_a_build_that_is_not_whole_is_never_taken(site: Site, server: Handed, browser: Killable) -> None:
    """One file of it is not what the build says, or is not there: the old build goes on, then and at the next start.

    Once the build is whole, it comes.
    """
    page = browser.start()
    visited(page, server)
    second = site.renew()
    broken = second / "shell" / "opfsfs.js"
    wanted = broken.read_bytes() + b"// of the second build\n"
    list_anew(second / "sw.js", wanted)  # or it would be taken from the first build
    site.give(second)
    for there in (wanted[:-9], None):
        broken.unlink()
        if there is not None:
            broken.write_bytes(there)
        page.evaluate(TRIED)
        page.wait_for_function(ENDED)
        expect(page.get_by_role("button", name="A new version is ready")).to_be_hidden()
        broken.touch()
    page.reload()
    app = page.frame_locator("#app")
    expect(values(app)).to_have_text(["48 psi"])
    expect(app.locator(BUILD)).to_have_count(0)
    browser.complaints.clear()  # a failed installation is told on the console, and nowhere else

    broken.write_bytes(wanted)
    page.evaluate(LOOK)
    page.get_by_role("button", name="A new version is ready").click()
    expect(app.locator(BUILD)).to_have_count(1)
    expect(values(app)).to_have_text(["48 psi"])


def list_anew(worker: Path, content: bytes) -> None:
    """Let a build's service worker know a file that is changed after it was laid out."""
    script = worker.read_text(encoding="utf-8")
    found = re.search(r"const FILES = (\{[^;]*\});", script)
    assert found is not None
    files: dict[str, str] = json.loads(found[1])
    files["/shell/opfsfs.js"] = hashlib.sha256(content).hexdigest()
    worker.write_text(script.replace(found[1], json.dumps(files)), encoding="utf-8")
