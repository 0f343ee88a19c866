"""Before the drive: the call, who depends on the water, what to load and why; the visit goes on from it."""

from __future__ import annotations

from typing import Any

import pytest

from steadyhead.diagnosis.estimates import SHIPPED, Estimates
from steadyhead.diagnosis.memory import Memory
from steadyhead.service.record.given import Given
from steadyhead.service.record.pages import visit_page
from steadyhead.service.record.times import judging_by, set_times
from steadyhead.visit.record import Visit
from steadyhead.web.views.before import packed
from tests.web.client import Answer, Browser
from tests.web.visiting import three_taps

#: What to load for a visit, over all tests here: the same visit has the same answer, always.
LOADED: dict[str, Any] = {}


def remembered(
    _: Memory, visit: Visit, estimates: Estimates = SHIPPED
) -> Any:  # noqa: ANN401 - values as JSON has them
    """Return the engine's own answer, worked out once for each visit and the estimates that hold."""
    key = repr((visit, estimates))
    if key not in LOADED:
        LOADED[key] = packed(Memory(), visit, estimates)
    return LOADED[key]


@pytest.fixture(autouse=True)
def _load_once(monkeypatch: pytest.MonkeyPatch) -> None:
    """Let pages that show the same visit share the engine's answer."""
    monkeypatch.setattr("steadyhead.web.pages.before.packed", remembered)


def call(browser: Browser, **typed: str) -> Answer:
    """Take a call on the first page."""
    form = browser.get("/").page.form("/calls")
    return browser.post(form.action, form.filled(**typed))


def keep(browser: Browser, answer: Answer, **typed: str) -> Answer:
    """Keep what the caller says."""
    form = answer.page.form("/before")
    return browser.post(form.action, form.filled(**typed))


def test_a_call_begins_a_visit_with_nothing_but_what_was_said(given: Given, browser: Browser) -> None:
    """Name and place are optional."""
    answer = call(browser)
    assert answer.address.endswith("/before")
    seen = visit_page(given, answer.address.split("/")[2])
    assert (seen.name, seen.assumed) == ("", ("sensor.signal", "sensor.range"))
    named = call(browser, name="Alder Farm")
    assert visit_page(given, named.address.split("/")[2]).name == "Alder Farm"


def test_what_the_caller_says_is_kept_and_the_visit_goes_on_from_it(given: Given, browser: Browser) -> None:
    """The words of a complaint; on arriving they stand in the visit."""
    answer = call(browser, name="Alder Farm")
    kept = {"shown.low-signal": "low-signal", "since": "sudden", "when": "rain", "changed.storm": "storm"}
    keep(browser, answer, text="no water since the storm", access="dog in the yard", **kept)
    seen = visit_page(given, answer.address.split("/")[2])
    said = seen.visit.complaint
    assert (said.text, tuple(said.shown), said.since, said.when) == (
        "no water since the storm", ("low-signal",), "sudden", "rain",
    )  # fmt: skip
    assert (seen.name, seen.access) == ("Alder Farm", "dog in the yard")
    assert browser.get(f"/visits/{seen.id}").status == 200


def test_what_to_load_is_what_the_engine_says_and_what_the_caller_says_moves_it(
    given: Given, browser: Browser
) -> None:
    """The use case behind `steadyhead pack`, of the same visit, in its order."""
    answer = call(browser)
    after = keep(browser, answer, **{"changed.storm": "storm", "shown.low-signal": "low-signal"})
    told = remembered(Memory(), visit_page(given, answer.address.split("/")[2]).visit)
    needed = [f"{100 * each['needed']:.0f} of 100 need it" for each in told["parts"] if each["load"]]
    places = [after.page.said.find(each) for each in needed]
    assert min(places) >= 0
    assert places[0] == min(places)
    assert "second trip" not in answer.page.said


def test_a_part_is_not_named_by_a_plate_that_nobody_read(browser: Browser, visit: str) -> None:
    """The commonest plate is assumed for the reckoning, and said to be; a plate that was read is named."""
    unread = keep(browser, call(browser)).page.said
    assert "Nobody has read the transducer's plate" in unread
    assert "Transducer, 0..100 psi" not in unread
    assert "Transducer, 0..100 psi, 0.5..4.5 V" in browser.get(f"{visit}/before?load=yes").page.said
    form = browser.get("/settings").page.form("/settings")
    browser.post(form.action, form.filled(unit="bar"))
    assert "Transducer, 0..6.89 bar (0..100 psi), 0.5..4.5 V" in browser.get(f"{visit}/before?load=yes").page.said


def test_who_depends_on_the_water_is_told_first_and_the_next_visit_knows(given: Given, browser: Browser) -> None:
    """DESIGN, section 10: people who depend on water warned before it goes off. It belongs to the system."""
    answer = call(browser)
    after = keep(browser, answer, **{"depends.dialysis": "dialysis"})
    assert "Tell them before the water goes off Home dialysis" in after.page.said.replace(" ! ", " ")
    visit = answer.address.split("/")[2]
    assert "Before the water goes off, tell: home dialysis." in browser.get(f"/visits/{visit}").page.said
    system = visit_page(given, visit).system_id
    again = call(browser, system=system)
    assert visit_page(given, again.address.split("/")[2]).depends == ("dialysis",)


def test_the_caller_is_asked_to_reset_nothing(browser: Browser) -> None:
    """TRADE: power-cycling wipes evidence."""
    assert "Do not reset or switch anything off" in call(browser).page.said


def test_the_same_form_twice_and_nothing_changed_makes_no_second_fact(given: Given, browser: Browser) -> None:
    """A wet thumb; somebody who only looks."""
    answer = call(browser)
    form = answer.page.form("/before")
    for _ in range(2):
        browser.post(form.action, form.filled(access="key at the neighbour's"))
    seen = visit_page(given, answer.address.split("/")[2])
    with given.reading() as work:
        assert len(work.facts(about=seen.system_id)) == 2
        assert len(work.facts(about=seen.id)) == 2


@pytest.mark.parametrize("system", ["x", "01KQRX467J39MMV97SZGY6V9EQ"])
def test_a_system_that_is_not_there_is_refused(browser: Browser, system: str) -> None:
    """Anybody's text."""
    form = browser.get("/").page.form("/calls")
    assert browser.post_only(form.action, form.filled(system=system)).status in {400, 404}


def test_the_page_of_a_visit_that_runs_loads_for_what_was_read(browser: Browser) -> None:
    """It can be opened at any time."""
    visit = three_taps(browser).address
    assert "second trip" in browser.get(f"{visit}/before?load=yes").page.said


def test_what_is_loaded_goes_by_the_times_that_hold_here(given: Given, browser: Browser) -> None:
    """What loading a part costs is weighed against the trip that it saves: dearer than that trip, nothing pays."""
    visit = three_taps(browser).address
    assert "of 100 need it" in browser.get(f"{visit}/before?load=yes").page.said
    set_times(given, {("trips", "loading"): "60", ("trips", "second-trip"): "30"})
    told = remembered(Memory(), visit_page(given, visit.split("/")[2]).visit, judging_by(given).estimates)
    assert not any(each["load"] for each in told["parts"])
    assert "of 100 need it" not in browser.get(f"{visit}/before?load=yes").page.said
