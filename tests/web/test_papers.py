"""Papers in the app: which there are, each as a page, as PDF where the home can, and the old address of the report."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from steadyhead.service.papers.kinds import KINDS
from steadyhead.service.record.given import Given
from steadyhead.service.record.letterhead import LARGEST_LOGO
from steadyhead.web.app import make_app
from tests.documents.pictured import PNG
from tests.service.photos.made import png
from tests.web.client import Answer, Browser
from tests.web.test_photos import BORDER, packed, send
from tests.web.visiting import begin_check, read, take_point, three_taps


@pytest.fixture
def visit(browser: Browser) -> str:
    """Return the address of a visit with a gauge reading."""
    first = three_taps(browser)
    read(browser, first, "48")
    return first.address


def test_the_old_address_of_the_report_leads_to_the_papers(browser: Browser, visit: str) -> None:
    """Every kind is offered there."""
    page = browser.get(f"{visit}/report").page
    assert {f"{visit}/papers/{kind}" for kind in KINDS} <= set(page.links.values())


@pytest.mark.parametrize("kind", KINDS)
def test_a_paper_is_a_page_that_says_local_codes_once(browser: Browser, visit: str, kind: str) -> None:
    """The page is the paper: what it says, the app's foot does not say again."""
    answer = browser.get(f"{visit}/papers/{kind}")
    assert answer.status == 200
    assert answer.page.said.count("Local codes and a licensed person come first.") == 1


def test_what_a_person_typed_is_never_markup(browser: Browser, visit: str) -> None:
    """The very text comes back, and no element of that name."""
    form = browser.get(f"{visit}/call").page.forms[0]
    browser.post(form.action, form.filled(text="<script>alert(1)</script>"))
    page = browser.get(f"{visit}/papers/customer").page
    assert "<script>alert(1)</script>" in page.said
    assert all(known.get("src") for tag, known in page.tags if tag == "script")


def test_how_a_paper_is_set_stands_in_its_address(browser: Browser, visit: str) -> None:
    """The decimal sign and the sheet."""
    said = browser.get(f"{visit}/papers/reading-card?decimal=,&sheet=a4")
    assert "0,50" in said.page.said
    assert any("sheet-a4" in str(known.get("class")) for _, known in said.page.tags)


@pytest.mark.parametrize("query", ["sheet=a7", "decimal=;"])
def test_what_is_no_sheet_or_sign_is_refused(browser: Browser, visit: str, query: str) -> None:
    """A page that says so."""
    assert browser.get(f"{visit}/papers/customer?{query}").status == 400


@pytest.mark.parametrize("kind", ["nonsense", "nonsense.pdf"])
def test_a_paper_that_does_not_exist_is_not_there(browser: Browser, visit: str, kind: str) -> None:
    """No such kind."""
    assert browser.get(f"{visit}/papers/{kind}").status == 404


def test_a_home_without_pdf_says_so_and_offers_the_page_to_print(browser: Browser, visit: str) -> None:
    """A home that was given nothing that sets PDF."""
    answer = browser.get(f"{visit}/papers/customer.pdf")
    assert answer.status == 404
    assert "let the browser print it" in answer.page.said
    assert f"{visit}/papers/customer" in answer.page.links.values()
    assert "let the browser print it" in browser.get(f"{visit}/papers/customer").page.said


def test_a_paper_leaves_as_one_file_with_all_that_it_shows(browser: Browser, visit: str) -> None:
    """Where there is no PDF it is a page: saved by a link, nothing in it is asked for elsewhere, set as was asked."""
    said = browser.get(f"{visit}/papers/reading-card?decimal=,&sheet=a4").page
    address = said.links["Save the file"]
    assert "any browser opens and prints" in said.said
    answer = browser.get(address)
    assert answer.headers["content-disposition"].endswith('.html"')
    assert "0,50" in answer.page.said
    asked = [known.get("src") or known.get("href") or "" for tag, known in answer.page.tags if tag != "a"]
    assert [each for each in asked if each and not each.startswith("data:")] == []
    assert "data:font/woff2" in answer.text


def send_logo(browser: Browser, picture: bytes, **fields: str) -> Answer:
    """Send a logo by the form of its page."""
    form = browser.get("/settings/logo").page.form("/settings/logo")
    return browser.post_bytes(
        form.action, packed(form.filled(**fields), picture), f"multipart/form-data; boundary={BORDER}"
    )


def test_a_home_with_pdf_hands_it_the_same_paper(given: Given) -> None:
    """What sets it is a double that keeps what it was given."""
    told: list[object] = []

    def sets(laid: object, pictures: object) -> bytes:
        told.extend((laid, pictures))
        return b"%PDF-"

    browser = Browser(make_app(replace(given, pdf=sets)))
    first = three_taps(browser)
    assert f"{first.address}/papers/customer.pdf" in str(browser.get(f"{first.address}/papers/customer").page.links)
    page = browser.get(f"{first.address}/papers/customer?trace=yes").page
    assert (page.links["Save the file"].partition("?")[0], "The file is a PDF." in page.said) == (
        f"{first.address}/papers/customer.pdf",
        True,
    )
    answer = browser.get(f"{first.address}/papers/customer.pdf?trace=yes")
    assert answer.status == 200
    assert told[0]["kind"] == "customer"  # type: ignore[index]
    assert told[0]["trace"] is True  # type: ignore[index]


