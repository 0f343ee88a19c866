"""A visit by forms alone, as a browser without scripts makes it."""

from __future__ import annotations

from dataclasses import replace

import pytest

from steadyhead.service.record.given import Given
from steadyhead.service.record.pages import visit_page
from steadyhead.visit.record import Beyond, Figure, Spread
from tests.web.client import Answer, Browser, Form
from tests.web.visiting import begin, choose, elsewhere, read, three_taps


def test_the_first_useful_line_comes_after_three_taps(browser: Browser) -> None:
    """The issue: what is seen, which sensor, which range; then a check with its field."""
    page = three_taps(browser).page
    assert "Next check" in page.said
    assert "Gauge" in page.said
    assert [name for name in page.form("/readings").fields if name == "said"]


def test_two_taps_will_do_where_nobody_knows_the_plate(browser: Browser) -> None:
    """Unknown is normal: what needs no plate is asked, and nothing is judged."""
    page = choose(browser, begin(browser, "other"), "unknown").page
    assert "Nobody has read the transducer's plate yet" in page.said
    assert "Fault on the display" in page.said
    assert "What we know" not in page.said


def test_a_kept_reading_stands_on_the_page_and_moves_the_next_check(browser: Browser) -> None:
    """What was typed, in the unit beside the field; and the next question is another."""
    first = three_taps(browser)
    after = read(browser, first, "48")
    assert "48 psi" in after.page.said
    assert after.page.form("/readings").fields["check"] != first.page.form("/readings").fields["check"]


@pytest.mark.parametrize(
    ("typed", "expected"),
    [("OL", Beyond), ("2.1 to 2.6", Spread), ("-0.3", Figure), ("2,4", Figure)],
)
def test_what_meters_show_can_be_typed(given: Given, browser: Browser, typed: str, expected: type) -> None:
    """OL, a figure that jumps, a sign, a decimal comma: each becomes what the visit file holds for it."""
    visit = three_taps(browser).address
    elsewhere(browser, visit, ("controller.signal", "controller.common"), typed)
    (reading,) = visit_page(given, visit.rpartition("/")[2]).visit.readings
    assert isinstance(reading.value, expected)


def test_millivolts_and_kilohms_are_taken_with_the_unit_that_is_chosen(given: Given, browser: Browser) -> None:
    """2410 mV is 2.41 V."""
    visit = three_taps(browser).address
    page = browser.get(f"{visit}/read?red=controller.signal&black=controller.common").page
    form = page.form("/readings")
    browser.post_only(form.action, form.filled(said="2410", unit="mV"))
    (reading,) = visit_page(given, visit.rpartition("/")[2]).visit.readings
    assert isinstance(reading.value, Figure)
    assert reading.value.value == pytest.approx(2.41)


def test_what_cannot_be_read_is_told_and_stays_in_the_field(browser: Browser) -> None:
    """Nothing is guessed, nothing typed is lost."""
    answer = read(browser, three_taps(browser), "forty")
    assert answer.status == 422
    assert "Not kept." in answer.page.said
    assert answer.page.form("/readings").fields["said"] == "forty"
    assert "Nothing read yet." in browser.get(answer.address.rpartition("/")[0]).page.said


def test_an_empty_form_keeps_nothing(browser: Browser) -> None:
    """A thumb on the wrong button."""
    assert read(browser, three_taps(browser), "").status == 422


def test_a_likely_slip_is_asked_about_before_it_is_kept(given: Given, browser: Browser) -> None:
    """480 psi on a 0..100 psi system: a slip of the decimal sign; the technician's word stands in either way."""
    asked = read(browser, three_taps(browser), "480")
    visit = asked.address.split("/")[2]
    assert "Did you mean 48 psi?" in asked.page.said
    assert visit_page(given, visit).rows == ()
    form = asked.page.form("/readings")
    browser.post(form.action, form.filled(instead="48 psi"))
    assert [row.body["value"] for row in visit_page(given, visit).rows] == ["48 psi"]


