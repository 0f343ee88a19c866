"""Photos of a visit: kept without where they were taken, shown, corrected, erased; and what attacks them."""

from __future__ import annotations

import re

import pytest

from steadyhead.service.photos.cleaned import cleaned
from steadyhead.service.record.given import Given
from steadyhead.service.record.pages import visit_page
from steadyhead.service.record.photos import LARGEST_PHOTO, LARGEST_PREVIEW, photos_of_system
from steadyhead.web.policy import LARGER, MOST_BYTES, most_bytes
from tests.service.photos.made import SECRETS, jpeg, png, webp
from tests.web.client import Answer, Browser
from tests.web.visiting import begin, three_taps

BORDER = "a-border-that-no-photo-holds"


def packed(fields: dict[str, str], photo: bytes, name: str = "IMG_0001.JPG", preview: bytes = b"") -> bytes:
    """Return a form with files as a browser packs it (RFC 7578): none from the camera, one chosen, its preview."""
    parts = [
        f'--{BORDER}\r\nContent-Disposition: form-data; name="{key}"\r\n\r\n{value}\r\n'.encode()
        for key, value in fields.items()
    ]
    for key, called, content in (("file", "", b""), ("file", name, photo), ("preview", "photo.jpg", preview)):
        head = f'--{BORDER}\r\nContent-Disposition: form-data; name="{key}"; filename="{called}"\r\n'
        parts.append(f"{head}Content-Type: image/jpeg\r\n\r\n".encode() + content + b"\r\n")
    return b"".join(parts) + f"--{BORDER}--\r\n".encode()


def send(browser: Browser, visit: str, photo: bytes, **fields: str) -> Answer:
    """Send a photo by the form of the page of photos."""
    form = browser.get(f"{visit}/photos").page.form("/photos")
    body = packed(form.filled(**fields), photo)
    return browser.post_bytes(form.action, body, f"multipart/form-data; boundary={BORDER}")


def shown(browser: Browser, visit: str) -> list[str]:
    """Return the addresses of the pictures that are listed."""
    page = browser.get(f"{visit}/photos").page
    return [known["src"].partition("?")[0] for tag, known in page.tags if tag == "img"]


@pytest.mark.parametrize(
    ("photo", "media_type"), [(jpeg(), "image/jpeg"), (png(), "image/png"), (webp(), "image/webp")]
)
def test_a_photo_is_kept_without_where_it_was_taken_and_served_as_what_it_is(
    browser: Browser, visit: str, photo: bytes, media_type: str
) -> None:
    """OWASP ASVS 4.0, 8.3 and 12.5 (from memory): no more is kept than is needed; a file is served as its own type."""
    assert send(browser, visit, photo, shows="wiring").status == 200
    (address,) = shown(browser, visit)
    answer = browser.get(address)
    assert answer.body == cleaned(photo, media_type)
    assert [secret for secret in SECRETS if secret in answer.body] == []
    assert answer.headers["content-type"] == media_type
    assert answer.headers["x-content-type-options"] == "nosniff"
    assert re.fullmatch(r'inline; filename="photo-[0-9A-Z]{26}\.(jpg|png|webp)"', answer.headers["content-disposition"])


def test_what_it_shows_is_kept_with_it_and_can_be_corrected(given: Given, browser: Browser, visit: str) -> None:
    """The list, the page of one, and the record."""
    assert "Plate, as found" in send(browser, visit, jpeg(), shows="plate", stage="as-found").page.said
    (picture,) = shown(browser, visit)
    one = picture.removesuffix("/picture")
    form = browser.get(one).page.forms[0]
    after = browser.post(form.action, form.filled(shows="part", stage="as-left", says="the new one"))
    assert "The new one, part, as left" in after.page.said
    (photo,) = visit_page(given, visit.split("/")[2]).photos
    assert (photo.body["shows"], photo.body["stage"], photo.body["says"]) == ("part", "as-left", "the new one")


def test_a_photo_is_as_left_once_a_repair_was_made(browser: Browser, visit: str) -> None:
    """What the form begins with."""
    assert browser.get(f"{visit}/photos").page.form("/photos").fields["stage"] == "as-found"
    repairs = browser.get(visit).page.form("/repairs")
    browser.post(repairs.action, repairs.filled(remedy="repair-cable"))
    assert browser.get(f"{visit}/photos").page.form("/photos").fields["stage"] == "as-left"


def test_a_photo_that_is_taken_out_is_gone_with_its_bytes(given: Given, browser: Browser, visit: str) -> None:
    """A face in the picture: erased, not hidden."""
    send(browser, visit, jpeg())
    (picture,) = shown(browser, visit)
    form = browser.get(picture.removesuffix("/picture")).page.forms[1]
    after = browser.post(form.action, form.filled(out="yes"))
    assert "No photo yet." in after.page.said
    assert browser.get(picture).status == 404
    with given.reading() as work:
        bodies = [fact.body for fact in work.facts(visit=visit.split("/")[2], kind="photo")]
    assert bodies == [{}]


