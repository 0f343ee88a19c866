"""Times and costs of one's own decide which check comes next; what is as shipped stays so."""

from __future__ import annotations

import pytest

from steadyhead.diagnosis.estimates import SHIPPED
from steadyhead.errors import CompanyFileError
from steadyhead.service.record.given import Given
from steadyhead.service.record.times import judging_by, set_times, times
from tests.web.client import Browser
from tests.web.visiting import read, three_taps

WALK = ("walk", "to-sensor")


def test_a_time_of_ones_own_holds_and_the_rest_is_as_shipped(given: Given) -> None:
    """A bare number is of minutes, a comma is a decimal sign, an hour is sixty."""
    set_times(given, {WALK: "12,5", ("repairs", "replace-sensor"): "1.5 h"})
    used = judging_by(given).estimates
    assert used.rows["walk"]["to-sensor"].value == pytest.approx(12.5)
    assert used.rows["repairs"]["replace-sensor"].value == pytest.approx(90.0)
    assert [(row.section, row.row) for row in times(given) if row.own] == [WALK, ("repairs", "replace-sensor")]


def test_what_is_typed_as_it_was_shipped_follows_the_shipped_one(given: Given) -> None:
    """Nothing of it is kept, so that a later version may know better."""
    set_times(given, {WALK: f"{SHIPPED.rows['walk']['to-sensor'].value:g} min"})
    assert judging_by(given).estimates is SHIPPED


@pytest.mark.parametrize("wrong", ["soon", "-3", "5 psi", "9999999"])
def test_what_is_no_time_is_refused_whole(given: Given, wrong: str) -> None:
    """No time, below nothing, another quantity, beyond what a row may say: what held before still holds."""
    set_times(given, {WALK: "7"})
    with pytest.raises(CompanyFileError):
        set_times(given, {WALK: wrong, ("walk", "back"): "2"})
    assert judging_by(given).estimates.rows["walk"]["to-sensor"].value == pytest.approx(7.0)
    assert judging_by(given).estimates.rows["walk"]["back"].value == SHIPPED.rows["walk"]["back"].value


def test_the_page_keeps_what_was_typed_and_says_how_many_are_ones_own(browser: Browser) -> None:
    """Emptied again, all is as shipped."""
    form = browser.get("/settings/times").page.form("/times")
    assert "1 of them are your own" in browser.post(form.action, form.filled(**{"walk.to-sensor": "12"})).page.said
    form = browser.get("/settings/times").page.form("/times")
    assert form.fields["walk.to-sensor"] == "12"
    assert "0 of them" in browser.post(form.action, form.filled(**{"walk.to-sensor": ""})).page.said


def test_what_is_no_time_stays_in_its_field_and_is_told(browser: Browser) -> None:
    """With the row that it stands in."""
    form = browser.get("/settings/times").page.form("/times")
    answer = browser.post(form.action, form.filled(**{"walk.to-sensor": "soon", "walk.back": "3"}))
    assert answer.status == 422
    fields = answer.page.form("/times").fields
    assert (fields["walk.to-sensor"], fields["walk.back"]) == ("soon", "3")
    assert "soon" in answer.page.said


def test_a_dear_repair_moves_what_the_page_says_of_the_next_check(given: Given, browser: Browser) -> None:
    """The minutes that a check saves are worked out anew with the times that hold now."""
    visit = three_taps(browser)
    before = read(browser, visit, "48").page.said
    set_times(given, {("trips", "second-trip"): "480", ("parts", "replace-board"): "900"})
    assert browser.get(visit.address).page.said != before
