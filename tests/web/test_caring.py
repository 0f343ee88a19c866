"""Cautions: in full until they were read, one tap for the page, then a line of names for the rest of the visit."""

from __future__ import annotations

import pytest

from steadyhead.service.record.given import Given
from steadyhead.service.record.pages import visit_page
from tests.web.client import Answer, Browser
from tests.web.visiting import begin_check, read, take_point, three_taps

STOP = "Stop the drive first"
ASKS = "Read. I'll heed them"
#: A check that hides the pressure from the drive: the drive is stopped for it, and the pump may start by itself.
UNPLUGGED = "read?arrangement=sensor-unplugged&red=controller.signal&black=controller.common"


def tap(browser: Browser, answer: Answer) -> Answer:
    """Tap that the cautions of a page were read."""
    form = answer.page.form("/cautions")
    name, value, _ = form.buttons[0]
    return browser.post(form.action, form.filled(**{name: value}))


def classes(answer: Answer, name: str, value: str) -> set[str]:
    """Return the classes of the last button of that name and value."""
    found = [known for tag, known in answer.page.tags if tag == "button" and known.get("name") == name]
    return set(next(each for each in reversed(found) if each.get("value") == value)["class"].split())


def test_what_can_hurt_is_told_in_full_with_one_tap_for_all(browser: Browser, visit: str) -> None:
    """The issue: cautions once per visit, acknowledged where they can hurt."""
    page = browser.get(f"{visit}/{UNPLUGGED}").page
    assert STOP in page.said
    assert "The pump can start by itself" in page.said
    assert [text for form in page.forms for _, _, text in form.buttons].count(ASKS) == 1


def test_the_tap_is_kept_once_a_visit_and_leads_back_to_the_same_check(
    given: Given, browser: Browser, visit: str
) -> None:
    """A fact for each caution; the form twice, a wet thumb, keeps no more."""
    before = browser.get(f"{visit}/{UNPLUGGED}")
    form = before.page.form("/cautions")
    name, value, _ = form.buttons[0]
    assert browser.post_only(form.action, form.filled(**{name: value})).headers["location"] == f"{visit}/{UNPLUGGED}"
    after = tap(browser, before)
    assert ASKS not in after.page.said
    assert "Read before: stop the drive first; the pump can start by itself" in after.page.said
    assert {"stop-the-drive", "starts-by-itself"} <= visit_page(given, visit.split("/")[2]).cautions
    with given.reading() as work:
        told = [fact.body["caution"] for fact in work.facts(visit=visit.split("/")[2], kind="caution-seen")]
    assert len(told) == len(set(told))


def test_read_once_a_caution_never_asks_again_and_its_sentence_can_be_opened(browser: Browser, visit: str) -> None:
    """Another check with the same danger: folded, with the names in sight and the sentence behind them."""
    tap(browser, browser.get(f"{visit}/{UNPLUGGED}"))
    other = f"{visit}/{UNPLUGGED.replace('controller.signal', 'controller.supply')}"
    page = browser.get(other).page
    assert ASKS not in page.said
    assert "stop the drive first" in page.said
    folded = [known for tag, known in page.tags if tag == "details" and known.get("class") == "care"]
    assert [("open" in each) for each in folded] == [False]
    assert STOP in page.said


def test_a_reading_that_was_kept_beside_it_counts_as_read(browser: Browser, visit: str) -> None:
    """Whoever does not tap and keeps the reading is not nagged either."""
    form = browser.get(f"{visit}/{UNPLUGGED}").page.form("/readings")
    browser.post(form.action, form.filled(said="0.02"))
    assert ASKS not in browser.get(f"{visit}/{UNPLUGGED}").page.said


def test_the_field_is_never_locked_and_keeping_is_quiet_until_the_tap(
    given: Given, browser: Browser, visit: str
) -> None:
    """One main action a page: first the cautions, then the reading; a figure that was read goes in either way."""
    before = browser.get(f"{visit}/{UNPLUGGED}")
    assert "quiet" in classes(before, "keep", "yes")
    assert "quiet" not in classes(tap(browser, before), "keep", "yes")
    form = before.page.form("/readings")
    browser.post(form.action, form.filled(said="0.02"))
    assert len(visit_page(given, visit.split("/")[2]).rows) == 1


def test_what_hurts_nobody_asks_for_no_tap(browser: Browser, visit: str) -> None:
    """Gauge and display are read with the covers on."""
    page = browser.get(visit).page
    assert ASKS not in page.said
    assert [form for form in page.forms if form.action.endswith("/cautions")] == []


def test_a_sensor_check_asks_once_and_then_begins_with_its_field(given: Given, browser: Browser, visit: str) -> None:
    """Its cautions belong to the visit, and those that were read there are not asked again."""
    begun = begin_check(browser, visit)
    assert "Never on a fire pump" in begun.page.said
    after = tap(browser, begun)
    assert after.address == begun.address
    assert ASKS not in after.page.said
    assert "no fire pump" in after.page.said
    assert "4 more" in after.page.said
    assert "fire-pump-refused" in visit_page(given, visit.split("/")[2]).cautions
    assert ASKS not in begin_check(browser, visit).page.said


def test_a_sensor_check_that_stands_alone_keeps_its_own(browser: Browser) -> None:
    """A sensor on a bench: no visit."""
    visit = three_taps(browser).address
    link = next(link for link in browser.get(visit).page.links.values() if link.startswith("/systems/"))
    system = link.partition("?")[0]
    form = browser.get(f"{system}/sensor-check").page.form("/sensor-check")
    begun = browser.post(form.action, form.filled(**{"reference.range": "0..160 psi", "reference.grade": "2A"}))
    assert ASKS in begun.page.said
    after = tap(browser, begun)
    assert ASKS not in after.page.said
    assert take_point(browser, after, "0", "0.52").status == 200


@pytest.mark.parametrize("told", ["x", "lock-out <script>", "stop-the-drive nothing"])
def test_a_caution_that_nobody_knows_is_refused(given: Given, browser: Browser, visit: str, told: str) -> None:
    """Anybody's text."""
    form = browser.get(f"{visit}/{UNPLUGGED}").page.form("/cautions")
    assert browser.post_only(form.action, form.filled(cautions=told)).status == 400
    assert visit_page(given, visit.split("/")[2]).cautions == frozenset()


@pytest.mark.parametrize("back", ["https://evil.example", "//evil.example", "/visits", "\\evil", "/visits/x\r\nA: b"])
def test_the_way_back_never_leads_out_of_the_visit(browser: Browser, visit: str, back: str) -> None:
    """An open redirect, and a header that is split (OWASP ASVS 4.0, 5.1.5, from memory)."""
    form = browser.get(f"{visit}/{UNPLUGGED}").page.form("/cautions")
    assert browser.post_only(form.action, form.filled(cautions="lock-out", back=back)).headers["location"] == visit


def test_the_next_check_is_not_worked_out_anew_for_a_tap(given: Given, browser: Browser, visit: str) -> None:
    """What the engine reads is the same before and after: one key."""
    id_ = visit.split("/")[2]
    read(browser, browser.get(visit), "48")
    before = visit_page(given, id_)
    tap(browser, browser.get(f"{visit}/{UNPLUGGED}"))
    after = visit_page(given, id_)
    assert (before.evidence, before.visit) == (after.evidence, after.visit)
    assert before.key != after.key