def test_the_technicians_word_stands_against_a_doubt(given: Given, browser: Browser) -> None:
    """The same slip, confirmed."""
    asked = read(browser, three_taps(browser), "480")
    form = asked.page.form("/readings")
    browser.post(form.action, form.filled(confirmed="480 psi"))
    assert [row.body["value"] for row in visit_page(given, asked.address.split("/")[2]).rows] == ["480 psi"]


def test_a_form_that_is_sent_twice_keeps_one(given: Given, browser: Browser) -> None:
    """The id that was minted with the form."""
    first = three_taps(browser)
    read(browser, first, "48")
    again = read(browser, first, "48")
    assert again.status == 200
    assert len(visit_page(given, first.address.split("/")[2]).rows) == 1


def test_a_form_that_is_sent_again_with_another_figure_corrects_it(given: Given, browser: Browser) -> None:
    """Somebody went back, and typed the right figure into the old page."""
    first = three_taps(browser)
    read(browser, first, "48")
    read(browser, first, "46")
    (row,) = visit_page(given, first.address.split("/")[2]).rows
    assert (row.body["value"], [each.value for each in row.history]) == ("46 psi", ["48 psi"])


def test_two_tabs_that_answer_the_same_check_lose_nothing(given: Given, browser: Browser) -> None:
    """Two forms, two ids: two readings."""
    first = three_taps(browser)
    other = browser.get(first.address)
    read(browser, first, "48")
    read(browser, other, "47")
    assert [row.body["value"] for row in visit_page(given, first.address.split("/")[2]).rows] == ["48 psi", "47 psi"]


def test_a_reading_is_corrected_with_its_history_and_can_be_taken_out(given: Given, browser: Browser) -> None:
    """The record: what it said before stays."""
    after = read(browser, three_taps(browser), "48")
    visit = after.address.split("/")[2]
    row = visit_page(given, visit).rows[0].id
    page = browser.get(f"/visits/{visit}/readings/{row}").page
    form = page.forms[0]
    browser.post(form.action, form.filled(said="46.5"))
    assert "48 psi" in browser.get(f"/visits/{visit}/readings/{row}").page.said
    assert visit_page(given, visit).rows[0].body["value"] == "46.5 psi"
    out = browser.get(f"/visits/{visit}/readings/{row}").page.forms[1]
    browser.post(out.action, out.filled(out="yes"))
    assert visit_page(given, visit).visit.readings == ()


def test_two_devices_that_disagree_are_shown_and_settled_by_a_tap(given: Given, browser: Browser) -> None:
    """Two corrections of one fact, each made without knowing of the other: neither counts until somebody says which."""
    visit = read(browser, three_taps(browser), "48").address.split("/")[2]
    with given.writing() as work:
        (first,) = work.facts(visit=visit, kind="reading")
        for value in ("46 psi", "47 psi"):
            body = {**first.body, "value": value}
            work.add([replace(first, id=given.ids.new(), about=first.id, body=body, supersedes=(first.id,))])
        work.commit()
    page = browser.get(f"/visits/{visit}").page
    assert "Two devices disagree: 46 psi, 47 psi" in page.said
    assert visit_page(given, visit).visit.readings == ()
    form = browser.get(f"/visits/{visit}/readings/{first.id}").page.forms[0]
    browser.post(form.action, form.filled(head="47 psi"))
    (row,) = visit_page(given, visit).rows
    assert (row.body["value"], row.conflict) == ("47 psi", False)


def test_a_reading_that_was_taken_out_can_still_be_looked_up(given: Given, browser: Browser) -> None:
    """Nothing is lost: it stands beside the readings, and its page has its history."""
    visit = read(browser, three_taps(browser), "48").address.split("/")[2]
    row = visit_page(given, visit).rows[0].id
    form = browser.get(f"/visits/{visit}/readings/{row}").page.forms[1]
    browser.post(form.action, form.filled(out="yes"))
    assert "taken out" in browser.get(f"/visits/{visit}").page.said
    assert "48 psi" in browser.get(f"/visits/{visit}/readings/{row}").page.said


def test_a_check_that_cannot_be_done_here_is_not_asked_again(browser: Browser) -> None:
    """Declined is an answer."""
    first = three_taps(browser)
    form = first.page.form("/readings")
    after = browser.post(form.action, form.filled(cannot="yes"))
    assert after.status == 200
    assert after.page.form("/readings").fields["check"] != form.fields["check"]


