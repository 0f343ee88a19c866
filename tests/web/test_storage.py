"""What the app says of room and keeping, and what it does where there is no room left."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import suppress
from dataclasses import replace
from itertools import count
from pathlib import Path

import pytest

from steadyhead.bootstrap import Home, open_home, place_named
from steadyhead.errors import StoreFullError
from steadyhead.service.ports import RecordSize
from steadyhead.service.record.given import Given
from steadyhead.service.record.pages import visit_page
from steadyhead.service.record.readings import add_reading
from steadyhead.service.record.visits import start_visit
from steadyhead.store import engines
from steadyhead.web.app import make_app
from steadyhead.web.views.room import RESERVE
from tests.service.photos.made import jpeg
from tests.web.client import Browser
from tests.web.test_joining import Served
from tests.web.test_photos import send, shown
from tests.web.visiting import read, three_taps

MB = 1_000_000


def sized(given: Given, room: int | None, *, photos: int = 4, phone: bool = False) -> Browser:
    """Return a browser on a home with so much room, whose photos take 1 MB each."""
    told = RecordSize(total=3 * MB + 200_000, photos=photos, of_photos=photos * MB, room=room)
    return Browser(make_app(replace(given, size=lambda: told), phone=phone))


@pytest.fixture
def home(tmp_path: Path) -> Iterator[Home]:
    """Return a home on a real database."""
    made = open_home(place_named(str(tmp_path / "record.db")))
    yield made
    made.close()


def fill(home: Home) -> None:
    """Let the database grow no more, as a full disk does, and use up what its last pages still had."""
    other = start_visit(home.given, {"text": "Pump hunts"})
    with engines.bare(home.store.engine) as connection:
        pages = connection.exec_driver_sql("PRAGMA page_count").scalar_one()
        connection.exec_driver_sql(f"PRAGMA max_page_count={pages}")
    numbers = count()
    for size in (3000, 300, 30):
        with suppress(StoreFullError):
            while True:
                with home.writing() as work:
                    work.set_setting(f"filler{next(numbers)}", "x" * size)
                    work.commit()
    with suppress(StoreFullError):
        while True:
            add_reading(home.given, other, {"measure": "gauge-pressure", "value": "48 psi"}, confirmed=True)


def empty_again(home: Home) -> None:
    """Let it grow again."""
    with engines.bare(home.store.engine) as connection:
        connection.exec_driver_sql("PRAGMA max_page_count=1000000")


def test_the_size_of_the_record_and_the_room_on_the_disk_are_said_without_scripts(given: Given) -> None:
    """Powers of ten, as disks are sold (IEC 80000-13): 3 200 000 bytes are 3.2 MB."""
    page = sized(given, 31_000 * MB).get("/settings/storage").page
    assert "The record: 3.2 MB" in page.said
    assert "Photos in it: 4, together 4.0 MB" in page.said
    assert "Room left: 31 GB" in page.said
    assert "Will the browser keep it?" not in page.said


def test_a_phone_s_page_leaves_its_browser_s_room_and_promise_to_the_script(given: Given) -> None:
    """What Python is told of a disk inside a browser means nothing: it is not shown."""
    page = sized(given, 31_000 * MB, phone=True).get("/settings/storage").page
    assert "The record: 3.2 MB" in page.said
    assert "Room left" not in page.said
    for words in ("only a script can ask", "Add to Home Screen", "Ask it to promise", "may erase everything"):
        assert words in page.said


def test_a_home_that_cannot_tell_its_size_says_so(browser: Browser) -> None:
    """No figure is made up."""
    assert "nobody can tell" in browser.get("/settings/storage").page.said


def test_who_joined_from_a_phone_is_told_that_the_record_lives_elsewhere(given: Given) -> None:
    """The phone keeps nothing but what was typed; it is handed no copy."""
    phone = Served(given).joined()
    said = phone.get("/settings/storage").page.said
    assert "lives on the computer that serves this app" in said
    assert "Save a copy" not in said


def test_the_settings_lead_there(browser: Browser) -> None:
    """One tap."""
    assert browser.get("/settings").page.links["What this device keeps"] == "/settings/storage"


def test_the_size_is_that_of_the_file_and_of_its_photos(home: Home) -> None:
    """The file system's own figure, once the write-ahead log is written back."""
    browser = Browser(make_app(home.given))
    visit = three_taps(browser).address
    send(browser, visit, jpeg())
    engines.give_back(home.store.engine)
    size = home.size()
    assert size.total == home.place.file.stat().st_size
    assert size.photos == 1
    assert 0 < size.of_photos <= len(jpeg())
    assert size.room is not None


