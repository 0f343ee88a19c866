"""Help inside each page, in two sentences, and the guide that is made of the same texts."""

from __future__ import annotations

import json
import re
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

import steadyhead.web
from steadyhead.service.record.given import Given
from steadyhead.web.app import make_app
from steadyhead.words import Speaker
from steadyhead.words.help_names import GUIDE_PAGE, HELP_PAGES
from tests.web.client import Browser
from tests.web.visiting import three_taps

TEMPLATES = Path(steadyhead.web.__file__).parent / "templates"
#: A page that says what went wrong says all that there is to say.
WITHOUT = {"problem"}


def test_every_page_has_its_help() -> None:
    """Each template that is a page of its own."""
    pages = {each.stem for each in TEMPLATES.glob("*.html") if '{% extends "base.html" %}' in each.read_text("utf-8")}
    assert set(HELP_PAGES) == pages - WITHOUT


@pytest.mark.parametrize("page", HELP_PAGES)
def test_help_is_two_sentences(page: str) -> None:
    """Counted by their ends; short enough to be read at the panel."""
    text = Speaker().tell(f"help-{page}")
    assert len(re.findall(r"[.?!](?:\s|$)", text)) == 2
    assert len(text) <= 240


def test_help_stands_shut_at_the_foot_of_a_page(browser: Browser) -> None:
    """After everything else of the page, before the cautions of the foot; nothing opens it but a tap."""
    text = three_taps(browser).text
    help_ = text.index('<details class="more help">')
    assert text.index('class="readings"' if 'class="readings"' in text else 'id="r"') < help_ < text.index("</main>")
    assert "Do the check in the frame" in text[help_:]


def test_the_guide_tells_every_page_in_the_same_words(browser: Browser) -> None:
    """Led to from the first page's foot."""
    page = browser.get(browser.get("/").page.links["Quick guide"]).page
    speaker = Speaker()
    for id_ in HELP_PAGES:
        assert speaker.tell(f"help-{id_}") in page.said


def test_the_guide_is_saved_as_one_file_where_a_home_has_no_pdf(browser: Browser) -> None:
    """A page of its own with every page's help, named as the guide."""
    page = browser.get("/guide").page
    assert "any browser opens" in page.said
    answer = browser.get(page.links["Save the file"])
    assert answer.headers["content-disposition"] == 'attachment; filename="quick-guide.html"'
    assert all(Speaker().tell(f"help-{id_}") in answer.page.said for id_ in HELP_PAGES if id_ != GUIDE_PAGE)
    assert browser.get("/guide.pdf").status == 404


def test_a_home_with_pdf_sets_the_guide_in_the_reader_s_words(given: Given) -> None:
    """What sets it is a double that keeps what it was given; a European reader has a sensor, on A4."""
    told: list[Any] = []

    def sets(laid: object, _pictures: object) -> bytes:
        told.append(laid)
        return b"%PDF-"

    browser = Browser(make_app(replace(given, pdf=sets)))
    form = browser.get("/settings").page.form("/settings")
    browser.post(form.action, form.filled(region="elsewhere"))
    page = browser.get("/guide").page
    assert "The file is a PDF." in page.said
    answer = browser.get(page.links["Save the file"])
    assert answer.headers["content-disposition"] == 'attachment; filename="quick-guide.pdf"'
    said = json.dumps(told[0])
    assert (told[0]["kind"], told[0]["sheet"]) == ("quick-guide", "a4")
    assert "Tap what stands on the sensor's plate" in said
    assert said.count("Local codes and a licensed person come first.") == 1
