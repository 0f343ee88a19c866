"""A sensor check in the app, by its forms alone: begun, taken point by point, corrected, left, resumed, finished.

Figures: 0.5..4.5 V ratiometric over 0..100 psi, 5.00 V: 40 psi is 0.5 V + 4 V x 0.40 = 2.10 V; 0.04 V more is 1 psi.
"""

from __future__ import annotations

import re
from dataclasses import replace

import pytest

from steadyhead.service.record.given import Given
from tests.record.bench import ToldClock
from tests.web.client import Answer, Browser
from tests.web.visiting import begin_check, take_point, three_taps


@pytest.fixture
def visit(browser: Browser) -> str:
    """Return the address of a visit at a system of 0..100 psi."""
    return three_taps(browser).address


@pytest.fixture
def begun(browser: Browser, visit: str) -> Answer:
    """Return the page of a check that has no point yet."""
    return begin_check(browser, visit)


def figures(answer: Answer) -> list[list[str]]:
    """Return the rows of the points that count: what was read, and the error."""
    page = answer.text.partition('<table class="readings">')[2].partition("</table>")[0]
    rows = page.split("<tr>")[2:]
    return [[cell.partition("</td>")[0] for cell in row.split('<td class="v figures">')[1:]] for row in rows]


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


TABLE = "reference [psi];signal [V];supply [V]\n0;0,50;5,00\n40;2,14;5,00\n80;3,70;5,00\n40;2,10;5,00\n"


def multipart(fields: dict[str, str], file: tuple[str, bytes] | None = None) -> tuple[bytes, str]:
    """Return a form with a file as RFC 7578 has it, and its content type."""
    parts = [f'name="{name}"\r\n\r\n{value}'.encode() for name, value in fields.items()]
    if file is not None:
        parts.append(f'name="file"; filename="{file[0]}"\r\nContent-Type: text/csv\r\n\r\n'.encode() + file[1])
    body = b"".join(b"--edge\r\nContent-Disposition: form-data; " + part + b"\r\n" for part in parts)
    return body + b"--edge--\r\n", "multipart/form-data; boundary=edge"


def send_table(browser: Browser, begun: Answer, pasted: str = "", file: tuple[str, bytes] | None = None) -> Answer:
    """Send the form for a table of points."""
    form = browser.get(f"{begun.address}/table").page.form("/table")
    body, kind = multipart(form.filled(table=pasted), file)
    return browser.post_bytes(form.action, body, kind)


@pytest.mark.parametrize("as_file", [False, True])
def test_a_table_of_points_is_pasted_or_uploaded(browser: Browser, begun: Answer, as_file: bool) -> None:
    """Decimal commas; the directions are worked out from the pressures."""
    answer = send_table(browser, begun, "" if as_file else TABLE, ("run.csv", TABLE.encode()) if as_file else None)
    assert answer.address == begun.address
    assert figures(answer) == [["0.50 V", "0.0"], ["2.14 V", "+1.0"], ["3.70 V", "0.0"], ["2.10 V", "0.0"]]
    assert [link for link in answer.page.links if "40" in link] == ["\u25b2 40 psi", "\u25bd 40 psi"]


def test_a_table_with_mistakes_is_refused_whole_with_lines_and_stays_to_be_mended(
    browser: Browser, begun: Answer
) -> None:
    """The third line; nothing of it was kept, what was pasted stays."""
    wrong = TABLE.replace("40;2,14", "forty;2,14")
    answer = send_table(browser, begun, wrong)
    assert answer.status == 422
    assert "Line 3" in answer.page.said
    assert "forty;2,14" in answer.text
    assert figures(browser.get(begun.address)) == []


@pytest.mark.parametrize("file", [b"\xff\xfe\x00\x01", b"PK\x03\x04" + bytes(range(256)), b"", b"reference\n"])
def test_what_is_no_table_is_refused_in_words(browser: Browser, begun: Answer, file: bytes) -> None:
    """By what it holds, whatever its name says."""
    assert send_table(browser, begun, file=("points.csv", file)).status == 422
    assert figures(browser.get(begun.address)) == []


