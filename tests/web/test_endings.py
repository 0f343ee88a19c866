"""How a visit ends, by its pages: one tap each, what is lacking said, what comes back first on the first page."""

from __future__ import annotations

import pytest

from steadyhead.service.record.given import Given
from steadyhead.service.record.pages import visit_page
from steadyhead.web.app import make_app
from tests.record.bench import ToldClock
from tests.record.device import Device
from tests.web.client import Answer, Browser, Form, Page
from tests.web.visiting import three_taps


def ending_form(page: Page, state: str) -> Form:
    """Return the form of one ending."""
    return next(form for form in page.forms if form.fields.get("state") == state)


def end(browser: Browser, visit: str, state: str, **more: str) -> Answer:
    """End a visit by its form, as it stands but for what is typed."""
    form = ending_form(browser.get(f"{visit}/end").page, state)
    return browser.post(form.action, form.filled(**more))


@pytest.mark.parametrize(
    ("state", "more"),
    [
        ("proved-on-site", {}),
        ("night-pending", {"ring": "555 0100"}),
        ("watching", {}),
        ("made-safe", {"off.pump": "pump", "locked": "yes", "told": "Ms Ruiz"}),
        ("declined", {"by": "Mr Dahl", "offered": "a new sensor"}),
    ],
)
def test_each_ending_is_one_form_with_what_it_needs_and_nothing_more(
    browser: Browser, given: Given, visit: str, state: str, more: dict[str, str]
) -> None:
    """What the form holds already does but for what is typed; the visit then says how it ended, on its page too."""
    assert end(browser, visit, state, **more).status == 200
    seen = visit_page(given, visit.rpartition("/")[2])
    assert seen.state == state
    said = browser.get(visit).page.said
    assert all(text in said for text in more.values() if text not in {"pump", "yes", "555 0100"})
    assert "Go on with this visit" in said


def test_every_ending_stands_on_the_page_with_its_caution(browser: Browser, visit: str) -> None:
    """Six of them; where one can hurt, that is said before its button."""
    said = browser.get(f"{visit}/end").page.said
    endings = ("Proved on site", "night still to come", "watch it", "Off, made safe", "customer declines", "temporary")
    assert [text for text in endings if text not in said] == []
    assert "dialysis" in said
    assert "start by itself" in said


def test_what_is_lacking_is_said_and_nothing_typed_is_lost(browser: Browser, visit: str) -> None:
    """Declined by nobody: the page again, with 422 and what was typed."""
    form = ending_form(browser.get(f"{visit}/end").page, "declined")
    answer = browser.post_only(form.action, form.filled(by="", offered="a new sensor, 400"))
    assert answer.status == 422
    assert "Nothing is kept yet: who declined?" in answer.page.said
    assert ending_form(answer.page, "declined").fields["offered"] == "a new sensor, 400"


def test_a_visit_without_a_night_can_still_be_closed(browser: Browser, given: Given, visit: str) -> None:
    """Nothing was read and nothing mended: it ends as its technician says, and is not called proved."""
    assert "No repair was entered" in browser.get(f"{visit}/end").page.said
    end(browser, visit, "proved-on-site", fault="sensor-low")
    seen = visit_page(given, visit.rpartition("/")[2])
    assert (seen.state, seen.visit.closed.fault, seen.visit.closed.proved) == ("proved-on-site", "sensor-low", False)


def test_what_comes_back_stands_first_on_the_first_page_and_opens_at_its_next_step(
    browser: Browser, visit: str
) -> None:
    """A night that is due tomorrow; its line leads to where the card is put in, and from there it can be put off."""
    end(browser, visit, "night-pending")
    page = browser.get("/").page
    assert page.said.index("Night test") < page.said.index("What do you see?")
    step = browser.get(next(link for text, link in page.links.items() if text.startswith("Night test")))
    assert "From the customer's card" in step.page.said
    later = browser.get(step.page.links["Another day, or needed no more"])
    assert "tomorrow" in later.page.said
    form = later.page.form("/open")
    assert "Night test" not in browser.post(form.action, form.fields).page.said


def test_what_is_overdue_is_marked_in_words(browser: Browser, given: Given, visit: str) -> None:
    """Three days later."""
    end(browser, visit, "night-pending")
    clock = given.clock
    assert isinstance(clock, ToldClock)
    clock.now += 3 * 24 * 3600 * 1000
    assert "overdue by 2 days" in browser.get("/").page.said


