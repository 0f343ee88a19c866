"""A sensor check in the app, by its forms alone: begun, taken point by point, corrected, left, resumed, finished.

Figures: 0.5..4.5 V ratiometric over 0..100 psi, 5.00 V: 40 psi is 0.5 V + 4 V x 0.40 = 2.10 V; 0.04 V more is 1 psi.
"""

from __future__ import annotations

import re
from dataclasses import replace

import pytest

from steadyhead.service.record.given import Given
from tests.web.client import Answer, Browser
from tests.web.visiting import begin_check, figures, run_through, take_point, three_taps


def test_a_check_begins_with_the_plate_that_is_known(browser: Browser, visit: str) -> None:
    """Signal and range stand in the fields; one button begins."""
    form = browser.get(f"{visit}/sensor-check").page.form("/sensor-check")
    assert (form.fields["sensor.signal"], form.fields["sensor.range"]) == ("0.5..4.5 V ratiometric", "0..100 psi")
    assert (form.fields["stage"], form.fields["pressure_from"], form.fields["read_as"]) == (
        "as-found", "system", "signal",
    )  # fmt: skip
    answer = browser.post(form.action, form.fields)
    assert answer.status == 200
    assert answer.address.startswith("/sensor-checks/")


def test_the_first_line_says_what_can_be_decided_at_all(begun: Answer) -> None:
    """Before any point; without a word on the gauge it says what is missing instead."""
    assert "With this gauge you can convict only beyond" in begun.page.said


def test_a_gauge_of_which_nobody_knows_anything_decides_nothing_and_the_page_says_so(
    browser: Browser, visit: str
) -> None:
    """The points can be taken all the same."""
    answer = begin_check(browser, visit, **{"reference.grade": "", "reference.range": ""})
    assert "Nobody said how good the gauge is" in answer.page.said
    assert figures(take_point(browser, answer, "40", "2.14")) == [["2.14 V", "+1.0"]]


def test_points_are_taken_one_by_one_and_the_plan_goes_on(browser: Browser, begun: Answer) -> None:
    """Nothing is known of what the place stands: half of the range; a quick check has three levels (the plan's)."""
    assert "Point 1 of 5" in begun.page.said
    first = take_point(browser, begun, "0", "0.50")
    assert "Point 2 of 5 ▲ 25 psi on the gauge" in first.page.said
    second = take_point(browser, first, "24.6", "1.524")
    assert "Point 3 of 5 ▲ 50 psi on the gauge" in second.page.said
    assert figures(second) == [["0.50 V", "0.0"], ["1.524 V", "+1.0"]]


def test_a_plan_that_is_done_asks_whether_that_is_all(browser: Browser, begun: Answer) -> None:
    """Five points, then the button; one more can still be taken."""
    answer = begun
    for reference, signal, way in (
        ("0", "0.5", "up"), ("25", "1.5", "up"), ("50", "2.5", "up"), ("25", "1.5", "down"), ("0", "0.5", "down"),
    ):  # fmt: skip
        assert answer.page.form("/points").fields["direction"] == way
        answer = take_point(browser, answer, reference, signal)
    assert "All planned points are taken." in answer.page.said
    assert len(figures(answer)) == 5
    assert len(figures(take_point(browser, answer, "40", "2.1"))) == 6


def test_the_supply_counts_with_the_signal(browser: Browser, begun: Answer) -> None:
    """A ratiometric sensor on 4.80 V: 2.016 V is 0.42 of it, which is 40 psi."""
    assert figures(take_point(browser, begun, "40", "2.016", supply="4.80")) == [["2.016 V", "0.0"]]


def test_a_figure_with_its_own_unit_keeps_it(browser: Browser, begun: Answer) -> None:
    """2100 mV, and a gauge in bar: 2.758 bar is 40.0 psi (1 psi = 6894.757 Pa, NIST SP 811)."""
    assert figures(take_point(browser, begun, "2.758 bar", "2100 mV")) == [["2100 mV", "0.0"]]


def test_milliamps_and_the_display_have_their_own_fields(browser: Browser) -> None:
    """No supply beside a current; the display alone where that is what is read."""
    visit = three_taps(browser, "4..20 mA", "0..10 bar").address
    form = begin_check(browser, visit).page.form("/points")
    assert {"reference", "signal"} <= set(form.fields)
    assert "supply" not in form.fields
    scale = {"reference.range": "0..16 bar", "read_as": "displayed-pressure"}
    shown = begin_check(browser, visit, **scale)
    form = shown.page.form("/points")
    assert "signal" not in form.fields
    answer = browser.post(form.action, form.filled(reference="5", shown="5.1"))
    assert figures(answer) == [["5.1 bar", "+0.10"]]


