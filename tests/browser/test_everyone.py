"""Every page in both languages, as everyone meets it: axe-core, both themes, targets, zoom, motion, landmarks."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

import pytest

from tests.browser.conftest import PATIENCE
from tests.browser.every_page import NOWHERE, STRANGER, addresses, prepared
from tests.browser.looking import Found, Theme, a_phone, look
from tests.browser.served import Served

if TYPE_CHECKING:
    from playwright.sync_api import Browser

pytestmark = [pytest.mark.laptop, pytest.mark.chromium]

FRAME = {"h1": 1, "main": 1, "banner": 1, "foot": 1, "title": True}


@pytest.fixture(scope="module")
def home(tmp_path_factory: pytest.TempPathFactory) -> Iterator[tuple[Served, dict[str, str]]]:
    """Return an app with a record that every page shows something of."""
    app = Served(tmp_path_factory.mktemp("every") / "steadyhead.db", program=("tests.browser.with_phones",))
    app.start()
    yield app, prepared(app.address)
    app.stop()


@pytest.fixture(scope="module", params=["en", "es"])
def found(
    request: pytest.FixtureRequest, chromium: Browser, home: tuple[Served, dict[str, str]], axe: str
) -> tuple[str, Found]:
    """Return what one walk over every page found, in one language."""
    app, made = home
    context = a_phone(chromium, app.address, request.param)
    context.set_default_timeout(4 * PATIENCE)
    page, all_of_them = context.new_page(), Found()
    theme: Theme = "light" if request.param == "en" else "dark"
    for address in (*addresses(made), NOWHERE):
        page.goto(address)
        look(page, axe, theme, all_of_them, address)
    page.set_extra_http_headers(STRANGER)
    page.goto("/")
    look(page, axe, theme, all_of_them, "who has not joined")
    context.close()
    return request.param, all_of_them


def test_axe_finds_nothing_on_any_page_in_either_theme(found: tuple[str, Found]) -> None:
    """axe-core, every rule of WCAG 2.2 AA and its best practices; contrast is computed as the browser paints it."""
    assert found[1].broken == {}


def test_every_target_is_48_pixels(found: tuple[str, Found]) -> None:
    """Measured as the browser lays it out, 360 pixels wide: a wet thumb."""
    assert found[1].small == {}


def test_no_page_is_wider_than_the_phone_nor_than_320_pixels(found: tuple[str, Found]) -> None:
    """WCAG 2.2, 1.4.10: 320 pixels are a screen of 1280 at 400 %; 1.4.4 asks for 200 % alone."""
    assert found[1].wide == {}


def test_every_page_has_one_heading_its_landmarks_a_title_and_its_language(found: tuple[str, Found]) -> None:
    """As somebody who hears pages finds their way; and no page is left out."""
    language, all_of_them = found
    assert {at: frame for at, frame in all_of_them.frame.items() if frame != {**FRAME, "lang": language}} == {}
    assert all_of_them.looked_at > 60


def test_nothing_moves_for_whoever_wants_no_motion(found: tuple[str, Found]) -> None:
    """The browser's own figures of what every element does."""
    assert found[1].moving == {}
