"""Handing over and taking in by pages: a file leaves one home and is taken in by another, which says what came."""

from __future__ import annotations

import io
import zipfile
from dataclasses import replace

import pytest

from steadyhead.service.record.erasing import erase_customer
from steadyhead.service.record.finding import find
from steadyhead.service.record.given import Given
from steadyhead.service.record.pages import visit_page
from steadyhead.service.record.photos import add_photo
from steadyhead.service.record.readings import Kept, add_reading, correct_reading
from steadyhead.service.record.visits import end_visit, start_visit
from steadyhead.visit.archive import Archive, archive_bytes
from steadyhead.web.app import make_app
from tests.record.bench import fact
from tests.record.device import Device
from tests.service.photos.made import jpeg
from tests.web.client import Answer, Browser
from tests.web.test_joining import Served
from tests.web.test_photos import BORDER, packed

PLATE = {"signal": "0.5..4.5 V ratiometric", "range": "0..100 psi"}


@pytest.fixture
def phone() -> Device:
    """Return a phone."""
    return Device(seed=7)


def on_phone(device: Device) -> Browser:
    """Return a browser in which the app's home is a phone's."""
    return Browser(make_app(replace(device.given, author="Ben"), phone=True))


def take_in(browser: Browser, data: bytes, name: str = "a.visit", **more: str) -> Answer:
    """Send a file by the form of the page that takes files in."""
    form = browser.get("/take-in").page.form("/take-in")
    fields = {key: value for key, value in form.filled(**more).items() if key != "file"}
    return browser.post_bytes(form.action, packed(fields, data, name), f"multipart/form-data; boundary={BORDER}")


def read(device: Device, visit: str, value: str) -> str:
    """Take a gauge reading."""
    kept = add_reading(device.given, visit, {"measure": "gauge-pressure", "value": value})
    assert isinstance(kept, Kept)
    return kept.id


def test_a_visit_leaves_a_phone_as_a_file_and_the_laptop_says_what_came(
    phone: Device, given: Given, browser: Browser
) -> None:
    """Two facts begin a visit (it and its system), one reading, one photo: four entries."""
    visit = start_visit(phone.given, {"text": "Pump hunts"}, sensor=PLATE, name="Molina <Café>")
    read(phone, visit, "48 psi")
    add_photo(phone.given, visit, jpeg())
    page = on_phone(phone).get(f"/visits/{visit}/hand-over").page
    assert page.links["Save the file"] == f"/visits/{visit}/hand-over/file"
    saved = on_phone(phone).get(page.links["Save the file"])
    assert saved.headers["content-disposition"] == 'attachment; filename="molina-cafe-2026-05-04.visit"'
    said = take_in(browser, saved.body).page
    assert "New entries: 4." in said.said
    assert "New photos: 1." in said.said
    assert said.links["Molina <Café>"] == f"/visits/{visit}"
    assert visit_page(given, visit).visit.complaint.text == "Pump hunts"
    again = take_in(browser, saved.body).page
    assert "Nothing new: all of it was here already." in again.said


def test_everything_of_a_phone_is_taken_in_by_a_laptop_and_the_reverse(
    phone: Device, given: Given, browser: Browser
) -> None:
    """Two visits there, one here; afterwards each has three."""
    for name in ("One", "Two"):
        add_photo(phone.given, start_visit(phone.given, {}, sensor=PLATE, name=name), jpeg())
    start_visit(given, {}, sensor=PLATE, name="Three")
    from_phone = on_phone(phone).get("/hand-over/everything/1")
    assert from_phone.headers["content-disposition"].endswith('.visits"')
    assert "New entries: 6." in take_in(browser, from_phone.body, "a.visits").page.said
    there = on_phone(phone)
    assert "New entries: 2." in take_in(there, browser.get("/hand-over/everything/1").body, "b.visits").page.said
    with given.reading() as work:
        here = {each.id: each for each in work.facts()}
    assert here == dict(phone.store.facts)


def test_what_two_devices_changed_is_shown_as_a_conflict_and_leads_to_where_it_is_settled(
    phone: Device, given: Given, browser: Browser
) -> None:
    """The gauge was read once, and corrected otherwise on each."""
    visit = start_visit(phone.given, {}, sensor=PLATE, name="Molina")
    reading = read(phone, visit, "48 psi")
    take_in(browser, on_phone(phone).get(f"/visits/{visit}/hand-over/file").body)
    correct_reading(phone.given, visit, reading, {"value": "46 psi"})
    correct_reading(given, visit, reading, {"value": "41 psi"})
    page = take_in(browser, on_phone(phone).get(f"/visits/{visit}/hand-over/file").body).page
    assert "Two devices say different things" in page.said
    assert "46 psi" in page.said
    assert "41 psi" in page.said
    assert f"/visits/{visit}/readings/{reading}" in page.links.values()
    assert browser.get(f"/visits/{visit}/readings/{reading}").status == 200


def test_an_erasing_comes_along_and_what_was_erased_stays_so(phone: Device, given: Given, browser: Browser) -> None:
    """Erased at the phone after the laptop had it; and the file from before, taken in once more."""
    start_visit(phone.given, {"text": "secret"}, sensor=PLATE, name="Molina")
    before = on_phone(phone).get("/hand-over/everything/1").body
    take_in(browser, before, "a.visits")
    (system,) = find(phone.given, "molina").systems
    erase_customer(phone.given, system.id)
    after = take_in(browser, on_phone(phone).get("/hand-over/everything/1").body, "b.visits")
    assert "Erased on the other device, and so here: 2 entries." in after.page.said
    assert "Nothing new" in take_in(browser, before, "a.visits").page.said
    fresh = Device(seed=9)
    third = on_phone(fresh)
    take_in(third, on_phone(phone).get("/hand-over/everything/1").body, "b.visits")
    take_in(third, before, "a.visits")
    assert find(fresh.given, "molina").nothing
    assert "secret" not in str([each.body for each in fresh.store.facts.values()])
    assert find(given, "molina").nothing


