"""The van by forms alone: put on the list, put right, held against a visit, fitted."""

from __future__ import annotations

import pytest

from steadyhead.service.record.given import Given
from steadyhead.service.record.pages import visit_page
from steadyhead.service.record.systems import set_system
from steadyhead.service.record.van import add_stock, stock_on_van
from steadyhead.service.record.van_fitted import parts_of_visit
from tests.record.test_van import LOOP, WIDE
from tests.web.client import Browser

TAPS = {"sensor.signal": "0.5..4.5 V ratiometric", "sensor.range": "0..150 psi"}


def put_on(browser: Browser, **more: str) -> str:
    """Put a sensor on the list by its form; return the page's words."""
    form = browser.get("/van/new").page.form("/van/new")
    return browser.post(form.action, form.filled(**{**TAPS, **more})).page.said


def test_two_taps_and_one_button_put_a_sensor_on_the_list(given: Given, browser: Browser) -> None:
    """Signal, range, Keep; it is called by them, and everything else is unknown."""
    assert "0..150 psi, 0.5..4.5 V ratiometric" in put_on(browser)
    (line,) = stock_on_van(given)
    assert line.sensor is not None
    assert (line.left, line.sensor.thread, line.sensor.approval) == (None, None, None)


def test_all_that_a_plate_says_can_be_put_in_and_comes_back(given: Given, browser: Browser) -> None:
    """What was typed stands on the page again."""
    more = {
        "name": "Red box", "count": "2", "sensor.accuracy": "0.5 %", "sensor.supply": "5 V", "build.thread": "1/4 NPT",
        "build.plug": "m12-a", "build.stands": "20 bar", "pins.supply": "brown", "approval.nsf-61": "yes",
        "adapters.G 1/4": "yes",
    }  # fmt: skip
    put_on(browser, **more)
    (line,) = stock_on_van(given)
    fields = browser.get(f"/van/{line.id}").page.form(f"/van/{line.id}").fields
    assert {key: fields.get(key) for key in more} == more
    assert line.sensor is not None
    assert line.sensor.adapters == ("G 1/4",)


def test_a_signal_and_a_range_as_they_are_printed_come_before_a_tap(given: Given, browser: Browser) -> None:
    """Another plate than the usual ones."""
    put_on(browser, **{"sensor.signal.own": "1..6 V", "sensor.range.own": "0..230 psi"})
    assert stock_on_van(given)[0].body["sensor"] == {"signal": "1..6 V", "range": "0..230 psi"}


@pytest.mark.parametrize(
    ("field", "typed", "said"),
    [
        ("sensor.range.own", "ten bar", "ten bar"), ("count", "two", "two is no count"), ("build.stands", "300", "300"),
        ("sensor.accuracy", "1 psi", "1 psi"),
    ],
)  # fmt: skip
def test_a_wrong_entry_shows_the_page_again_and_loses_nothing(
    given: Given, browser: Browser, field: str, typed: str, said: str
) -> None:
    """422; what was typed stands there, what is wrong is told, nothing is kept."""
    form = browser.get("/van/new").page.form("/van/new")
    answer = browser.post(form.action, form.filled(**{**TAPS, "name": "Red box", "note": "dented", field: typed}))
    assert answer.status == 422
    assert said in answer.page.said
    fields = answer.page.form("/van/new").fields
    assert (fields[field], fields["name"], fields["note"]) == (typed, "Red box", "dented")
    assert stock_on_van(given) == ()


def test_the_same_form_sent_twice_puts_one_on_the_list(given: Given, browser: Browser) -> None:
    """Its fact's id."""
    form = browser.get("/van/new").page.form("/van/new")
    for _ in range(2):
        browser.post(form.action, form.filled(**TAPS))
    assert len(stock_on_van(given)) == 1


def test_a_line_is_taken_off_the_list(given: Given, browser: Browser) -> None:
    """Its own button."""
    id_ = add_stock(given, WIDE)
    form = browser.get(f"/van/{id_}").page.form(f"/van/{id_}")
    assert "Nothing is on the list" in browser.post(form.action, form.filled(withdraw="yes")).page.said
    assert stock_on_van(given) == ()