def test_a_list_shows_the_small_picture_that_came_and_a_photo_s_page_its_own(browser: Browser, visit: str) -> None:
    """Cleaned as the photo is; gone with it."""
    form = browser.get(f"{visit}/photos").page.form("/photos")
    body = packed(form.filled(), png(), preview=jpeg())
    answer = browser.post_bytes(form.action, body, f"multipart/form-data; boundary={BORDER}")
    (small,) = [known["src"] for tag, known in answer.page.tags if tag == "img"]
    got = browser.get(small)
    assert (got.body, got.headers["content-type"]) == (cleaned(jpeg(), "image/jpeg"), "image/jpeg")
    assert [secret for secret in SECRETS if secret in got.body] == []
    assert browser.get(small.partition("?")[0]).body == cleaned(png(), "image/png")
    one = browser.get(small.partition("/picture")[0]).page.forms[1]
    browser.post(one.action, one.filled(out="yes"))
    assert browser.get(small).status == 404


@pytest.mark.parametrize("preview", [b"", b"<svg onload='alert(1)'/>", jpeg()[:300], jpeg() + bytes(LARGEST_PREVIEW)])
def test_a_small_picture_that_is_none_is_left_out_and_the_photo_is_shown(
    browser: Browser, visit: str, preview: bytes
) -> None:
    """Nothing, a script, half of one, one that is too large."""
    form = browser.get(f"{visit}/photos").page.form("/photos")
    body = packed(form.filled(), png(), preview=preview)
    answer = browser.post_bytes(form.action, body, f"multipart/form-data; boundary={BORDER}")
    (small,) = [known["src"] for tag, known in answer.page.tags if tag == "img"]
    assert browser.get(small).body == cleaned(png(), "image/png")


def test_the_plate_s_page_leads_to_its_photo_and_the_photo_back_to_the_plate(browser: Browser) -> None:
    """Where the plate is asked for: one tap to the camera, and on."""
    plate = begin(browser)
    photos = browser.get(plate.page.links["Photograph the plate"])
    form = photos.page.form("/photos")
    assert (form.fields["shows"], form.fields["then"]) == ("plate", "plate")
    after = browser.post_bytes(form.action, packed(form.filled(), jpeg()), f"multipart/form-data; boundary={BORDER}")
    assert after.address == plate.address


def test_camera_and_gallery_are_both_offered(browser: Browser, visit: str) -> None:
    """HTML Media Capture (W3C): `capture` opens the camera alone, so a second field has none."""
    page = browser.get(f"{visit}/photos").page
    inputs = [known for tag, known in page.tags if tag == "input" and "data-shrink" in known]
    assert [known.get("capture") for known in inputs] == ["environment", None]


def test_the_same_form_sent_twice_keeps_one(browser: Browser, visit: str) -> None:
    """A wet thumb; bad signal on the local network."""
    form = browser.get(f"{visit}/photos").page.form("/photos")
    body = packed(form.filled(), jpeg())
    for _ in range(2):
        browser.post_bytes(form.action, body, f"multipart/form-data; boundary={BORDER}")
    assert len(shown(browser, visit)) == 1


def test_the_first_minutes_photo_leads_on_to_its_next_step(given: Given, browser: Browser, visit: str) -> None:
    """One tap, one photo, and on."""
    form = browser.get(f"{visit}/first-minute?at=photo").page.form("/photos")
    after = browser.post_bytes(form.action, packed(form.filled(), jpeg()), f"multipart/form-data; boundary={BORDER}")
    assert "Which fault does the display show?" in after.page.said
    (photo,) = visit_page(given, visit.split("/")[2]).photos
    assert (photo.body["shows"], photo.body["stage"]) == ("display", "as-found")


@pytest.mark.parametrize(
    ("photo", "says"),
    [
        (b"", "No photo came with it."),
        (b"<svg xmlns='http://www.w3.org/2000/svg' onload='alert(1)'/>", "no photo that can be kept"),
        (b"<html><script>alert(1)</script>", "no photo that can be kept"),
        (b"GIF89a", "no photo that can be kept"),
        (jpeg()[:300], "cut off or damaged"),
    ],
    ids=["nothing", "svg", "html", "gif", "cut-off"],
)
def test_what_is_no_photo_is_refused_by_its_content_and_nothing_typed_is_lost(
    browser: Browser, visit: str, photo: bytes, says: str
) -> None:
    """OWASP ASVS 4.0, 12.2.1 (from memory): a file is judged by its content, whatever its name and type say."""
    answer = send(browser, visit, photo, says="wet plug", shows="part")
    assert answer.status == 422
    assert says in answer.page.said
    fields = answer.page.form("/photos").fields
    assert (fields["says"], fields["shows"]) == ("wet plug", "part")
    assert shown(browser, visit) == []


