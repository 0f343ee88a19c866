"""The papers of the examples as PDF: the words of their HTML in the same order, and on one sheet what is for one."""

from __future__ import annotations

import re
import subprocess
from dataclasses import replace
from pathlib import Path

import pytest

from steadyhead.documents.html import article
from steadyhead.documents.laid import Values
from steadyhead.documents.paper import Paper, Plot
from steadyhead.pdf.typeset import typeset
from steadyhead.service.papers.certificate import certificate
from steadyhead.service.papers.kinds import certificate_in_words, in_words, look_of, paper_of
from steadyhead.service.papers.occasion import Occasion, of_file
from steadyhead.visit import load_visit
from steadyhead.words import USUAL, Manner
from tests.documents.made_up import Html
from tests.service.answers import EXAMPLES, NAMES
from tests.service.papers.occasions import example
from tests.service.papers.test_certificate import checked
from tests.support import require_tool

pytestmark = pytest.mark.laptop

SHOWN = "house-damp-cable"
ELSEWHERE = Manner(region="elsewhere")


def without_plots(paper: Paper) -> Paper:
    """Return a paper without its drawings: their words stand in HTML in another place than in PDF."""
    return replace(paper, blocks=tuple(block for block in paper.blocks if not isinstance(block, Plot)))


def laid_of(kind: str) -> Values:
    """Return a paper of an example in words; the certificate is of an example of a check."""
    if kind == "certificate":
        seen = checked("booster-hand-pump")
        paper = without_plots(certificate(seen))
        return certificate_in_words(paper, seen, ELSEWHERE, look_of(paper, ELSEWHERE, decimal=","))
    paper = without_plots(paper_of(kind, example(SHOWN)))
    return in_words(paper, example(SHOWN), ELSEWHERE, look_of(paper, ELSEWHERE, sheet="a4"))


@pytest.mark.parametrize("kind", ["customer", "office", "next", "warranty", "reading-card", "tag", "certificate"])
def test_a_pdf_says_what_its_html_says_in_the_same_order(tmp_path: Path, kind: str) -> None:
    """Two renderers of one description, the PDF's text by poppler; repeated heads and page feet are set aside."""
    laid = laid_of(kind)
    file = tmp_path / "paper.pdf"
    file.write_bytes(typeset(laid))
    command = [require_tool("pdftotext"), "-raw", str(file), "-"]
    pages = subprocess.run(command, check=True, capture_output=True, encoding="utf-8").stdout.rstrip("\f").split("\f")
    foot = f"{laid['words']['number']} {laid['number']}"
    found = [word for page in pages for word in page.partition(foot)[0].split()]
    wanted = Html(str(article({**laid, "made": [], "number": "", "short": "", "link": ""}))).words[:-1]
    tables = [each for each in laid["blocks"] if each["is"] == "table"]
    heads = [" ".join(column["head"] for column in each["columns"]).split() for each in tables]
    assert without_repeated(found, wanted, heads) == wanted


def without_repeated(found: list[str], wanted: list[str], heads: list[list[str]]) -> list[str]:
    """Return what was found without the heads of tables that a new page has said again, and without the way back."""
    kept: list[str] = []
    at = 0
    while at < len(found) and len(kept) < len(wanted):
        again = next((head for head in heads if found[at : at + len(head)] == head), None)
        if again and wanted[len(kept) : len(kept) + len(again)] != again:
            at += len(again)
            continue
        kept.append(found[at])
        at += 1
    return kept


@pytest.mark.parametrize("name", NAMES)
def test_a_reading_card_is_one_card(name: str) -> None:
    """Every example's system, on A6: the page tree has one page."""
    seen = undiagnosed(name)
    paper = paper_of("reading-card", seen)
    assert pages_of(typeset(in_words(paper, seen, USUAL, look_of(paper, USUAL)))) == 1


@pytest.mark.parametrize("kind", ["customer", "tag"])
def test_what_is_for_one_sheet_is_on_one_sheet(kind: str) -> None:
    """One page of a visit with six readings."""
    assert pages_of(typeset(laid_of(kind))) == 1


def undiagnosed(name: str) -> Occasion:
    """Return an example that nobody diagnosed: a card needs no diagnosis."""
    return of_file(load_visit(next(path for path in EXAMPLES if path.stem == name)), None)


def pages_of(made: bytes) -> int:
    """Return how many pages a PDF has: its page objects."""
    return len(re.findall(rb"/Type\s*/Page\b(?!s)", made))