@pytest.mark.parametrize(
    ("typed", "told"),
    [
        ({"reference": "forty", "signal": "2.1"}, "Gauge"),
        ({"reference": "40", "signal": "12 mA"}, "Signal"),
        ({"reference": "40", "signal": "2.1", "supply": "0"}, "Transducer power"),
        ({"reference": "", "signal": "2.1"}, "Gauge"),
        ({"reference": "40 bar", "signal": "2.1"}, "Gauge"),
        ({"reference": "40", "signal": "2.1", "supply": "501"}, "Transducer power"),
    ],
)
def test_a_wrong_entry_is_told_with_its_field_and_stays_in_the_form(
    browser: Browser, begun: Answer, typed: dict[str, str], told: str
) -> None:
    """Nothing typed is lost, nothing is kept."""
    form = begun.page.form("/points")
    answer = browser.post(form.action, form.filled(**{"supply": "5.00", **typed}))
    assert answer.status == 422
    assert f"<b>{told}</b>" in answer.text
    again = answer.page.form("/points")
    assert {name: again.fields[name] for name in typed} == typed
    assert figures(browser.get(begun.address)) == []


def test_the_same_form_sent_twice_keeps_one_point(browser: Browser, begun: Answer) -> None:
    """A wet thumb."""
    form = begun.page.form("/points").filled(reference="40", signal="2.1", supply="5")
    answers = [browser.post(begun.page.form("/points").action, form) for _ in range(2)]
    assert [figures(answer) for answer in answers] == 2 * [[["2.1 V", "0.0"]]]


def test_a_point_is_corrected_taken_out_and_let_in_again(browser: Browser, begun: Answer) -> None:
    """Its own page, with what it said before."""
    page = take_point(browser, begun, "40", "2.41")
    link = page.page.links["▲ 40 psi"]
    form = browser.get(link).page.forms[0]
    assert (form.fields["reference"], form.fields["signal"]) == ("40", "2.41")
    corrected = browser.post(form.action, form.filled(signal="2.14", direction="down"))
    assert figures(corrected) == [["2.14 V", "+1.0"]]
    assert "▽ 40 psi" in corrected.page.links
    assert "2.41 V" in browser.get(link).page.said
    out = browser.get(link).page.forms[1]
    gone = browser.post(out.action, out.filled(out="yes"))
    assert figures(gone) == []
    assert "taken out" in gone.page.said
    back = browser.get(link).page.forms[0]
    assert figures(browser.post(back.action, back.filled(back="yes"))) == [["2.14 V", "+1.0"]]


def test_a_wrong_correction_keeps_what_was_typed(browser: Browser, begun: Answer) -> None:
    """As on the check's page."""
    link = take_point(browser, begun, "40", "2.1").page.links["▲ 40 psi"]
    form = browser.get(link).page.forms[0]
    answer = browser.post(form.action, form.filled(signal="two"))
    assert answer.status == 422
    assert answer.page.forms[0].fields["signal"] == "two"


def test_a_check_is_left_and_resumed_from_today_and_from_the_system(browser: Browser, begun: Answer) -> None:
    """It stands there until it is finished."""
    take_point(browser, begun, "40", "2.1")
    assert begun.address in browser.get("/").page.links.values()
    resumed = browser.get(begun.address)
    assert figures(resumed) == [["2.1 V", "0.0"]]
    form = resumed.page.form("/state")
    finished = browser.post(form.action, form.filled(state="finished"))
    assert "Finished." in finished.page.said
    assert begun.address not in browser.get("/").page.links.values()
    assert begun.address in browser.get(finished.page.links["System"]).page.links.values()
    form = finished.page.form("/state")
    assert "▽ 25 psi on the gauge" in browser.post(form.action, form.filled(state="unfinished")).page.said


def test_a_check_is_taken_out_whole(browser: Browser, begun: Answer, visit: str) -> None:
    """Back to the visit that it belongs to."""
    form = begun.page.form("/state")
    assert browser.post(form.action, form.filled(out="yes")).address == visit
    assert begun.address not in browser.get("/").page.links.values()


def test_a_check_stands_alone_at_a_system(browser: Browser, visit: str) -> None:
    """From the system's page, without any visit open."""
    system = browser.get(visit).page.links["System"].partition("?")[0]
    form = browser.get(f"{system}/sensor-check").page.form("/sensor-check")
    answer = browser.post(form.action, form.fields)
    assert answer.address in browser.get(system).page.links.values()
    assert answer.page.links["Back"] == "/"


def test_what_a_check_is_compared_with_can_be_said_later(browser: Browser, begun: Answer) -> None:
    """The meter, with a wrong word first: told with its field, and what was typed stays."""
    form = browser.get(f"{begun.address}/setup").page.form("/setup")
    wrong = browser.post(form.action, form.filled(**{"meter.volts": "good", "serial": "K-1"}))
    assert wrong.status == 422
    assert "<b>Its accuracy on volts</b>" in wrong.text
    assert wrong.page.form("/setup").fields["serial"] == "K-1"
    form = wrong.page.form("/setup")
    answer = browser.post(form.action, form.filled(**{"meter.volts": "0.5 % + 2 x 0.01 V"}))
    assert answer.address == begun.address
    again = browser.get(f"{begun.address}/setup").page.form("/setup")
    assert (again.fields["meter.volts"], again.fields["reference.grade"]) == ("0.5 % + 2 x 0.01 V", "2A")


