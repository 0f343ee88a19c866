"""Tank and starts in the app: reached from a visit and from the birth readings, worked out, refused in words."""

from __future__ import annotations

from urllib.parse import urlencode

from tests.web.client import Browser

SENT = {"go": "yes", "volume": "85 gal", "precharge": "28", "precharge.unit": "psi", "wake": "30 psi", "stop": "50 psi"}


def test_it_is_reached_from_the_visit_and_from_the_birth_readings(browser: Browser, visit: str) -> None:
    """The links of both pages."""
    assert f"{visit}/tank" in browser.get(visit).page.links.values()
    assert f"{visit}/tank" in browser.get(f"{visit}/birth").page.links.values()


def test_what_the_tank_gives_stands_first_and_the_answers_stay(browser: Browser, visit: str) -> None:
    """A trade journal's worked example: 25.1 gal; a bare figure takes the unit beside it."""
    page = browser.get(f"{visit}/tank?{urlencode(SENT)}").page
    assert "From 50 psi down to 30 psi the pressure tank gives about 25 gal." in page.said
    assert {**page.forms[0].fields}["precharge"] == "28"


def test_every_wrong_answer_is_named_and_none_is_lost(browser: Browser, visit: str) -> None:
    """The house's way: 422, each by what was asked, what was typed still there."""
    answer = browser.get(f"{visit}/tank?{urlencode({**SENT, 'volume': '85', 'volume.unit': '', 'stop': ''})}")
    assert answer.status == 422
    assert "Pressure tank's whole volume" in answer.page.said
    assert "It must be known" in answer.page.said
    assert answer.page.forms[0].fields["volume"] == "85"
