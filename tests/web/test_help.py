"""Help inside each page, in two sentences, and the guide that is made of the same texts."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

import steadyhead.web
from steadyhead.words import Speaker
from steadyhead.words.help_names import HELP_PAGES
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
