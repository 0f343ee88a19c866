"""The pages of the instruments: added by a form, used by a visit, told when they are due."""

from __future__ import annotations

from steadyhead.service.record.given import Given
from steadyhead.service.record.instruments import instruments, on_van
from steadyhead.service.record.pages import visit_page
from tests.web.client import Answer, Browser
from tests.web.visiting import begin, three_taps


def add(browser: Browser, kind: str, **typed: str) -> Answer:
    """Fill in the form of a new instrument."""
    form = browser.get(f"/instruments/new-{kind}").page.form(f"new-{kind}")
    return browser.post(form.action, form.filled(**typed))


def test_a_new_gauge_stands_in_the_list_and_on_the_van(given: Given, browser: Browser) -> None:
    """Its accuracy is read on the list; the next visit takes it."""
    said = add(browser, "gauge", name="Red gauge", range="0..160 psi", grade="2A").page.said
    assert "Red gauge" in said
    assert "0..160 psi, 2A" in said
    assert on_van(given).instruments == tuple(each.id for each in instruments(given))


def test_a_calibration_that_was_due_is_told(browser: Browser) -> None:
    """The clock of these tests stands in May 2026."""
    assert "Calibration was due 2026-04-30" in add(browser, "gauge", range="0..160 psi", due="2026-04-30").page.said


def test_what_cannot_be_read_is_told_and_stays_in_its_field(given: Given, browser: Browser) -> None:
    """A scale without its unit: told with its key; the name that was typed is still there."""
    answer = add(browser, "gauge", name="Red gauge", range="0..160")
    assert answer.status == 422
    form = answer.page.form("new-gauge")
    assert (form.fields["name"], form.fields["range"]) == ("Red gauge", "0..160")
    assert "0..160" in answer.page.said
    assert instruments(given) == ()


def test_an_instrument_is_corrected_and_put_away(given: Given, browser: Browser) -> None:
    """One form for both; what is out of use is offered back."""
    add(browser, "meter", name="Meter", volts="0.5 % + 2 x 0.01 V")
    (meter,) = instruments(given)
    form = browser.get(f"/instruments/{meter.id}").page.form(meter.id)
    browser.post(form.action, form.filled(volts="0.3 % + 1 x 0.001 V"))
    assert instruments(given)[0].body["volts"] == "0.3 % + 1 x 0.001 V"
    form = browser.get(f"/instruments/{meter.id}").page.form(meter.id)
    assert "Out of use" in browser.post(form.action, {**form.filled(), "withdraw": "yes"}).page.said
    assert instruments(given)[0].withdrawn
    form = browser.get(f"/instruments/{meter.id}").page.form(meter.id)
    browser.post(form.action, {**form.filled(), "back": "yes"})
    assert not instruments(given)[0].withdrawn


def test_a_visit_says_what_it_uses_and_what_is_at_hand(given: Given, browser: Browser) -> None:
    """Taken off the visit, it stays on the van for the next one."""
    add(browser, "gauge", name="Red gauge", range="0..160 psi", grade="2A")
    (gauge,) = instruments(given)
    visit = three_taps(browser).address
    assert visit_page(given, visit.rpartition("/")[2]).instruments == (gauge.id,)
    form = browser.get(f"{visit}/instruments").page.form("/instruments")
    assert form.fields[f"use.{gauge.id}"] == "yes"
    fields = {key: value for key, value in form.fields.items() if key != f"use.{gauge.id}"}
    browser.post(form.action, {**fields, "have.multimeter": "yes", "have.spare-lead": "yes"})
    seen = visit_page(given, visit.rpartition("/")[2])
    assert seen.instruments == ()
    assert seen.visit.instruments.have == ("multimeter", "spare-lead")
    assert on_van(given).instruments == (gauge.id,)


def test_what_is_on_the_van_is_kept_by_its_own_form(given: Given, browser: Browser) -> None:
    """Unmarked, the gauge stays at home; the next visit does not take it."""
    add(browser, "gauge", range="0..160 psi")
    form = browser.get("/instruments").page.form("/instruments")
    (gauge,) = instruments(given)
    fields = {key: value for key, value in form.fields.items() if key != f"use.{gauge.id}"}
    browser.post(form.action, {**fields, "have.gauge": "yes"})
    assert on_van(given).instruments == ()
    begin(browser)
    assert on_van(given).have == ("gauge",)


def test_what_is_no_instrument_has_no_page(browser: Browser) -> None:
    """Neither an unknown id nor a kind that nobody measures with."""
    assert browser.get("/instruments/nothing").status == 404
    assert browser.get("/instruments/new-rod").status == 404
