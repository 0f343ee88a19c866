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
from tests.offline.shown import address_of, app_of, begin, read, until, values
from tests.support import ROOT

pytestmark = [pytest.mark.laptop, pytest.mark.chromium]

#: Where a page of the second build tells it; each module and template of the archive stands where it stood.
HEAD, SECOND = b"<head>", b'<head>\n<meta name="build" content="second">'
TEMPLATE = "steadyhead/web/templates/base.html"
#: An invented next version of the tables, whose migration fails after its first change.
STEPS, VERSIONS = "steadyhead/store/migrations/__init__.py", "steadyhead/store/versions.py"
FAILS = b"""
STEP = ModuleType("invented")
STEP.revision = "9999"

def _upgrade():
    from alembic import op
    op.execute("DROP TABLE fact")
    op.execute("SELECT * FROM no_such_table")

STEP.upgrade = _upgrade
_those_before = revisions

def revisions():
    return (*_those_before(), STEP)
"""
BUILD = "meta[name=build]"
#: Asks the web server for a new build, as a browser does by itself now and then.
LOOK = "async () => { const mine = await navigator.serviceWorker.getRegistration(); await mine.update(); }"
TRIED = f"async () => {{ try {{ await ({LOOK})(); }} catch {{ /* it ends as it should: in nothing */ }} }}"
KEPT = "async () => (await caches.keys()).filter(name => name.startsWith('steadyhead-build'))"
#: Whether the build before is gone, which it is once this one has started.
ALONE = f"async () => (await ({KEPT})()).length === 1"
#: Whether the build that is under way here has ended, one way or the other.
ENDED = "async () => !(await navigator.serviceWorker.getRegistration()).installing"


class Site:
    """What a web server hands out at one address: a first build, and later another."""

    def __init__(self, folder: Path) -> None:
        self._folder = folder
        self.place = folder / "site"
        self.place.symlink_to(FOLDER)

    def renew(self, *, failing: bool = False, name: str = "second") -> Path:
        """Lay a second build out, of the same parts but one page, and return its folder; nobody is given it yet.

        A `failing` one cannot bring the record to its version.
        """
        archive, second = self._folder / f"{name}.zip", self._folder / name
        with zipfile.ZipFile(FOLDER / "engine" / "site.zip") as first, zipfile.ZipFile(archive, "w") as other:
            for each in first.infolist():
                content = first.read(each)
                changed = content.replace(HEAD, SECOND) if each.filename == TEMPLATE else content
                name, content = _failing(each.filename, changed) if failing else (each.filename, changed)
                other.writestr(name, content, each.compress_type)
        build(FOLDER / "engine", archive, second)
        return second

    def give(self, folder: Path) -> None:
        """From now on hand another build out."""
        self.place.unlink()
        self.place.symlink_to(folder)


def _failing(name: str, content: bytes) -> tuple[str, bytes]:
    """Return a module of the archive where the tables have one version more, which no record reaches: in its source."""
    if name not in (f"{VERSIONS}c", f"{STEPS}c"):
        return name, content
    source = (ROOT / "src" / name[:-1]).read_bytes()
    today = re.sub(rb'(?m)^TODAY = "\d+"', b'TODAY = "9999"', source)
    return name[:-1], today if name == f"{VERSIONS}c" else source + FAILS


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


def started_again(page: Page, server: Handed, browser: Killable) -> Page:
    """Stop serving, kill the browser, and open what the app showed in another one; return its page."""
    shown = address_of(page)
    server.stop()
    browser.kill()
    page = browser.start()
    page.goto(shown)
    return page


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
    until(page, ALONE)


@pytest.mark.rare
def test_a_new_build_that_nobody_tapped_for_is_taken_at_the_next_start(
    site: Site, server: Handed, browser: Killable
) -> None:
    """The browser was killed in between, and nobody serves any more."""
    page = browser.start()
    visited(page, server)
    site.give(site.renew())
    page.evaluate(LOOK)
    expect(page.get_by_role("button", name="A new version is ready")).to_be_visible()
    page = started_again(page, server, browser)
    app = page.frame_locator("#app")
    expect(app.locator(BUILD)).to_have_count(1)
    expect(values(app)).to_have_text(["48 psi"])
    until(page, ALONE)


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
        until(page, ENDED)
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


def gone_back(site: Site, server: Handed, browser: Killable) -> Page:
    """Begin a visit, tap for a build whose migration fails, and find the one before; return its page."""
    page = browser.start()
    visited(page, server)
    site.give(site.renew(failing=True))
    page.evaluate(LOOK)
    page.get_by_role("button", name="A new version is ready").click()
    expect(page.locator("#back")).to_contain_text("no_such_table")
    expect(values(page.frame_locator("#app"))).to_have_text(["48 psi"])
    expect(page.frame_locator("#app").locator(BUILD)).to_have_count(0)
    return page


def test_where_a_new_build_cannot_take_the_record_the_one_before_goes_on(
    site: Site, server: Handed, browser: Killable
) -> None:
    """Its migration fails: the build before goes on, at once, and after a kill with nobody serving."""
    page = gone_back(site, server, browser)
    read(app_of(page), "47")
    expect(values(page.frame_locator("#app"))).to_have_count(2)
    page = started_again(page, server, browser)
    app = page.frame_locator("#app")
    expect(values(app)).to_have_count(2)
    expect(app.locator(BUILD)).to_have_count(0)
    expect(page.locator("#back")).to_be_hidden()


@pytest.mark.rare
def test_after_a_build_that_could_not_take_the_record_a_third_one_that_can_is_taken(
    site: Site, server: Handed, browser: Killable
) -> None:
    """It comes to the build before as any new build does, and then it is alone."""
    page = gone_back(site, server, browser)
    site.give(site.renew(name="third"))
    page.evaluate(LOOK)
    page.get_by_role("button", name="A new version is ready").click()
    app = page.frame_locator("#app")
    expect(app.locator(BUILD)).to_have_count(1)
    expect(values(app)).to_have_text(["48 psi"])
    until(page, ALONE)


def list_anew(worker: Path, content: bytes) -> None:
    """Let a build's service worker know a file that is changed after it was laid out."""
    script = worker.read_text(encoding="utf-8")
    found = re.search(r"const FILES = (\{[^;]*\});", script)
    assert found is not None
    files: dict[str, str] = json.loads(found[1])
    files["/shell/opfsfs.js"] = hashlib.sha256(content).hexdigest()
    worker.write_text(script.replace(found[1], json.dumps(files)), encoding="utf-8")
