"""Settings change what is read, never what is kept."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest

from steadyhead.errors import UnknownWordError
from steadyhead.service.record.given import Given
from steadyhead.service.record.manners import manner_of, set_manner
from steadyhead.service.record.pages import visit_page
from steadyhead.web.app import make_app
from steadyhead.words import USUAL, Manner
from tests.web.client import Answer, Browser
from tests.web.visiting import read, three_taps


def keep(browser: Browser, **chosen: str) -> Answer:
    """Choose in the settings."""
    form = browser.get("/settings").page.form("/settings")
    return browser.post(form.action, form.filled(**chosen))


def test_what_is_chosen_holds_on_every_page_and_is_shown_as_chosen(browser: Browser) -> None:
    """A choice is kept and told; the page shows it ticked the next time."""
    assert "Kept." in keep(browser, region="elsewhere", unit="bar", decimal=",").page.said
    form = browser.get("/settings").page.form("/settings")
    assert {key: form.fields[key] for key in ("region", "unit", "decimal")} == {
        "region": "elsewhere", "unit": "bar", "decimal": ",",
    }  # fmt: skip


def test_a_unit_is_read_everywhere_and_written_nowhere(given: Given, browser: Browser) -> None:
    """A plate of 0 to 100 psi read in bar: the gauge is asked in bar, the record keeps the plate as it was typed."""
    visit = three_taps(browser)
    before = visit_page(given, visit.address.rpartition("/")[2])
    keep(browser, unit="bar", decimal=",")
    page = browser.get(visit.address)
    assert page.page.form("/readings").fields["unit"] == "bar"
    after = read(browser, page, "3,3")
    assert "3,3 bar" in after.page.said
    assert visit_page(given, before.id).visit.sensor == before.visit.sensor
    assert visit_page(given, before.id).tables["sensor"] == before.tables["sensor"]


def test_a_decimal_comma_is_said_where_it_was_chosen(browser: Browser) -> None:
    """A healthy band of a half-way pressure is told with the reader's own sign."""
    first = three_taps(browser)
    read(browser, first, "48")
    address = f"{first.address}/read?red=controller.signal&black=controller.common"
    keep(browser, decimal=",")
    assert re.search(r"2,\d+ to 2,\d+ V", browser.get(address).page.said)
    keep(browser, decimal=".")
    assert re.search(r"2\.\d+ to 2\.\d+ V", browser.get(address).page.said)


WRONG = [("unit", "furlong"), ("language", "xx"), ("region", "mars"), ("decimal", "x")]


@pytest.mark.parametrize(("key", "word"), WRONG)
def test_a_word_that_nobody_knows_is_refused_and_changes_nothing(browser: Browser, key: str, word: str) -> None:
    """An unknown word is told as such; the settings stay as they were."""
    form = browser.get("/settings").page.form("/settings")
    answer = browser.post(form.action, {**form.fields, key: word})
    assert answer.status == 400
    assert word in answer.page.said
    assert browser.get("/settings").page.form("/settings").fields[key] == form.fields[key]


def test_who_joined_has_a_manner_of_their_own_and_until_then_this_devices(given: Given) -> None:
    """One phone reads bar, the laptop psi."""
    set_manner(given, "", Manner(region="elsewhere", unit="psi"))
    assert manner_of(given, "phone", USUAL) == Manner(region="elsewhere", unit="psi")
    set_manner(given, "phone", Manner(unit="bar"))
    assert manner_of(given, "phone", USUAL).unit == "bar"
    assert manner_of(given, "", USUAL).unit == "psi"


def test_a_word_from_a_newer_version_is_left_out_and_the_rest_holds(given: Given) -> None:
    """A unit and a key that this version does not know: the known ones are used all the same."""
    with given.writing() as work:
        work.set_setting("manner", '{"unit": "cubit", "region": "elsewhere", "voice": "deep"}')
        work.commit()
    assert manner_of(given, "", USUAL) == Manner(region="elsewhere")


def test_a_manner_is_refused_whole() -> None:
    """A unit that is none of those offered."""
    with pytest.raises(UnknownWordError, match="word-unknown"):
        Manner(unit="furlong")


def test_what_the_command_was_given_holds_until_somebody_chooses(given: Given) -> None:
    """`--region elsewhere` speaks of sensors; a choice on the page comes before it."""
    browser = Browser(make_app(replace(given), manner=Manner(region="elsewhere")))
    assert browser.get("/settings").page.form("/settings").fields["region"] == "elsewhere"
    keep(browser, region="north-america")
    assert browser.get("/settings").page.form("/settings").fields["region"] == "north-america"


@pytest.mark.parametrize(("unit", "said"), [("mH2O", "35.2 mH2O"), ("ftH2O", "115 ftH2O"), ("kPa", "345 kPa")])
def test_fifty_psi_is_said_in_each_unit(unit: str, said: str) -> None:
    """344.738 kPa; by the conventional column of water (9.80665 kPa a metre, NIST SP 811 B.8) 35.15 m, 115.3 ft."""
    assert Manner(unit=unit).speaker(pressure_unit="psi").render("{p:pressure}", {"p": 50 * 6894.757}) == said


def test_the_keypad_has_the_readers_own_decimal_sign(browser: Browser) -> None:
    """What it types is read either way; what it shows is what this reader writes."""
    visit = three_taps(browser).address
    assert 'data-text="."' in browser.get(visit).text
    keep(browser, decimal=",")
    text = browser.get(visit).text
    assert 'data-text=","' in text
    assert 'data-text="."' not in text