def test_a_table_that_is_too_large_is_refused(browser: Browser, begun: Answer) -> None:
    """More than a request may hold is not even read."""
    assert send_table(browser, begun, file=("points.csv", b"x" * 300_000)).status == 413


def test_a_table_from_elsewhere_changes_nothing(browser: Browser, begun: Answer) -> None:
    """Without this browser's key."""
    form = browser.get(f"{begun.address}/table").page.form("/table")
    body, kind = multipart({**form.fields, "form_key": "x", "table": TABLE})
    assert browser.post_bytes(form.action, body, kind).status == 400
    assert figures(browser.get(begun.address)) == []


#: A sensor that reads 4 psi high everywhere, up and down, on supply 5.00 V: 0.16 V too much.
HIGH = (("0", "0.66"), ("25", "1.66"), ("50", "2.66"), ("25", "1.66"), ("0", "0.66"))


def run_through(browser: Browser, begun: Answer, points: tuple[tuple[str, str], ...] = HIGH) -> Answer:
    """Take the points of a quick check; return its page."""
    answer = begun
    for reference, signal in points:
        answer = take_point(browser, answer, reference, signal)
    return answer


def test_the_house_call_sees_five_lines_and_a_door(browser: Browser, begun: Answer) -> None:
    """4 psi of 1 psi allowed: not good, its zero; the door leads to all figures."""
    answer = run_through(browser, begun)
    lines = answer.text.partition('id="res"')[2].partition('<div class="pair">')[0]
    assert lines.count("<p>") == 5
    assert "Not good: it reads 4 psi high" in answer.page.said
    assert "its zero has moved by 4 psi" in answer.page.said
    assert answer.page.links["All figures"] == f"{begun.address}/figures"


def test_all_figures_stand_behind_the_door(browser: Browser, begun: Answer) -> None:
    """By hand: zero error 4 psi, which is 4 % of span; span error nothing; the setting moves by 4 psi at both ends."""
    run_through(browser, begun)
    said = browser.get(f"{begun.address}/figures").page.said
    assert "Zero error 4 psi 4 %" in said
    assert "Span error 0 psi 0 %" in said
    assert "How badly it repeats" in said or "How good the gauge is" in said
    assert "A setting of the drive that would suit it" in said


def figure_links(answer: Answer) -> set[str]:
    """Return the addresses of the figures that a page names."""
    links = {known.get("href", "") for tag, known in answer.page.tags if tag == "a"}
    return {link for link in links if "figure=" in link}


def test_every_figure_tells_its_descent_down_to_what_was_read(browser: Browser, begun: Answer) -> None:
    """Every link of the page and of theirs: a formula with its inputs, or whence it was given."""
    run_through(browser, begun)
    waiting = figure_links(browser.get(f"{begun.address}/figures"))
    assert len(waiting) > 20
    seen: set[str] = set()
    whence: set[str] = set()
    while waiting:
        address = waiting.pop()
        seen.add(address)
        one = browser.get(address)
        assert one.status == 200, address
        inputs = figure_links(one)
        assert ("Formula" in one.page.said) != ("Where it comes from" in one.page.said)
        assert bool(inputs) <= ("Formula" in one.page.said)
        if "Where it comes from" in one.page.said:
            whence.add(one.page.said.partition("Where it comes from")[2])
        waiting |= inputs - seen
    assert any("point 3" in each for each in whence)
    assert len(seen) > 60


def test_a_setting_that_must_not_be_set_is_told_with_why(browser: Browser, begun: Answer) -> None:
    """Two points are too few to lay a setting through."""
    run_through(browser, begun, HIGH[:2])
    said = browser.get(f"{begun.address}/figures").page.said
    assert "Do not set it" in said
    assert "Write the old setting down" not in said


