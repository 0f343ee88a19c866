"""Every form of every page in a real Chromium, as a person in a hurry meets it (``python3 scripts/long.py forms``).

It is tapped twice, gone back from, sent from a second tab, filled in wrongly, and sent while the app is away.

Rules
-----
1. A form is told by the route that it is sent to; one of each route is tried, on the first page that has it. What ends
   the trial for the others (erasing, leaving) is tried last.
2. Nothing is expected of a form but what holds for all: one tap is one sending, no answer is an error of the app, what
   was typed stays where it was refused, and a page that lost its app says so and keeps its fields.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

import pytest

from steadyhead.web import app as web_app
from tests.browser.conftest import PATIENCE
from tests.browser.every_page import addresses, prepared
from tests.browser.served import Served

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page, Request, Response

pytestmark = [pytest.mark.laptop, pytest.mark.chromium]

#: Routes that take away what other forms are about.
LAST = ("/leave", "/systems/{system}/erase")
#: The forms of a page: where each is sent to, by its place among them.
FORMS = """() => [...document.forms].map((form, at) => [form.method, new URL(form.action).pathname, at])"""
#: What nobody could mean, in every field that takes text; returns what stands there then.
WRONG = """at => { const form = document.forms[at];
  const fields = [...form.elements].filter(e => e.checkVisibility({visibilityProperty: true}) && !e.readOnly &&
    (e.tagName === 'TEXTAREA' || (e.tagName === 'INPUT' && ['text', 'search', 'tel', 'number'].includes(e.type))));
  for (const e of fields) { e.value = '?? 1,2,3 <b>'; e.dispatchEvent(new Event('input', {bubbles: true})); }
  return fields.map(e => [e.name, e.value]); }"""
#: What the fields of these names hold now.
HELD = """names => names.map(name => [name, document.querySelector(`[name="${CSS.escape(name)}"]`)?.value])"""
#: Two taps faster than any answer; the browser's own check of a field is passed by, as an old browser would.
TWICE = """at => { const form = document.forms[at]; form.noValidate = true;
  const button = form.querySelector('button:not([type=button]), input[type=submit]');
  button.click(); button.click(); }"""


@dataclass(frozen=True)
class Form:
    """A form: the page that it is on, and the route that it is sent to."""

    page: str
    route: str

    def at(self, page: Page) -> int | None:
        """Return its place among the forms of the page as it stands now; None where it is gone."""
        here = page.evaluate(FORMS)
        return next((at for method, path, at in here if (method, route_of(path)) == ("post", self.route)), None)


@pytest.fixture(scope="module")
def home(tmp_path_factory: pytest.TempPathFactory) -> Iterator[tuple[Served, dict[str, str]]]:
    """Return an app with a record that every page shows something of."""
    app = Served(tmp_path_factory.mktemp("forms") / "steadyhead.db", program=("tests.browser.with_phones",))
    app.start()
    yield app, prepared(app.address)
    app.stop()


@pytest.fixture
def page(chromium: Browser, home: tuple[Served, dict[str, str]]) -> Iterator[Page]:
    """Return a phone's page."""
    context = chromium.new_context(base_url=home[0].address, viewport={"width": 360, "height": 740}, has_touch=True)
    context.set_default_timeout(PATIENCE)
    yield context.new_page()
    context.close()


def route_of(path: str) -> str:
    """Return the route of the app that an address belongs to."""
    for route, _, kept in web_app.PAGES:
        if kept and re.fullmatch(re.sub(r"\{[a-z_]+\}", "[^/]+", route), path):
            return route
    return path


def forms(page: Page, made: dict[str, str]) -> list[Form]:
    """Return one form for each route that takes one, those that take away last."""
    found: dict[str, Form] = {}
    for address in addresses(made):
        page.goto(address)
        for method, path, _ in page.evaluate(FORMS):
            if method == "post":
                found.setdefault(route_of(path), Form(address, route_of(path)))
    return sorted(found.values(), key=lambda form: form.route in LAST)


