"""A night's test by its pages: the card, what it brought back, what that tells, and the next step."""

from __future__ import annotations

from steadyhead.service.record.given import Given
from steadyhead.service.record.pages import visit_page
from tests.web.client import Answer, Browser
from tests.web.test_endings import end

CARD = {"start": "60", "end": "59", "evening": "22:00", "morning": "06:00", "pump_off": "yes", "waited": "yes"}


def night(browser: Browser, visit: str, **more: str) -> Answer:
    """End a visit for the night, and put in what the card says."""
    end(browser, visit, "night-pending", ring="555 0100")
    form = browser.get(f"{visit}/night").page.form("/night")
    return browser.post(form.action, form.filled(**{**CARD, **more}))


def test_ending_for_the_night_leads_to_the_customers_card(browser: Browser, visit: str) -> None:
    """A page that can be printed: what to shut, when to read, whom to ring."""
    answer = end(browser, visit, "night-pending", ring="555 0100")
    assert answer.address.endswith("/papers/night-card")
    assert "555 0100" in answer.page.said


def test_a_tight_night_closes_the_visit_with_one_tap(browser: Browser, given: Given, visit: str) -> None:
    """60 to 59 psi in eight hours is no more than a gauge and a night's cooling."""
    answer = night(browser, visit)
    assert "Tight" in answer.page.said
    assert "8 hours" in answer.page.said
    form = answer.page.form("/night/close")
    browser.post(form.action, form.fields)
    assert visit_page(given, visit.rpartition("/")[2]).state == "proved-on-site"
    assert "Night test" not in browser.get("/").page.said


def test_a_night_that_lost_water_says_where_and_goes_on_with_the_visit(
    browser: Browser, given: Given, visit: str
) -> None:
    """60 to 45 psi, 12 gal through the meter: the house."""
    answer = night(browser, visit, end="45", meter_from="100", meter_to="112", **{"meter.unit": "gal"})
    said = answer.page.said
    assert "15 psi" in said
    assert "12 gal went through the meter" in said
    assert "Toilets first" in said
    assert "Gay-Lussac" in said
    form = answer.page.form("/open")
    browser.post(form.action, form.fields)
    seen = visit_page(given, visit.rpartition("/")[2])
    assert (seen.state, seen.visit.readings[0].measure) == ("open", "pressure-decay")


def test_what_cannot_be_read_is_said_and_nothing_typed_is_lost(browser: Browser, visit: str) -> None:
    """A meter that counts back: the page again, with 422."""
    end(browser, visit, "night-pending")
    form = browser.get(f"{visit}/night").page.form("/night")
    answer = browser.post_only(form.action, form.filled(**{**CARD, "meter_from": "112", "meter_to": "100"}))
    assert answer.status == 422
    assert "does not count back" in answer.page.said
    fields = answer.page.form("/night").fields
    assert (fields["start"], fields["meter_from"], fields["pump_off"]) == ("60", "112", "yes")


def test_a_night_that_was_put_in_wrong_is_put_right(browser: Browser, given: Given, visit: str) -> None:
    """The form holds what was kept; the reading is corrected, not doubled."""
    page = night(browser, visit, end="45").page
    form = browser.get(page.links["Put it right"]).page.form("/night")
    assert form.fields["start"] == "60 psi"
    assert "Tight" in browser.post(form.action, form.filled(end="59")).page.said
    assert len(visit_page(given, visit.rpartition("/")[2]).rows) == 1


def test_a_visit_without_a_night_is_ended_first(browser: Browser, visit: str) -> None:
    """Nothing was waited for."""
    assert browser.get(f"{visit}/night").address == f"{visit}/end"