def test_a_check_without_points_has_no_figures_yet(browser: Browser, begun: Answer) -> None:
    """Nor any figure of a number."""
    assert "No point yet." in browser.get(f"{begun.address}/figures").page.said
    for number in ("1", "x", "-1", "o1", "9" * 50):
        assert browser.get(f"{begun.address}/figures?figure={number}").status == 404


def test_drift_stands_between_checks_of_one_serial_number(given: Given, browser: Browser, visit: str) -> None:
    """Zero at 1 psi, and 2 psi just a year (365.25 days) later: 1 psi a year."""
    addresses = []
    for signals in (("0.54", "1.54", "2.54"), ("0.58", "1.58", "2.58")):
        begun = begin_check(browser, visit, serial="K-9")
        addresses.append(begun.address)
        run_through(browser, begun, tuple(zip(("0", "25", "50"), signals, strict=True)))
        assert isinstance(given.clock, ToldClock)
        given.clock.now += 1461 * 86_400_000 // 4
    said = browser.get(f"{addresses[-1]}/figures").page.said
    assert "2 checks as found, from 2026-05-04 to 2027-05-04." in said
    assert "Drift of the zero in a year 1 psi" in said


def test_a_check_after_a_change_is_compared_with_the_one_as_found(browser: Browser, visit: str) -> None:
    """4 psi high as found, 1 psi after it: a change of -3 psi at each pressure, each with its descent.

    A later check as found, on another day, has nothing to do with it.
    """
    run_through(browser, begin_check(browser, visit, serial="K-9"))
    left = begin_check(browser, visit, serial="K-9", stage="as-left")
    run_through(browser, left, (("0", "0.54"), ("25", "1.54"), ("50", "2.54")))
    later = begin_check(browser, visit, serial="K-9", stage="as-found")
    run_through(browser, later, (("0", "0.50"), ("25", "1.50"), ("50", "2.50")))
    page = browser.get(f"{left.address}/figures")
    assert "Since it was found" in page.page.said
    assert page.page.said.partition("Since it was found")[2].count("4 psi 1 psi -3 psi") == 3
    change = browser.get(next(link for link in sorted(figure_links(page)) if "figure=o" in link))
    assert "mean-error as left - mean-error as found" in change.page.said
    assert {"4 psi", "1 psi"} <= set(change.page.links)


def test_the_rule_is_stated_and_can_be_chosen(browser: Browser, begun: Answer) -> None:
    """Each of the three; one that there is none of is refused; a figure's address keeps the rule."""
    run_through(browser, begun)
    address = f"{begun.address}/figures"
    assert "Decided with a guard band" in browser.get(address).page.said
    assert "Decided by the tolerance alone" in browser.get(f"{address}?rule=simple").page.said
    page = browser.get(f"{address}?rule=specific-risk")
    assert "chance of being wrong is under 5 %" in page.page.said
    assert all("rule=specific-risk" in link for link in figure_links(page))
    assert browser.get(f"{address}?rule=coin").status == 400


def test_the_lower_end_of_the_setting_can_stay(browser: Browser, begun: Answer) -> None:
    """Many house drives ask for the upper end only: it stays at 0 psi."""
    run_through(browser, begun)
    page = browser.get(browser.get(f"{begun.address}/figures").page.links["Leave the lower end as it is"])
    setting = page.page.said.partition("A setting of the drive")[2]
    assert "0 psi \u2026" in setting
    assert "Change both ends" in page.page.links


def test_a_monte_carlo_run_is_made_where_somebody_asks(browser: Browser, begun: Answer) -> None:
    """Its own line for each pressure; straight formulas, so both agree."""
    run_through(browser, begun)
    page = browser.get(f"{begun.address}/figures")
    assert "Both agree." not in page.page.said
    said = browser.get(page.page.links["Work it out once more by Monte Carlo"]).page.said
    assert said.count("Both agree.") == 3


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
