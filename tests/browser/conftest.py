"""A real Chromium, driven against the app as it is served; without one these are skipped, and in CI they fail."""

from __future__ import annotations

import os
import shutil
import subprocess
import tarfile
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest

from tests.browser.served import Served
from tests.offline.handed import Handed
from tests.support import ROOT, cannot_run, require_tool

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page

NAMES = ("chromium", "chromium-browser", "google-chrome")
#: Quiet: it fetches nothing by itself. No sandbox: a container's root has none to give.
QUIET = ["--no-sandbox", "--disable-background-networking", "--disable-component-update", "--no-first-run"]
AXE = "axe-core@4.14.1"
#: A machine that does much else at once may need this long for what the engine works out [ms].
PATIENCE = 60_000


@pytest.fixture(scope="module")
def chromium() -> Iterator[Browser]:
    """Return the system's own Chromium; its driver's event loop ends with the file, so that others may have theirs."""
    from playwright.sync_api import expect, sync_playwright  # noqa: PLC0415 - a browser's Python reads this file too

    found = next(filter(None, map(shutil.which, NAMES)), None)
    if found is None:
        cannot_run("Chromium is not installed")
    expect.set_options(timeout=PATIENCE)
    with sync_playwright() as driver:
        browser = driver.chromium.launch(executable_path=found, args=QUIET)
        yield browser
        browser.close()


def phone() -> bool:
    """Tell whether the app is met in a phone's browser, with nobody serving it (``scripts/long.py phone-suite``)."""
    return os.environ.get("STEADYHEAD_HOME") == "phone"


#: What a phone's home lacks by its nature, by what a test's name says of it.
BY_SCRIPTS = "the app runs in this browser by scripts"
LACKS = {
    "without_scripts": BY_SCRIPTS,
    "two_tabs": "one tab alone has the record; another one takes it over (tests/offline/in_chromium.py)",
}


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Skip in a phone's home what it lacks, with the reason."""
    for item in items if phone() else ():
        reasons = [why for word, why in LACKS.items() if word in item.name]
        given = getattr(item, "callspec", None)
        if given is not None and given.params.get("scripts") is False:
            reasons.append(BY_SCRIPTS)
        if reasons:
            item.add_marker(pytest.mark.skip(reason=reasons[0]))


@pytest.fixture(scope="session")
def served(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Served | Handed]:
    """Return the app, served once for all tests that only add to it; or the phone's folder."""
    if phone():
        handed = Handed(ROOT / "build" / "offline")
        yield handed
        handed.stop()
        return
    app = Served(tmp_path_factory.mktemp("record") / "steadyhead.db")
    app.start()
    yield app
    app.stop()


Opener = Callable[..., "Page"]


@pytest.fixture(scope="module")
def reasons(chromium: Browser, served: Served) -> str:
    """Return the address of a page that tells why, in a visit of one reading: of more it takes the engine longer."""
    from playwright.sync_api import expect  # noqa: PLC0415 - as above

    from tests.browser.taps import field, keep, three_taps, values  # noqa: PLC0415 - as above

    context = chromium.new_context(base_url=served.address)
    context.set_default_timeout(2 * PATIENCE)
    page = context.new_page()
    three_taps(page)
    field(page).fill("48")
    keep(page)
    expect(values(page)).to_have_text(["48 psi"])
    address = str(page.locator(".suspects a").first.get_attribute("href"))
    context.close()
    return address


@pytest.fixture(scope="module")
def checked(chromium: Browser, served: Served) -> str:
    """Return the address of a sensor check with three points, going up and coming down."""
    from playwright.sync_api import expect  # noqa: PLC0415 - as above

    from tests.browser.taps import begin_sensor_check, take_point, three_taps, values  # noqa: PLC0415 - as above

    context = chromium.new_context(base_url=served.address)
    context.set_default_timeout(2 * PATIENCE)
    page = context.new_page()
    address = begin_sensor_check(page, three_taps(page))
    for number, (reference, signal) in enumerate((("0", "0.52"), ("25", "1.54"), ("50", "2.58")), start=1):
        take_point(page, reference, signal)
        expect(values(page)).to_have_count(2 * number)
    context.close()
    return address


@pytest.fixture
def opened(chromium: Browser, served: Served | Handed) -> Iterator[Opener]:
    """Return what opens a page of its own: a phone, unless another width is asked for; nothing may be complained of."""
    contexts: list[Any] = []
    complaints: list[str] = []

    def open_page(*, wide: int = 360, theme: str = "light", scripts: bool = True, address: str = "") -> Page:
        context: Any = chromium.new_context(
            base_url=address or served.address, viewport={"width": wide, "height": 740}, java_script_enabled=scripts,
            has_touch=wide < 600, is_mobile=wide < 600, color_scheme="dark" if theme == "dark" else "light",
        )  # fmt: skip
        contexts.append(context)
        context.set_default_timeout(2 * PATIENCE)
        page: Page = context.new_page()
        if phone():
            from tests.offline.as_phone import as_phone  # noqa: PLC0415 - as above

            as_phone(page, address or served.address)
        page.on("pageerror", lambda error: complaints.append(str(error)))
        page.on("console", lambda said: complaints.append(said.text) if "Content Security" in said.text else None)
        return page

    yield open_page
    for context in contexts:
        context.close()
    assert complaints == []


@pytest.fixture(scope="session")
def axe() -> str:
    """Return the accessibility checker's script, fetched once into the checkout's build folder."""
    folder = ROOT / "build" / "axe"
    script = folder / "package" / "axe.min.js"
    if not script.exists():
        _fetch(folder)
    return script.read_text(encoding="utf-8")


def _fetch(folder: Path) -> None:
    folder.mkdir(parents=True, exist_ok=True)
    done = subprocess.run([require_tool("npm"), "pack", "--silent", AXE], cwd=folder, check=False, capture_output=True)
    if done.returncode:
        cannot_run(f"{AXE} cannot be fetched")
    with tarfile.open(next(folder.glob("*.tgz"))) as archive:
        archive.extractall(folder, filter="data")