@pytest.mark.parametrize(
    ("room", "says"),
    [
        (RESERVE + 700 * MB, "Photos that still fit here: more than 500."),
        (RESERVE + 45 * MB, "Photos that still fit here: about 45."),
        (RESERVE + 3 * MB, "Little room left. Photos that still fit here: about 3."),
        (RESERVE, "no room left for a photo"),
        (0, "no room left for a photo"),
    ],
)
def test_the_pages_that_take_photos_say_first_how_many_still_fit(given: Given, room: int, says: str) -> None:
    """Photos of 1 MB each, after what is kept back: whole numbers."""
    browser = sized(given, room)
    visit = three_taps(browser).address
    for address in (f"{visit}/photos", f"{visit}/first-minute?at=photo"):
        text = browser.get(address).page.said
        assert says in text
        assert text.index(says) < text.index("Keep the photo")


def test_on_a_phone_the_script_is_given_what_it_needs_to_count(given: Given) -> None:
    """The same figures as are counted with here."""
    browser = sized(given, None, phone=True)
    visit = three_taps(browser).address
    (line,) = [known for tag, known in browser.get(f"{visit}/photos").page.tags if "data-photo-bytes" in known]
    assert (line["data-photo-bytes"], line["data-reserve"]) == (str(MB), str(RESERVE))


def test_a_reading_for_which_there_is_no_room_is_not_kept_and_what_was_typed_stays(home: Home) -> None:
    """SQLite is told that its file may not grow (PRAGMA max_page_count), as a full disk tells it."""
    browser = Browser(make_app(home.given))
    page = three_taps(browser)
    visit = page.address.rpartition("/")[2]
    fill(home)
    answer = read(browser, page, "48")
    assert answer.status == 422
    assert "nothing of this was kept. What was kept before is safe." in answer.page.said
    form = answer.page.form("/readings")
    assert form.fields["said"] == "48"
    assert visit_page(home.given, visit).rows == ()
    empty_again(home)
    assert browser.post(form.action, form.filled()).status == 200
    assert len(visit_page(home.given, visit).rows) == 1


def test_a_photo_for_which_there_is_no_room_is_refused_in_words_and_the_form_stays_filled(home: Home) -> None:
    """A photo needs many pages: the first one does not fit."""
    browser = Browser(make_app(home.given))
    visit = three_taps(browser).address
    fill(home)
    head, scan, rest = jpeg().partition(b"data\xff\x00")
    answer = send(browser, visit, head + bytes(500_000) + scan + rest, says="wet plug", shows="part")
    assert answer.status == 422
    assert "no room left on this device" in answer.page.said
    assert answer.page.form("/photos").fields["says"] == "wet plug"
    assert "record.db" not in answer.text
    assert shown(browser, visit) == []


def test_any_other_form_for_which_there_is_no_room_is_held_and_sent_again_by_a_tap(home: Home) -> None:
    """507 (RFC 4918, 11.5: insufficient storage); the same form, with the same id, once there is room."""
    browser = Browser(make_app(home.given))
    form = browser.get("/settings").page.form("/letterhead")
    fill(home)
    answer = browser.post(form.action, form.filled(line1="Fernhill <pumps>" * 5))
    assert answer.status == 507
    assert "nothing of this was kept" in answer.page.said
    held = answer.page.forms[0]
    empty_again(home)
    assert browser.post(held.action, held.filled()).status == 200
    assert browser.get("/settings").page.form("/letterhead").fields["line1"] == "Fernhill <pumps>" * 5
