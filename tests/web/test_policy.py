"""What every answer promises, and which requests are not heard."""

from __future__ import annotations

import pytest

from steadyhead.web.app import PAGES
from steadyhead.web.assets import read_assets
from steadyhead.web.policy import MOST_BYTES
from tests.web.client import Browser
from tests.web.visiting import begin_check, three_taps


def test_a_page_lets_nothing_in_from_elsewhere_and_no_script_of_its_own_text(browser: Browser) -> None:
    """CSP level 3: what is not named falls to default-src; neither unsafe word stands anywhere."""
    rules = dict(rule.split(" ", 1) for rule in browser.get("/").headers["content-security-policy"].split("; "))
    assert rules["default-src"] == "'none'"
    assert rules["script-src"] == rules["style-src"] == rules["connect-src"] == "'self'"
    assert "unsafe" not in str(rules)


def test_no_page_holds_an_inline_script_or_style(browser: Browser) -> None:
    """Every element of a visit's page."""
    page = three_taps(browser).page
    assert [tag for tag, known in page.tags if "style" in known or any(name.startswith("on") for name in known)] == []
    assert [tag for tag, _ in page.tags if tag == "style"] == []


@pytest.mark.parametrize("host", ["evil.example", "127.0.0.1.evil.example", "127.0.0.1@evil.example", "", "[::2]"])
def test_another_host_name_is_refused(browser: Browser, host: str) -> None:
    """A name that is made to point at this machine is not this machine's."""
    browser.host = host
    assert browser.get("/").status == 421


@pytest.mark.parametrize("host", ["127.0.0.1:81", "localhost", "LOCALHOST:8000", "[::1]:8000"])
def test_this_machine_is_heard_under_each_of_its_names(browser: Browser, host: str) -> None:
    """The loopback names, with any port."""
    browser.host = host
    assert browser.get("/").status == 200


def test_a_form_from_elsewhere_changes_nothing(browser: Browser) -> None:
    """No cookie, or another key than the cookie's."""
    form = browser.get("/").page.form("/visits")
    assert browser.post_only(form.action, form.filled(complaint="other", form_key="x" * 32)).status == 400
    browser.cookies.clear()
    assert browser.post_only(form.action, form.filled(complaint="other")).status == 400
    assert "Open visits" not in browser.get("/").page.said


def test_the_key_of_forms_cannot_be_read_or_sent_by_another_site(browser: Browser) -> None:
    """Attributes of the cookie."""
    cookie = browser.get("/").headers["set-cookie"].lower()
    assert "httponly" in cookie
    assert "samesite=strict" in cookie


def test_a_body_that_is_too_large_is_refused_unread(browser: Browser) -> None:
    """One byte more than the limit."""
    assert browser.post_only("/visits", {"a": "x" * MOST_BYTES}).status == 413


def test_pages_are_not_kept_and_files_are_kept_for_ever(browser: Browser) -> None:
    """A page is a state; a file's address is its content."""
    assert browser.get("/").headers["cache-control"] == "no-store"
    answer = browser.get(read_assets().address("style.css"))
    assert answer.status == 200
    assert "immutable" in answer.headers["cache-control"]


@pytest.mark.parametrize("address", ["/assets/../app.py", "/assets/nothing.css", "/nowhere", "/visits/x", "/systems/x"])
def test_what_is_not_there_is_told_in_a_page(browser: Browser, address: str) -> None:
    """No path is joined to a folder, no id is believed."""
    assert browser.get(address).status == 404


@pytest.mark.parametrize("address", [path for path, show, _ in PAGES if not show])
def test_an_address_that_only_takes_forms_leads_back(browser: Browser, address: str) -> None:
    """Somebody reloads the address of a form."""
    visit = three_taps(browser).address
    check = begin_check(browser, visit).address
    system = next(link for link in browser.get(visit).page.links.values() if link.startswith("/systems/"))
    there = address.replace("/visits/{visit}", visit).replace("/sensor-checks/{check}", check)
    there = there.replace("/systems/{system}", system.partition("?")[0])
    assert browser.get(there).status == 200


@pytest.mark.parametrize("check", ["x", ";;;;;", "volts;nowhere;;;;", "volts;connected;a;b;;", "volts;connected;;;nan;",
                                   "inspection;connected;;;;x", "volts;connected;;;1e999;"])  # fmt: skip
def test_a_check_that_nobody_knows_is_refused(browser: Browser, check: str) -> None:
    """Anybody's text."""
    first = three_taps(browser)
    form = first.page.form("/readings")
    assert browser.post_only(form.action, form.filled(check=check, said="1")).status == 400
    assert browser.get(f"{first.address}?check={check}").status in {200, 400}
