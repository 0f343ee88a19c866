"""A repair by its pages: one tap, its parts, the list of what must be right, and what happens where it came back."""

from __future__ import annotations

from steadyhead.service.record.given import Given
from steadyhead.service.record.pages import visit_page
from steadyhead.service.record.readings import record_action
from steadyhead.service.record.repairs import details_of
from tests.web.client import Answer, Browser
from tests.web.visiting import read


def mend(browser: Browser, visit: str, **more: str) -> Answer:
    """Keep a repair by its form, a setting put right unless another is chosen."""
    form = browser.get(f"{visit}/repairs").page.form("/repairs")
    return browser.post(form.action, form.filled(remedy="correct-setting", **more))


def seen_of(given: Given, visit: str) -> object:
    """Return what the record holds of the first repair."""
    return visit_page(given, visit.rpartition("/")[2]).actions[0].body


def test_a_repair_is_kept_with_parts_and_who_said_yes(browser: Browser, given: Given, visit: str) -> None:
    """What was typed stands in the record and on the visit's page."""
    answer = mend(browser, visit, **{"place": "plug", "part.0": "plug", "serial.0": "P-7", "old.0": "P-1"},
                  authorised="Ms Ruiz", tugged="yes")  # fmt: skip
    body = seen_of(given, visit)
    assert [dict(part) for part in body["parts"]] == [{"part": "plug", "serial": "P-7", "old": "P-1"}]  # type: ignore[index]
    assert (body["authorised"], body["tugged"]) == ("Ms Ruiz", True)  # type: ignore[index]
    assert "plug; plug" in answer.page.said


def test_a_repair_with_more_parts_than_a_new_form_asks_for_keeps_them_all_where_it_is_put_right(
    browser: Browser, given: Given, visit: str
) -> None:
    """Five parts, as a command may tell them; the third's number is put right, and nothing else moves."""
    parts = [{"part": f"joint {number}", "serial": f"J-{number}"} for number in range(1, 6)]
    record_action(given, visit.rpartition("/")[2], "repair-cable", details_of({}, parts))
    repair = visit_page(given, visit.rpartition("/")[2]).actions[0].id
    form = browser.get(f"{visit}/repairs/{repair}").page.form(f"/repairs/{repair}")
    browser.post(form.action, form.filled(**{"serial.2": "J-33"}))
    kept = [dict(part) for part in seen_of(given, visit)["parts"]]  # type: ignore[index]
    assert kept == [*parts[:2], {"part": "joint 3", "serial": "J-33"}, *parts[3:]]


def test_the_page_lists_what_must_be_right_and_ticks_it(browser: Browser, visit: str) -> None:
    """Gauge and display after a setting: the gauge holds; 50 psi on the display is right."""
    said = mend(browser, visit).page.said
    assert "This must be right now" in said
    assert said.count("to be read") == 2
    answer = read(browser, read(browser, browser.get(visit), "50"), "50")
    assert "✓ right" in answer.page.said
    assert "to be read" not in answer.page.said


def test_what_is_not_right_counts_and_the_search_goes_on(browser: Browser, visit: str) -> None:
    """20 psi on the display against 50 on the gauge: said in words, with another check to make."""
    mend(browser, visit)
    answer = read(browser, read(browser, browser.get(visit), "50"), "20", confirmed="20")
    said = answer.page.said
    assert "not right" in said
    assert "leave it as it was read" in said
    assert answer.page.form("/readings").fields["check"] != ""


def test_one_tap_says_that_the_fault_came_back_and_nothing_is_called_proved(
    browser: Browser, given: Given, visit: str
) -> None:
    """The repair stays with its words; the visit is not offered to be closed."""
    mend(browser, visit)
    proved = read(browser, read(browser, browser.get(visit), "50"), "50")
    assert "Mended: all that must read right" in proved.page.said
    form = next(form for form in proved.page.forms if "/repairs/" in form.action)
    back = browser.post(form.action, form.filled(flag="came_back"))
    assert "the fault came back" in back.page.said
    assert "Mended: all that must read right" not in back.page.said
    assert visit_page(given, visit.rpartition("/")[2]).visit.actions == ()


def test_a_repair_is_corrected_on_its_own_page_with_what_it_said_before(
    browser: Browser, given: Given, visit: str
) -> None:
    """A serial number that was misread."""
    page = mend(browser, visit, **{"part.0": "transducer", "serial.0": "K-4471"}).page
    address = next(link for link in page.links.values() if "/repairs/" in link)
    form = browser.get(address).page.form(address)
    browser.post(form.action, form.filled(**{"serial.0": "K-4477"}))
    assert seen_of(given, visit)["parts"][0]["serial"] == "K-4477"  # type: ignore[index]
    assert "K-4471" in browser.get(address).page.said


def test_no_repair_chosen_is_refused_and_nothing_typed_is_lost(browser: Browser, visit: str) -> None:
    """The page again, with 422."""
    form = browser.get(f"{visit}/repairs").page.form("/repairs")
    answer = browser.post_only(form.action, form.filled(**{"serial.0": "K-4471", "place.words": "in the pit"}))
    assert answer.status == 422
    fields = answer.page.form("/repairs").fields
    assert (fields["serial.0"], fields["place.words"]) == ("K-4471", "in the pit")
