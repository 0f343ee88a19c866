"""The first minute at a visit: offered once, kept step by step as found, never in the way."""

from __future__ import annotations

import pytest

from steadyhead.service.record.given import Given
from steadyhead.service.record.pages import visit_page
from steadyhead.service.record.readings import record_action
from steadyhead.service.record.views import VisitSeen
from steadyhead.visit.record import Figure
from tests.web.client import Answer, Browser
from tests.web.visiting import read, three_taps

OFFER = "Before anything is reset"


def seen_of(given: Given, visit: str) -> VisitSeen:
    """Return a visit as it stands."""
    return visit_page(given, visit.split("/")[2])


def step(browser: Browser, visit: str, at: str, **typed: str) -> Answer:
    """Fill in the form of a step, and keep it."""
    page = browser.get(f"{visit}/first-minute?at={at}").page
    form = next(form for form in page.forms if form.fields.get("check") == at)
    return browser.post(form.action, form.filled(**typed))


def test_a_new_visit_offers_its_first_minute_beside_the_first_check(browser: Browser) -> None:
    """The issue: after three taps the check stands there all the same."""
    page = three_taps(browser).page
    assert OFFER in page.said
    assert [name for name in page.form("/readings").fields if name == "said"]


def test_one_tap_passes_over_it_and_it_is_never_offered_again(given: Given, browser: Browser, visit: str) -> None:
    """Never a nag."""
    form = browser.get(visit).page.form("/first-minute")
    after = browser.post(form.action, form.filled(end="skipped"))
    assert after.address == visit
    assert OFFER not in after.page.said
    assert seen_of(given, visit).first_minute == "skipped"


def test_whoever_goes_to_work_without_it_is_not_asked_again(given: Given, browser: Browser, visit: str) -> None:
    """A reading on the check's own card; a repair."""
    assert OFFER not in read(browser, browser.get(visit), "48").page.said
    other = three_taps(browser).address
    record_action(given, other.split("/")[2], "repair-cable")
    assert OFFER not in browser.get(other).page.said


def test_readings_of_the_first_minute_are_kept_at_once_as_found(given: Given, browser: Browser, visit: str) -> None:
    """Each in its own unit: 1 h is 3600 s, 1 psi 6894.757 Pa (SI Brochure, NIST SP 811, from memory); starts count."""
    step(browser, visit, "fault", said="low-signal")
    step(browser, visit, "setpoint", said="60")
    step(browser, visit, "hours", said="1234")
    step(browser, visit, "starts", said="52345")
    step(browser, visit, "gauge", said="48", whose="own")
    seen = seen_of(given, visit)
    assert [row.body["measure"] for row in seen.rows] == [
        "displayed-fault", "displayed-setpoint", "displayed-hours", "displayed-starts", "gauge-pressure",
    ]  # fmt: skip
    assert {row.body["stage"] for row in seen.rows} == {"as-found"}
    assert seen.rows[-1].body["whose"] == "own"
    figures = [each.value for each in seen.visit.readings[1:4]]
    assert all(isinstance(value, Figure) for value in figures)
    read = [getattr(value, "value", None) for value in figures]
    assert read == pytest.approx([60 * 6894.757, 1234 * 3600, 52345], rel=1e-6)
    assert OFFER in browser.get(visit).page.said


def test_the_fault_history_and_what_was_changed_move_the_call_and_lose_nothing_of_it(
    given: Given, browser: Browser, visit: str
) -> None:
    """The words of a complaint; what the first tap said stays."""
    text = seen_of(given, visit).visit.complaint.text
    step(browser, visit, "history", **{"shown.low-signal": "low-signal", "shown.dry-run": "dry-run"})
    step(browser, visit, "changed", **{"changed.storm": "storm", "settings": "start delay 30 s"})
    step(browser, visit, "call", since="sudden", when="rain")
    seen = seen_of(given, visit)
    said = seen.visit.complaint
    assert said.text == text
    assert {"low-signal", "dry-run"} <= set(said.shown)
    assert (said.since, said.when, tuple(said.changed)) == ("sudden", "rain", ("storm",))
    assert [note.body["text"] for note in seen.notes] == ["start delay 30 s"]


def test_every_step_can_be_left_out_and_leads_to_the_next(browser: Browser, visit: str) -> None:
    """By its link alone, from the first to the last, which has none: it leads to the checks."""
    page, passed = browser.get(f"{visit}/first-minute").page, 1
    while "Not seen" in page.links:
        page, passed = browser.get(page.links["Not seen"]).page, passed + 1
    assert passed >= 9
    form = page.forms[-1]
    assert browser.post(form.action, form.filled(end="taken")).address == visit


def test_the_last_step_ends_it(given: Given, browser: Browser, visit: str) -> None:
    """What the display shows comes last (TRADE: photo, fault log, set pressure, hours, ... then gauge and display)."""
    after = step(browser, visit, "display", said="12")
    assert after.address == visit
    assert seen_of(given, visit).first_minute == "taken"


def test_a_wrong_entry_stays_in_its_field(given: Given, browser: Browser, visit: str) -> None:
    """Nothing typed is lost, nothing is guessed."""
    answer = step(browser, visit, "setpoint", said="sixty")
    assert answer.status == 422
    assert "Not kept." in answer.page.said
    assert answer.page.form("/first-minute").fields["said"] == "sixty"
    assert seen_of(given, visit).rows == ()


def test_a_likely_slip_is_asked_about(given: Given, browser: Browser, visit: str) -> None:
    """480 psi on a transducer of 0..100 psi: a slip of the decimal sign."""
    asked = step(browser, visit, "gauge", said="480")
    assert "Did you mean 48 psi?" in asked.page.said
    form = asked.page.form("/first-minute")
    browser.post(form.action, form.filled(instead="48 psi"))
    assert [row.body["value"] for row in seen_of(given, visit).rows] == ["48 psi"]


def test_the_same_form_sent_twice_keeps_one(given: Given, browser: Browser, visit: str) -> None:
    """The id that was minted with the form."""
    form = browser.get(f"{visit}/first-minute?at=hours").page.form("/first-minute")
    for _ in range(2):
        browser.post(form.action, form.filled(said="1234"))
    assert len(seen_of(given, visit).rows) == 1


@pytest.mark.parametrize("at", ["nowhere", "../close", "photo;"])
def test_a_step_that_nobody_knows_is_refused(browser: Browser, visit: str, at: str) -> None:
    """Anybody's text."""
    assert browser.get(f"{visit}/first-minute?at={at}").status == 400


def test_what_was_kept_is_corrected_on_its_own_page(given: Given, browser: Browser, visit: str) -> None:
    """The list leads there; what it said before stays, and so does that it was seen as found."""
    step(browser, visit, "hours", said="1234")
    (row,) = seen_of(given, visit).rows
    assert f"{visit}/readings/{row.id}" in browser.get(f"{visit}/first-minute").page.links.values()
    form = browser.get(f"{visit}/readings/{row.id}").page.forms[0]
    browser.post(form.action, form.filled(said="1243"))
    (row,) = seen_of(given, visit).rows
    assert (row.body["value"], row.body["stage"]) == ("1243 h", "as-found")