def test_tapping_two_points_says_where_the_leads_are(browser: Browser) -> None:
    """Links alone: the first tap is the red lead's, the second the black one's."""
    visit = three_taps(browser).page
    red = browser.get(visit.links["Red lead on the signal terminal"])
    assert "Now tap the point of the black lead" in red.page.said
    both = browser.get(red.page.links["Black lead on the common terminal"])
    assert both.page.form("/readings").fields["check"] == "volts;connected;controller.signal;controller.common;;"


def test_gauge_and_display_can_be_read_again_at_any_time(given: Given, browser: Browser) -> None:
    """A gauge reading holds until the next one: the pressure may have moved."""
    first = three_taps(browser)
    read(browser, first, "48")
    link = browser.get(f"{first.address}/read").page.links["Gauge"]
    read(browser, browser.get(link), "3.4", unit="bar")
    rows = visit_page(given, first.address.split("/")[2]).rows
    assert [row.body["value"] for row in rows] == ["48 psi", "3.4 bar"]


def test_the_meter_in_the_signal_wire_needs_no_taps(given: Given, browser: Browser) -> None:
    """A two-wire system: red to the wire, black to the terminal, and nothing to choose."""
    visit = three_taps(browser, "4..20 mA", "0..10 bar").address
    form = browser.get(f"{visit}/read?arrangement=meter-in-signal").page.form("/readings")
    browser.post_only(form.action, form.filled(said="7.02"))
    (row,) = visit_page(given, visit.split("/")[2]).rows
    assert (row.body["measure"], row.body["value"]) == ("milliamps", "7.02 mA")


def test_a_signal_in_volts_has_no_meter_in_its_wire(browser: Browser) -> None:
    """Nor is the hook-up offered, nor taken from an address."""
    visit = three_taps(browser).address
    assert "Meter in the signal wire" not in browser.get(f"{visit}/read").page.said
    assert browser.get(f"{visit}/read?arrangement=meter-in-signal").status == 400


def test_a_repair_is_kept_and_its_proof_is_asked_for(browser: Browser) -> None:
    """After a repair the gauge is read first, since every other band hangs on it."""
    after = read(browser, three_taps(browser), "48")
    form = after.page.form("/repairs")
    page = browser.post(form.action, form.filled(remedy="repair-cable")).page
    assert page.form("/readings").fields["check"].startswith("gauge-pressure;")
    assert "A repair was made. This must read right before you leave." in page.said


def plate_of(browser: Browser, answer: Answer) -> Form:
    """Return the form of a visit's system: its plates, labels and settings."""
    return browser.get(answer.page.links["System"].replace("?", "/plate?")).page.form("/plate")


def test_labels_and_colours_of_this_panel_are_used_everywhere(browser: Browser) -> None:
    """A system's page: what was typed comes back in the drawing and in the words of the check."""
    first = three_taps(browser)
    form = plate_of(browser, first)
    kept = browser.post(form.action, form.filled(**{"labels.controller.signal": "AI 1", "name": "Fernhill Row"}))
    assert "AI 1" in kept.page.said
    assert "Fernhill Row" in kept.page.said


def test_a_plate_that_cannot_be_read_is_told_with_its_key_and_nothing_of_the_form_is_lost(browser: Browser) -> None:
    """The visit file's own rules."""
    form = plate_of(browser, three_taps(browser))
    answer = browser.post(form.action, form.filled(**{"cable.length": "12 volts", "name": "Fernhill Row"}))
    assert answer.status == 422
    assert "[cable] length" in answer.page.said
    fields = answer.page.form("/plate").fields
    assert (fields["name"], fields["cable.length"]) == ("Fernhill Row", "12 volts")


def test_why_tells_how_each_reading_moved_a_cause(browser: Browser) -> None:
    """One suspect in full, on demand."""
    page = read(browser, three_taps(browser), "48").page
    link = next(link for link in page.links.values() if "/why?" in link)
    said = browser.get(link).page.said
    assert "Before the first reading" in said
    assert "What would prove it or clear it" in said