class Heard:
    """What a page sent to a form's address, and what came back."""

    def __init__(self, page: Page) -> None:
        self.sent: list[str] = []
        self.bad: list[tuple[int, str]] = []
        page.on("request", self._sent)
        page.on("response", self._came)

    def _sent(self, request: Request) -> None:
        if request.method == "POST":
            self.sent.append(request.url)

    def _came(self, response: Response) -> None:
        if response.status >= 500:
            self.bad.append((response.status, response.url))


def send(page: Page, at: int) -> int:
    """Tap a form's button twice, wait for the answer, and return its status."""
    with page.expect_response(lambda response: response.request.method == "POST") as answer:
        page.evaluate(TWICE, at)
    page.wait_for_load_state()
    page.wait_for_function("() => !document.querySelector('[aria-busy]')")
    return int(answer.value.status)


def test_every_form_stands_being_tapped_twice_gone_back_from_and_sent_from_two_tabs(
    page: Page, home: tuple[Served, dict[str, str]]
) -> None:
    """HTTP's own classes of answers (RFC 9110): nothing of 500 and above; as many sendings as forms tapped."""
    heard, all_of_them = Heard(page), forms(page, home[1])
    assert len(all_of_them) > 30
    wrong: dict[str, Any] = {}
    for form in all_of_them:
        other = page.context.new_page()
        other.goto(form.page)
        page.goto(form.page)
        heard.sent.clear()
        at = form.at(page)
        if at is None:
            continue
        send(page, at)
        if len(heard.sent) != 1:
            wrong[f"{form.route} twice"] = list(heard.sent)
        page.go_back()
        if not page.locator("main").count():
            wrong[f"{form.route} back"] = page.content()[:200]
        second = Heard(other)
        send(other, at)
        if second.bad:
            wrong[f"{form.route} second tab"] = second.bad
        other.close()
    assert (wrong, heard.bad) == ({}, [])


def test_every_form_that_is_filled_in_wrongly_says_so_and_loses_nothing(
    page: Page, home: tuple[Served, dict[str, str]]
) -> None:
    """422 shows the form again with all that was typed, and says what is wrong; or it was words, and was kept."""
    heard = Heard(page)
    wrong: dict[str, Any] = {}
    for form in forms(page, home[1]):
        if form.route in LAST:
            continue
        page.goto(form.page)
        at = form.at(page)
        if at is None:
            continue
        typed = page.evaluate(WRONG, at)
        if send(page, at) != 422:
            continue
        held = page.evaluate(HELD, [name for name, _ in typed])
        if held != typed:
            wrong[f"{form.route} lost"] = [each for each in zip(typed, held, strict=True) if each[0] != each[1]]
        if not page.locator("[role=alert], .complaint, .problem").count():
            wrong[f"{form.route} says nothing"] = page.locator("main").inner_text()[:200]
    assert (wrong, heard.bad) == ({}, [])


def test_every_form_says_when_the_app_is_away_and_keeps_what_was_typed(
    page: Page, home: tuple[Served, dict[str, str]]
) -> None:
    """The network is cut under the open page; the banner is shown, the fields hold what they held."""
    wrong: dict[str, Any] = {}
    for form in forms(page, home[1]):
        page.goto(form.page)
        at = form.at(page)
        if at is None:
            continue
        typed = page.evaluate(WRONG, at)
        page.context.set_offline(True)
        page.evaluate(TWICE, at)
        try:
            page.locator("#lost").wait_for(state="visible", timeout=5000)
        except Exception as error:  # noqa: BLE001 - gathered for all forms
            wrong[f"{form.route} no banner"] = [page.url, str(error)[:80]]
        held = page.evaluate(HELD, [name for name, _ in typed]) if page.url.startswith("http") else None
        if held != typed:
            wrong[f"{form.route} lost"] = held
        page.context.set_offline(False)
    assert wrong == {}