def test_what_a_newer_version_wrote_is_told_by_name_and_passed_on(browser: Browser) -> None:
    """A kind and a part that nobody knows yet."""
    data = archive_bytes(Archive(facts=(fact(7, "echo-sounding", body={"depth": "12 m"}),)))
    stream = io.BytesIO(data)
    with zipfile.ZipFile(stream, "a") as packed:
        packed.writestr("sound.wav", b"x")
    said = take_in(browser, stream.getvalue(), "new.visits").page.said
    assert "echo-sounding" in said
    assert "sound.wav" in said
    back = browser.get("/hand-over/everything/1").body
    assert b'"depth":"12 m"' in back


@pytest.mark.parametrize(
    ("data", "name", "says"),
    [
        (b"", "", "Choose a file first"),
        (b"PK\x03\x04 and no more", "a.visit", "a.visit is damaged"),
        (jpeg(), "<b>IMG</b>.jpg", "&lt;b&gt;IMG&lt;/b&gt;.jpg"),
        (b'[sensor]\nsignal = "5"\n', "note.toml", "Not kept"),
    ],
)
def test_a_wrong_file_is_refused_in_words_and_changes_nothing(
    given: Given, browser: Browser, data: bytes, name: str, says: str
) -> None:
    """Nothing chosen, a broken one, a photo, a text whose plate cannot be; 422 each time."""
    answer = take_in(browser, data, name)
    assert answer.status == 422
    assert says in answer.text
    with given.reading() as work:
        assert work.facts() == ()


def test_a_visit_file_by_hand_is_taken_in_by_the_page_too(given: Given, browser: Browser) -> None:
    """The tables of docs/visit-file.md; the same again is a visit of its own, since it has no ids."""
    text = b'schema = 1\n[sensor]\nsignal = "0.5..4.5 V ratiometric"\nrange = "0..100 psi"\n'
    said = take_in(browser, text, "farm.toml").page
    assert "New entries: 2." in said.said
    with given.reading() as work:
        assert {each.kind for each in work.facts()} == {"visit", "system"}


def test_the_first_page_of_a_phone_lists_what_has_ended_and_was_not_handed_over(phone: Device) -> None:
    """Not an open visit; gone once its file was saved; back with the next entry."""
    browser = on_phone(phone)
    visit = start_visit(phone.given, {}, sensor=PLATE, name="Molina")
    assert "Not handed over yet" not in browser.get("/").page.said
    end_visit(phone.given, visit, "watching")
    assert f"/visits/{visit}/hand-over" in browser.get("/").page.links.values()
    browser.get(f"/visits/{visit}/hand-over/file?for=share")
    assert "Not handed over yet" in browser.get("/").page.said
    browser.get(f"/visits/{visit}/hand-over/file")
    assert "Not handed over yet" not in browser.get("/").page.said
    assert "Handed over on 4 May 2026 07:09, as a file." in browser.get(f"/visits/{visit}/hand-over").page.said
    phone.clock.now += 60_000
    read(phone, visit, "48 psi")
    assert "Not handed over yet" in browser.get("/").page.said
    form = browser.get(f"/visits/{visit}/hand-over").page.form("/hand-over")
    assert "by sharing" in browser.post(form.action, form.filled()).page.said
    assert "Not handed over yet" not in browser.get("/").page.said


def test_a_laptop_reminds_nobody_and_a_visit_that_came_need_not_be_handed_back(
    phone: Device, given: Given, browser: Browser
) -> None:
    """The laptop is where it is handed over to; the phone that took one in has it from there."""
    visit = start_visit(given, {}, sensor=PLATE)
    end_visit(given, visit, "watching")
    assert "Not handed over yet" not in browser.get("/").page.said
    there = on_phone(phone)
    take_in(there, browser.get(f"/visits/{visit}/hand-over/file").body)
    assert "Not handed over yet" not in there.get("/").page.said
    assert "it came from there" in there.get(f"/visits/{visit}/hand-over").page.said


def test_who_joined_from_a_phone_is_handed_no_file_of_everything(given: Given) -> None:
    """It holds every customer; a visit's own file is no more than its pages."""
    served = Served(given)
    visit = start_visit(given, {}, sensor=PLATE)
    phone = served.joined()
    assert phone.get("/hand-over/everything/1").status == 404
    assert "handed to whoever sits at this device alone" in phone.get("/hand-over").page.said
    assert phone.get(f"/visits/{visit}/hand-over/file").status == 200
    assert served.here.get("/hand-over/everything/1").status == 200


@pytest.mark.parametrize("part", ["0", "2", "-1", "x", "99999999999999", "1.5", "²"])
def test_a_part_of_everything_that_is_none_is_not_there(browser: Browser, part: str) -> None:
    """There is one."""
    assert browser.get(f"/hand-over/everything/{part}").status == 404


def test_on_a_phone_settings_lead_to_handing_over_and_offer_no_file_of_the_database(phone: Device) -> None:
    """Nobody could put it back there: restoring is a command."""
    browser = Browser(make_app(replace(phone.given, copy=lambda: b"all"), phone=True))
    page = browser.get("/settings").page
    assert "/settings/copy" not in page.links.values()
    assert "/hand-over" in page.links.values()