def test_a_next_service_is_kept_in_the_list_and_not_on_the_first_page(browser: Browser, visit: str) -> None:
    """A year away: the first page only leads to the list."""
    form = browser.get(f"{visit}/follow-ups").page.form("/follow-ups")
    browser.post(form.action, form.filled(kind="next-service", due="2027-05-04", what="anodes"))
    page = browser.get("/").page
    assert "anodes" not in page.said
    listed = browser.get(page.links["All that comes back"])
    assert "anodes" in listed.page.said
    one = browser.get(next(link for text, link in listed.page.links.items() if text.startswith("Next service")))
    done = one.page.form(one.address)
    browser.post(done.action, done.filled(ended="done"))
    assert "Nothing comes back." in browser.get("/follow-ups").page.said


def test_a_day_that_has_passed_is_refused_and_what_was_typed_stays(browser: Browser, visit: str) -> None:
    """The clock of these tests stands on 2026-05-04."""
    form = browser.get(f"{visit}/follow-ups").page.form("/follow-ups")
    answer = browser.post_only(form.action, form.filled(due="2026-05-01", what="cable, 30 m"))
    assert answer.status == 422
    assert "2026-05-04 or later" in answer.page.said
    assert answer.page.form("/follow-ups").fields["what"] == "cable, 30 m"


def test_the_lists_say_how_a_visit_ended(browser: Browser, visit: str) -> None:
    """On the first page, in the list of closed visits."""
    end(browser, visit, "declined", by="Mr Dahl", offered="a new sensor")
    assert "The customer declined the repair" in browser.get("/").page.said


def test_a_state_of_a_newer_version_is_shown_as_it_is(browser: Browser, given: Given, visit: str) -> None:
    """A word that this version does not know: the lists, the visit's page and its papers stay readable."""
    with given.writing() as work:
        first = work.facts(about=visit.rpartition("/")[2])[0]
        pen = given.pen(work)
        work.add([pen.fact("visit", {**first.body, "state": "frozen-over"}, about=first.about, visit=first.about,
                           supersedes=(first.id,), after=first.id)])  # fmt: skip
        work.commit()
    for address in ("/", visit):
        assert "frozen-over" in browser.get(address).page.said
    assert browser.get(f"{visit}/papers/customer").status == 200


def test_two_devices_that_end_one_visit_differently_show_both_and_a_tap_settles_it() -> None:
    """The union's two heads, on the page of each device; the one that is chosen holds."""
    laptop, phone = Device(seed=1), Device(seed=2)
    first, second = Browser(make_app(laptop.given)), Browser(make_app(phone.given))
    visit = three_taps(first).address
    laptop.meets(phone)
    end(first, visit, "declined", by="Mr Dahl", offered="a new sensor")
    end(second, visit, "watching")
    laptop.meets(phone)
    for browser in (first, second):
        said = browser.get(visit).page.said
        assert "Two devices ended this visit differently" in said
        assert "The customer declined the repair" in said
        assert "Being watched" in said
        assert "two devices say different things" in browser.get("/").page.said
    form = second.get(visit).page.form("/settle")
    settled = second.post(form.action, form.filled(state="declined"))
    assert "Two devices" not in settled.page.said
    assert "Mr Dahl" in settled.page.said


def test_what_a_watched_visit_left_open_stands_on_the_next_one_until_it_is_left_out(
    browser: Browser, given: Given, visit: str
) -> None:
    """The next visit of the same system says the day, and by a tap that it does not count; by another that it does."""
    end(browser, visit, "watching")
    before = visit_page(given, visit.rpartition("/")[2])
    assert before.ending["believed"]
    page = browser.get(f"/systems/{before.system_id}").page
    form = page.form("/visits")
    after = browser.post(form.action, form.filled(complaint="reads-wrong"))
    assert "What the visit of 2026-05-04 left open counts here" in after.page.said
    form = after.page.form("/former")
    out = browser.post(form.action, form.filled(**{form.buttons[0][0]: form.buttons[0][1]}))
    assert "What the visit of 2026-05-04 left open does not count here" in out.page.said
    form = out.page.form("/former")
    again = browser.post(form.action, form.filled(**{form.buttons[0][0]: form.buttons[0][1]}))
    assert "left open counts here" in again.page.said
    assert visit_page(given, again.address.rpartition("/")[2]).visit.former.counts