def test_a_visit_shows_what_will_do_the_best_first_each_with_its_reason(
    given: Given, browser: Browser, visit: str
) -> None:
    """A house on 5 V: the wide one is to be looked at, the loop of 9 V never has its volts."""
    wide, loop = add_stock(given, WIDE), add_stock(given, LOOP)
    page = browser.get(f"{visit}/van").page
    links = [link for link in page.links.values() if link.startswith(f"{visit}/van/")]
    assert list(dict.fromkeys(links)) == [f"{visit}/van/{wide}", f"{visit}/van/{loop}"]
    assert "Look first" in page.said
    opened = browser.get(f"{visit}/van/{wide}").page.said
    assert "Enter the range 0 psi to 150 psi" in opened
    assert "Relieve the pressure before you open anything" in opened
    assert "1.5 times as wide" in opened or "1.5 times what it was" in opened or "1.5 % of the old span" in opened


def test_what_is_entered_has_the_drive_s_own_unit_in_brackets(given: Given, browser: Browser, visit: str) -> None:
    """Shown in bar: 150 psi is 10.3 bar; a drive whose range setting was read in kPa is set to 1030 kPa."""
    wide = add_stock(given, WIDE)
    form = browser.get("/settings").page.form("/settings")
    browser.post(form.action, form.filled(unit="bar"))
    said = browser.get(f"{visit}/van/{wide}").page.said
    assert "Range, high end 10.3 bar (150 psi)" in said
    assert "Range, low end 0 bar Range" in said
    system = visit_page(given, visit.rpartition("/")[2]).system_id
    set_system(given, system, {"controller": {"scaled": "0..700 kPa"}})
    assert "Range, high end 10.3 bar (1034 kPa)" in browser.get(f"{visit}/van/{wide}").page.said


def test_what_will_not_do_says_why_and_has_no_button(given: Given, browser: Browser, visit: str) -> None:
    """No approval for drinking water is a no."""
    id_ = add_stock(given, {**WIDE, "build": {"approval": ["none"]}})
    page = browser.get(f"{visit}/van/{id_}").page
    assert "Not approved for drinking water" in page.said
    assert [form for form in page.forms if form.action.endswith(id_)] == []


def test_one_tap_keeps_that_it_was_fitted_with_the_repair(given: Given, browser: Browser, visit: str) -> None:
    """The part, its serial number, the repair; one less on the van; sent twice it is kept once."""
    id_ = add_stock(given, WIDE)
    form = browser.get(f"{visit}/van/{id_}").page.form(f"/van/{id_}")
    sent = form.filled(serial="K-4471", lasts="permanent", entered="yes")
    assert [browser.post(form.action, sent).address for _ in range(2)] == [visit, visit]
    (part,) = parts_of_visit(given, visit.rpartition("/")[2])
    assert (part.serial, part.lasts) == ("K-4471", "permanent")
    seen = visit_page(given, visit.rpartition("/")[2])
    assert [each.body["remedy"] for each in seen.actions] == ["replace-sensor"]
    assert seen.tables["controller"]["scaled"] == "0..150 psi"
    assert "1 left" in browser.get("/van").page.said
    page = browser.get(f"{visit}/van").page
    assert "K-4471" in page.said
    out = page.form(f"{visit}/van")
    browser.post(out.action, out.filled(out=part.id))
    assert parts_of_visit(given, visit.rpartition("/")[2]) == ()


def test_the_van_is_two_taps_from_the_first_page(browser: Browser) -> None:
    """Its link, and its own button."""
    links = browser.get("/").page.links
    assert links["The van"] == "/van"
    assert browser.get("/van").page.links["Put one on the list"] == "/van/new"


@pytest.mark.parametrize("address", ["/van/01KQRX467JHX6XV8A99HSWY9BD", "/van/nothing"])
def test_what_is_not_on_the_van_is_told(browser: Browser, address: str) -> None:
    """404 in words."""
    assert browser.get(address).status == 404


def test_markup_in_a_name_stays_text(given: Given, browser: Browser, visit: str) -> None:
    """Nobody's name runs in a page."""
    id_ = add_stock(given, {**WIDE, "name": "<script>alert(1)</script>"})
    for address in ("/van", f"/van/{id_}", f"{visit}/van", f"{visit}/van/{id_}"):
        assert "<script>alert" not in browser.get(address).text