def test_something_temporary_is_kept_by_a_form_and_leads_to_its_tag(browser: Browser, visit: str) -> None:
    """What was typed stands on the tag; a form that lacks a word is shown again with what it had."""
    form = browser.get(f"{visit}/temporary").page.forms[0]
    lacking = browser.post(form.action, form.filled(what="spare sensor on the door", why="part on its way"))
    assert lacking.status == 422
    assert lacking.page.forms[0].fields["what"] == "spare sensor on the door"
    form = lacking.page.forms[0]
    told = {"until": "2999-01-02", "watch": "Ms Ruiz", "lost.dry-run": "dry-run"}
    kept = browser.post(form.action, form.filled(**told))
    assert kept.address.endswith("/papers/tag")
    assert "spare sensor on the door" in kept.page.said
    assert "Ms Ruiz" in kept.page.said


def test_a_sensor_check_has_its_certificate_behind_the_door(browser: Browser) -> None:
    """Two points in: from the check's figures and from the visit's papers; before them there is nothing to certify."""
    visit_ = three_taps(browser).address
    begun = begin_check(browser, visit_)
    assert browser.get(f"{begun.address}/certificate").status == 404
    after = take_point(browser, take_point(browser, begun, "0", "0.50"), "24.6", "1.524")
    address = f"{begun.address}/certificate"
    assert address in browser.get(f"{after.address}/figures").page.links.values()
    assert address in browser.get(f"{visit_}/papers").page.links.values()
    page = browser.get(address).page
    assert "It is no accredited calibration" in page.said
    assert page.said.count("Local codes and a licensed person come first.") == 1
    assert browser.get(f"{address}.pdf").status == 404


def test_the_photos_of_a_visit_stand_on_its_papers_by_who_reads_them(given: Given) -> None:
    """The part, as found, is on the customer's paper; the wiring is not, and is on the next technician's."""
    told: list[Any] = []

    def sets(laid: object, pictures: object) -> bytes:
        told.extend((laid, pictures))
        return b"%PDF-"

    browser = Browser(make_app(replace(given, pdf=sets)))
    visit = three_taps(browser).address
    send(browser, visit, PNG, shows="part", stage="as-found", says="green <inside>")
    send(browser, visit, png(), shows="wiring")
    customer, after = (browser.get(f"{visit}/papers/{kind}") for kind in ("customer", "next"))
    assert "Part, as found: green &lt;inside&gt;" in customer.text
    (image,) = (known for tag, known in customer.page.tags if tag == "img")
    assert browser.get(str(image["src"])).body == PNG
    assert "Wiring" not in customer.page.said
    assert "Wiring" in after.page.said
    browser.get(f"{visit}/papers/customer.pdf")
    assert [blob.data for blob in told[1].values()] == [PNG]


def test_a_customers_paper_has_one_row_of_photos_and_says_how_many_more_there_are(browser: Browser) -> None:
    """Five that are theirs to see: the first and the last two."""
    visit = three_taps(browser).address
    for number in range(5):
        send(browser, visit, PNG, shows="place", says=f"number {number}")
    said = browser.get(f"{visit}/papers/customer").page.said
    assert [number for number in range(5) if f"number {number}" in said] == [0, 3, 4]
    assert "The record has more photos of this visit: 2." in said


def test_a_logo_is_kept_shown_over_papers_and_taken_away(browser: Browser) -> None:
    """What is no picture, or too large, is refused in words, and the one that was kept stays."""
    visit = three_taps(browser).address
    assert "Kept." in send_logo(browser, PNG).page.said
    assert browser.get("/settings/logo/picture").body == PNG
    assert 'src="/settings/logo/picture"' in browser.get(f"{visit}/papers/customer").text
    for wrong, why in ((b"%PDF-1.7", "image/jpeg"), (b"", "photo"), (png() + bytes(LARGEST_LOGO), "kB")):
        refused = send_logo(browser, wrong)
        assert (refused.status, why in refused.page.said) == (422, True)
    assert browser.get("/settings/logo/picture").body == PNG
    send_logo(browser, b"", out="yes")
    assert browser.get("/settings/logo/picture").status == 404
    assert "<img" not in browser.get(f"{visit}/papers/customer").text


def test_a_home_without_pdf_offers_to_print_the_page_and_one_with_pdf_does_not(
    given: Given, browser: Browser, visit: str
) -> None:
    """Without scripts the button is not there: nothing would come of it."""
    for address in (f"{visit}/papers/customer", "/guide"):
        prints = [known for tag, known in browser.get(address).page.tags if tag == "button" and "data-print" in known]
        assert [("hidden" in known, known["type"]) for known in prints] == [(True, "button")]
    makes = Browser(make_app(replace(given, pdf=lambda _made, _pictures: b"%PDF-")))
    for address in (f"{visit}/papers/customer", "/guide"):
        assert not any("data-print" in known for _, known in makes.get(address).page.tags)