def test_certificates_are_typed_as_lists(browser: Browser, begun: Answer) -> None:
    """Parted by semicolons; as many corrections as readings."""
    form = browser.get(f"{begun.address}/setup").page.form("/setup")
    told = {
        "reference.certificate.expanded": "0.4 psi", "reference.certificate.at": "0 psi; 160 psi",
        "reference.certificate.correction": "0.1 psi",
    }  # fmt: skip
    assert browser.post(form.action, form.filled(**told)).status == 422
    told["reference.certificate.correction"] = "0.1 psi; -0.2 psi"
    assert browser.post(form.action, form.filled(**told)).status == 200
    again = browser.get(f"{begun.address}/setup").page.form("/setup")
    assert again.fields["reference.certificate.correction"] == "0.1 psi; -0.2 psi"


def test_a_later_check_begins_with_what_the_last_one_said(browser: Browser, visit: str) -> None:
    """Serial number and gauge."""
    begin_check(browser, visit, serial="K-4471")
    form = browser.get(f"{visit}/sensor-check").page.form("/sensor-check")
    assert (form.fields["serial"], form.fields["reference.grade"]) == ("K-4471", "2A")


@pytest.mark.parametrize("address", ["/sensor-checks/x", "/sensor-checks/x/setup", "/sensor-checks/x/points/y"])
def test_what_is_not_there_is_told_in_a_page(browser: Browser, address: str) -> None:
    """No id is believed."""
    assert browser.get(address).status == 404


def test_a_point_that_is_not_there_is_told_in_a_page(browser: Browser, begun: Answer) -> None:
    """Nor one of another check."""
    assert browser.get(f"{begun.address}/points/x").status == 404


def test_a_point_on_which_two_devices_disagree_is_shown_until_somebody_settles_it(
    given: Given, browser: Browser, begun: Answer
) -> None:
    """Another device's correction comes in beside this one's; a tap says which is right."""
    link = take_point(browser, begun, "40", "2.10").page.links["▲ 40 psi"]
    form = browser.get(link).page.forms[0]
    browser.post(form.action, form.filled(signal="2.14"))
    with given.writing() as work:
        (first, *_) = work.facts(about=link.rpartition("/")[2])
        other = replace(first, id=given.ids.new(), body={**first.body, "signal": "2.18 V"}, supersedes=(first.id,))
        work.add([other])
        work.commit()
    page = browser.get(begun.address)
    assert figures(page) == []
    assert "Two devices disagree" in page.page.said
    choice = browser.get(link).page.forms[0]
    assert [text for *_, text in choice.buttons] == ["▲ 40 psi  2.14 V  5.00 V", "▲ 40 psi  2.18 V  5.00 V"]
    settled = browser.post(choice.action, choice.filled(head="1"))
    assert figures(settled) == [["2.18 V", "+2.0"]]


def test_a_check_after_a_finished_one_of_the_same_visit_begins_as_after_a_change(browser: Browser, visit: str) -> None:
    """Until somebody says otherwise."""
    done = run_through(browser, begin_check(browser, visit))
    assert browser.get(f"{visit}/sensor-check").page.form("/sensor-check").fields["stage"] == "as-found"
    form = done.page.form("/state")
    browser.post(form.action, form.filled(state="finished"))
    assert browser.get(f"{visit}/sensor-check").page.form("/sensor-check").fields["stage"] == "as-left"


def test_the_next_pressure_stands_where_the_sensor_feels_it(browser: Browser, visit: str) -> None:
    """A gauge 20 m above the sensor: 0 psi on it are 28.4 psi below (a metre of water is 1.4223 psi, NIST SP 811)."""
    answer = begin_check(browser, visit, **{"conditions.height": "20 m"})
    x = float(answer.text.partition('class="comes" d="M')[2].split()[0])
    ticks = dict(re.findall(r'class="figures s13" x="([0-9.]+)" y="223" text-anchor="middle">([0-9]+)<', answer.text))
    places = {float(text): float(place) for place, text in ticks.items()}
    zero, forty = places[0.0], places[40.0]
    assert (x - zero) / (forty - zero) * 40.0 == pytest.approx(20 * 1.4223, abs=0.3)


def test_an_absolute_sensor_is_drawn_over_its_range_here(browser: Browser) -> None:
    """0..100 psi absolute begins a whole air below nothing on a gauge."""
    visit = three_taps(browser).address
    told = {"sensor.reference": "absolute", "sensor.range": "0..100 psia", "conditions.barometer": "14.7 psia"}
    answer = begin_check(browser, visit, **told)
    assert ">0<" in answer.text.partition('class="plot"')[2]
    assert ">100<" not in answer.text.partition('class="plot"')[2]
    assert figures(take_point(browser, answer, "25.3", "2.10")) == [["2.10 V", "0.0"]]
