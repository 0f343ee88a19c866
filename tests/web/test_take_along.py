"""The page that tells how a phone takes the app along: what it offers where it works, and why not where it does not."""

from __future__ import annotations

import hashlib

import pytest

from steadyhead.service.record.given import Given
from steadyhead.web.app import make_app
from steadyhead.web.joining import Joining
from steadyhead.web.phone_site import PhoneSite
from tests.web.client import Browser

PAGE = b"<!doctype html><title>The phone's own</title>"
SITE = PhoneSite({"index.html": PAGE}, {"index.html": hashlib.sha256(PAGE).hexdigest()})
PHONE, NAME = "192.168.1.77", "pumps.example.com"


def served(given: Given, *, https: bool = False, site: PhoneSite | None = SITE) -> tuple[Browser, Browser]:
    """Return a browser at the computer and one of a phone that joined."""
    joining = Joining(f"{'https' if https else 'http'}://{NAME}:8240/", given.clock)
    app = make_app(given, hosts=("127.0.0.1", NAME), joining=joining, site=site)
    here = Browser(app)
    phone = Browser(app, host=f"{NAME}:8240", client=PHONE, scheme="https" if https else "http")
    here.get("/join")
    form = phone.get("/").page.form("/join/entered")
    phone.post(form.action, form.filled(code=joining.code(), name="Ana"))
    return here, phone


def test_a_phone_that_came_by_https_is_led_to_the_app(given: Given) -> None:
    """Secure Contexts (W3C), 3.1: https is one; the page then names the steps, and no other way."""
    _, phone = served(given, https=True)
    page = phone.get("/take-along").page
    assert page.links["Put it on this phone"] == "/phone/"
    assert "Add to Home Screen" in page.said
    assert "http." not in page.said
    assert phone.get("/phone/").body == PAGE


def test_a_phone_that_came_by_plain_http_is_told_why_not_and_what_to_do(given: Given) -> None:
    """A browser keeps no service worker from such an address, so no button leads there."""
    here, phone = served(given)
    page = phone.get("/take-along").page
    assert "/phone/" not in page.links.values()
    assert "keeps an app only from a secure address" in page.said
    assert "--certificate FILE" in page.said
    at_computer = here.get("/take-along").page
    assert at_computer.links["Try it on this computer"] == "/phone/"
    assert "keeps an app only from a secure address" in at_computer.said


def test_the_computer_tells_where_phones_put_it_on(given: Given) -> None:
    """Its own address is of no use to them."""
    here, _ = served(given, https=True)
    assert f"https://{NAME}:8240/phone/" in here.get("/take-along").page.said


def test_where_nothing_was_made_ready_the_command_is_told(given: Given) -> None:
    """And nothing is handed out."""
    _, phone = served(given, https=True, site=None)
    assert "steadyhead offline build" in phone.get("/take-along").page.said
    assert phone.get("/phone/").status == 404


def test_the_phones_own_app_says_that_it_is_here_already(given: Given) -> None:
    """No command and no address is of use there."""
    browser = Browser(make_app(given, phone=True))
    page = browser.get("/take-along").page
    assert "It needs no network" in page.said
    assert "offline build" not in page.said
    assert "/take-along" not in browser.get("/settings").page.links.values()


def test_whoever_has_not_joined_may_have_the_program_and_nothing_of_the_record(given: Given) -> None:
    """The files are the same for everybody; the page that speaks of this computer is not shown."""
    here, _ = served(given, https=True)
    stranger = Browser(here.app, host=f"{NAME}:8240", client="192.168.1.66", scheme="https")
    assert stranger.get("/phone/").body == PAGE
    assert stranger.get("/take-along").status == 403
    assert stranger.get("/phone/../visits").status == 404


@pytest.mark.parametrize("start", ["/settings", "/join"])
def test_the_page_is_found_where_phones_are_spoken_of(given: Given, start: str) -> None:
    """A tap away from both."""
    here, _ = served(given)
    assert here.get(start).page.links["Take it with you"] == "/take-along"
