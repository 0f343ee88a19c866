"""The letterhead over papers, a copy of everything, and a customer who is erased."""

from __future__ import annotations

import re
from dataclasses import replace
from pathlib import Path

import pytest

from steadyhead.bootstrap import open_home, place_named
from steadyhead.errors import NotFoundError
from steadyhead.service.record.finding import find
from steadyhead.service.record.given import Given
from steadyhead.service.record.letterhead import letterhead, set_letterhead
from steadyhead.service.record.pages import visit_page
from steadyhead.service.record.systems import set_site
from steadyhead.service.record.visits import start_visit
from steadyhead.web.app import make_app
from tests.web.client import Answer, Browser
from tests.web.test_joining import Served
from tests.web.visiting import three_taps

PLATE = {"signal": "0.5..4.5 V ratiometric", "range": "0..100 psi"}


def keep(browser: Browser, **lines: str) -> Answer:
    """Fill in the letterhead."""
    form = browser.get("/settings").page.form("/letterhead")
    return browser.post(form.action, form.filled(**lines))


def test_the_letterhead_stands_over_a_paper_and_leaves_its_hash_alone(browser: Browser) -> None:
    """Invented lines; what the paper says is the same, and so is its hash."""
    visit = three_taps(browser).address
    before = browser.get(f"{visit}/papers/customer").text
    assert "Kept." in keep(browser, line1="Molina <pumps>", line2="tel 5550-0134").page.said
    after = browser.get(f"{visit}/papers/customer").text
    assert "<b>Molina &lt;pumps&gt;</b><br>tel 5550-0134" in after
    assert re.findall('data-hash="(.*?)"', before) == re.findall('data-hash="(.*?)"', after)
    keep(browser, line1="", line2="")
    assert browser.get(f"{visit}/papers/customer").text.count("issuer") == 0


def test_a_letterhead_is_plain_and_bounded(given: Given) -> None:
    """Control characters, a line of 500 signs and a fifth line."""
    set_letterhead(given, ("a\x1b[2J\tb", "x" * 500, "", "3", "4", "5"))
    assert letterhead(given) == ("a [2J b", "x" * 80, "3", "4")


def test_a_copy_of_everything_is_handed_out_and_opens_as_a_record(tmp_path: Path) -> None:
    """The bytes are a whole record: another home opens them, and the visit stands in it."""
    home = open_home(place_named(str(tmp_path / "record.db")))
    visit = start_visit(home.given, {"text": "Pump hunts"}, sensor=PLATE)
    answer = Browser(make_app(home.given)).get("/settings/copy")
    home.close()
    assert answer.status == 200
    assert answer.headers["content-disposition"].startswith("attachment")
    (tmp_path / "copy.db").write_bytes(answer.body)
    again = open_home(place_named(str(tmp_path / "copy.db")))
    assert visit_page(again.given, visit).visit.complaint.text == "Pump hunts"
    again.close()


def test_a_home_that_makes_no_copy_says_so_and_hands_none_out(browser: Browser) -> None:
    """A record on a server has its own tools."""
    assert "its own tools make its copies" in browser.get("/settings").page.said
    assert browser.get("/settings/copy").status == 404


def test_a_customer_is_erased_by_a_mark_and_a_tap_and_not_by_a_tap_alone(given: Given, browser: Browser) -> None:
    """The first tap without the mark erases nothing."""
    visit = start_visit(given, {"text": "Pump hunts"}, sensor=PLATE, name="Molina")
    (system,) = find(given, "molina").systems
    set_site(given, system.id, {"name": "Harbour yard"})
    form = browser.get(f"/systems/{system.id}/erase").page.form("/erase")
    answer = browser.post(form.action, {key: value for key, value in form.fields.items() if key != "sure"})
    assert answer.status == 422
    assert visit_page(given, visit).name == "Molina"
    assert "Erased." in browser.post(form.action, form.filled(sure="yes")).page.said
    with pytest.raises(NotFoundError):
        visit_page(given, visit)
    assert find(given, "molina").nothing
    with given.reading() as work:
        assert all("Harbour" not in str(fact.body) for fact in work.facts(kind="site"))


def test_a_site_with_another_system_stays(given: Given, browser: Browser) -> None:
    """Two systems at one site: the other one keeps its place."""
    start_visit(given, {}, sensor=PLATE, name="House")
    (house,) = find(given, "house").systems
    site = set_site(given, house.id, {"name": "Harbour yard"})
    start_visit(given, {}, sensor=PLATE, name="Barn")
    (barn,) = find(given, "barn").systems
    with given.writing() as work:
        fact = work.facts(about=barn.id)[-1]
        work.add([given.pen(work).fact("system", {**fact.body, "site": site}, about=barn.id, supersedes=(fact.id,))])
        work.commit()
    form = browser.get(f"/systems/{house.id}/erase").page.form("/erase")
    browser.post(form.action, form.filled(sure="yes"))
    assert [each.name for each in find(given, "harbour").systems] == ["Barn"]


def test_who_joined_from_a_phone_is_handed_no_copy_and_erases_nobody(given: Given) -> None:
    """A copy holds every customer, and what is erased comes back nowhere: both are for whoever sits at this device."""
    served = Served(replace(given, copy=lambda: b"all"))
    assert served.here.get("/settings/copy").body == b"all"
    phone = served.joined()
    assert phone.get("/settings/copy").status == 404
    assert "/settings/copy" not in phone.get("/settings").text
    visit = start_visit(given, {}, sensor=PLATE, name="Molina")
    (system,) = find(given, "molina").systems
    assert phone.get(f"/systems/{system.id}/erase").status == 404
    form = served.here.get(f"/systems/{system.id}/erase").page.form("/erase")
    key = phone.get("/settings").page.form("/settings").fields["form_key"]
    assert phone.post(form.action, {**form.filled(sure="yes"), "form_key": key}).status == 404
    assert visit_page(given, visit).name == "Molina"