def test_only_the_addresses_of_files_take_a_large_body_and_each_no_more_than_it_needs(
    browser: Browser, visit: str
) -> None:
    """OWASP ASVS 4.0, 12.1.1 (from memory): the size of an upload is bounded, here by address."""
    most = LARGEST_PHOTO + MOST_BYTES
    assert [limit for pattern, limit in LARGER if pattern.pattern != "/settings/logo"] == [
        most, 64 * 2**20 + MOST_BYTES, 16 * 2**20, 2**20 + MOST_BYTES,
    ]  # fmt: skip
    assert most_bytes(f"{visit}/photos") == most
    for path in (f"{visit}/photos/x", f"{visit}/photosx", "/visits/x/photos", "/x/visits/photos", f"{visit}/readings"):
        assert most_bytes(path) == MOST_BYTES
    kind = f"multipart/form-data; boundary={BORDER}"
    answer = browser.post_bytes(f"{visit}/photos", b"x" * (most + 1), kind)
    assert answer.status == 413
    assert "A picture may have 12 MB at most: choose a smaller one." in answer.page.said
    large = browser.post_bytes("/take-in", b"x" * (64 * 2**20 + MOST_BYTES + 1), kind)
    assert (large.status, "larger than 64 MB" in large.page.said) == (413, True)
    assert browser.post_bytes("/sync/1/take", b"x" * (2**20 + MOST_BYTES + 1), "application/json").status == 413
    assert browser.post_bytes(f"{visit}/readings", b"x" * (MOST_BYTES + 1), kind).status == 413


def test_a_large_photo_is_taken_and_one_that_is_too_large_is_told_so(browser: Browser, visit: str) -> None:
    """5 MB, as a phone takes it; one byte more than the limit."""
    head, scan, rest = jpeg().partition(b"data\xff\x00")
    assert send(browser, visit, head + bytes(5_000_000) + scan + rest).status == 200
    too_large = head + bytes(LARGEST_PHOTO - len(jpeg()) + 1) + scan + rest
    assert send(browser, visit, too_large).status == 422


def test_a_photo_from_another_site_is_not_kept(browser: Browser, visit: str) -> None:
    """No key of this browser; no file form at all."""
    kind = f"multipart/form-data; boundary={BORDER}"
    form = browser.get(f"{visit}/photos").page.form("/photos")
    assert browser.post_bytes(form.action, packed(form.filled(form_key="x" * 32), jpeg()), kind).status == 400
    assert browser.post_bytes(form.action, packed(form.filled(), jpeg())[:-300], kind).status in {400, 422}
    assert browser.post_only(form.action, form.filled()).status == 400
    assert shown(browser, visit) == []


def test_a_photo_is_shown_in_its_own_visit_alone(browser: Browser, visit: str) -> None:
    """An id of another visit, an id of a reading, no id at all, a path that climbs."""
    send(browser, visit, jpeg())
    (picture,) = shown(browser, visit)
    photo = picture.split("/")[-2]
    other = three_taps(browser).address
    own = visit.split("/")[2]
    for id_ in (photo, own, "x", "../..", "%2e%2e"):
        assert browser.get(f"{other}/photos/{id_}/picture").status == 404
        assert browser.get(f"{other}/photos/{id_}").status == 404


def test_words_that_nobody_knows_are_refused_and_a_script_is_shown_as_text(browser: Browser, visit: str) -> None:
    """A stored script: escaped wherever it is shown."""
    assert send(browser, visit, jpeg(), shows="everything").status == 422
    answer = send(browser, visit, jpeg(), says="<script>alert(1)</script>")
    assert "<script>alert(1)" not in answer.text
    assert "&lt;script&gt;" in answer.text


def test_the_photos_of_all_visits_at_a_system_are_found(given: Given, browser: Browser, visit: str) -> None:
    """For the page of a system: its plate, whenever it was photographed; what was erased is not among them."""
    send(browser, visit, jpeg(), shows="plate")
    system = visit_page(given, visit.split("/")[2]).system_id
    ((where, photo),) = photos_of_system(given, system)
    assert (f"/visits/{where}", photo.body["of"]) == (visit, system)
    (picture,) = shown(browser, visit)
    form = browser.get(picture.removesuffix("/picture")).page.forms[1]
    browser.post(form.action, form.filled(out="yes"))
    assert photos_of_system(given, system) == ()
