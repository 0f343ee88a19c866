"""A paper as PDF: the same words in the same order as its description, tagged, broken well, and nothing obeyed."""

from __future__ import annotations

import hashlib
import subprocess
from dataclasses import replace
from pathlib import Path

import pytest

from steadyhead.documents.laid import Look, laid_out
from steadyhead.documents.paper import Paper
from steadyhead.pdf.typeset import _signs, typeset
from steadyhead.service.ports import Blob
from steadyhead.words import Speaker
from steadyhead.words.catalogue import texts
from tests.documents.made_up import HOSTILE, Said, every_block, long_table, with_photos
from tests.documents.pictured import GREY, HOLLOW, PNG
from tests.support import require_tool

pytestmark = pytest.mark.laptop


def pdf_of(paper: Paper, look: Look | None = None) -> bytes:
    """Return a paper as PDF."""
    chosen = look or Look()
    return typeset(laid_out(paper, Speaker(decimal=chosen.decimal).say, chosen))


def text_of(made: bytes, folder: Path, *options: str) -> str:
    """Return the text of a PDF, in the order in which it is drawn."""
    file = folder / "paper.pdf"
    file.write_bytes(made)
    command = [require_tool("pdftotext"), "-raw", *options, str(file), "-"]
    return subprocess.run(command, check=True, capture_output=True, encoding="utf-8").stdout


@pytest.mark.parametrize("decimal", [".", ","])
def test_a_pdf_says_what_the_description_says_in_its_order(tmp_path: Path, decimal: str) -> None:
    """The description itself; the text by another program (poppler's pdftotext). Drawings have words of their own."""
    look = Look(decimal="," if decimal == "," else ".")
    paper = every_block()
    plain = tuple(block for block in paper.blocks if type(block).__name__ != "Plot")
    paper = replace(paper, blocks=plain)
    wanted = Said(decimal).words(paper)
    assert text_of(pdf_of(paper, look), tmp_path).split()[: len(wanted)] == wanted


def test_a_pdf_is_tagged_and_says_so() -> None:
    """ISO 32000: a structure tree, marked content, a language, a title that is shown; PDF/UA's own mark."""
    made = pdf_of(every_block())
    assert b"/StructTreeRoot" in made
    assert b"/Marked true" in made
    assert b"/Lang" in made
    assert b"pdfuaid:part" in made
    assert b"pdfaid:part" in made


def test_a_paper_without_a_day_is_set_as_well() -> None:
    """A visit file has no day: accessible still, not archivable."""
    made = pdf_of(replace(every_block(), day="", dated=""))
    assert b"pdfuaid:part" in made
    assert b"pdfaid:part" not in made


def test_the_same_paper_gives_the_same_bytes() -> None:
    """Two descriptions made apart."""
    assert pdf_of(every_block()) == pdf_of(every_block())


def test_a_long_table_is_broken_over_pages_with_its_heads_on_each(tmp_path: Path) -> None:
    """Counting: the head on each page, every row once, and no row alone on the last page."""
    pages = text_of(pdf_of(long_table(200)), tmp_path).rstrip("\f").split("\f")
    assert len(pages) > 3
    assert all(page.count("What Shows") == 1 for page in pages)
    rows = [line.split()[1] for page in pages for line in page.splitlines() if line.startswith("row ")]
    assert rows == [str(k) for k in range(200)]


def test_no_row_stands_alone_on_a_page(tmp_path: Path) -> None:
    """Tables of every length about that of a page: where rows go on, there are two of them at least."""
    for rows in range(46, 58):
        pages = text_of(pdf_of(long_table(rows)), tmp_path).rstrip("\f").split("\f")
        counts = [sum(line.startswith("row ") for line in page.splitlines()) for page in pages]
        assert sum(counts) == rows
        assert 1 not in counts


def test_nothing_that_a_person_typed_is_markup(tmp_path: Path) -> None:
    """The very text comes back, as many pages as with another text, and no figure of it is worked out."""
    said = " ".join(text_of(pdf_of(every_block(HOSTILE)), tmp_path).split())
    for word in HOSTILE.split():
        assert word in said
    assert "49" not in said


def test_the_typefaces_are_inside_and_are_ours(tmp_path: Path) -> None:
    """Poppler's list of fonts."""
    file = tmp_path / "paper.pdf"
    file.write_bytes(pdf_of(every_block()))
    command = [require_tool("pdffonts"), str(file)]
    listed = subprocess.run(command, check=True, capture_output=True, encoding="utf-8").stdout.splitlines()[2:]
    assert listed
    assert all("AtkinsonHyperlegible" in line for line in listed)


def test_the_making_of_the_figures_stands_in_it_where_it_is_wanted(tmp_path: Path) -> None:
    """With and without."""
    with_, without = (text_of(pdf_of(every_block(), Look(trace=trace)), tmp_path) for trace in (True, False))
    assert "How each figure was made" in with_
    assert "signal at the upper end) / 2" in " ".join(with_.split())
    assert "How each figure was made" not in without


def test_a_sign_that_the_typefaces_lack_is_told_by_its_code_point(tmp_path: Path) -> None:
    """Unicode's own numbers; letters of other Latin alphabets are there."""
    said = text_of(pdf_of(every_block("Studnia Łódź \u4e95 \U0001f4a7")), tmp_path)
    assert "Studnia Łódź [U+4E95] [U+1F4A7]" in said


def test_every_sign_of_our_own_words_is_in_the_typefaces() -> None:
    """Every text that can be said in English, sign by sign."""
    used = {sign for text in texts() for sign in text} | set("−•Ω°µ²³±≤≥≈½¼¾×")
    assert used - _signs() == set()


def images(made: bytes, folder: Path) -> list[list[str]]:
    """Return what poppler's pdfimages tells of each picture in a PDF: its kind, width, height and more."""
    file = folder / "pictures.pdf"
    file.write_bytes(made)
    command = [require_tool("pdfimages"), "-list", str(file)]
    listed = subprocess.run(command, check=True, capture_output=True, encoding="utf-8").stdout.splitlines()[2:]
    return [line.split()[2:5] for line in listed]


def test_photos_and_a_logo_are_drawn_and_what_cannot_be_drawn_is_told(tmp_path: Path) -> None:
    """Poppler's list of pictures; a photo that is built as a PNG is, but holds no picture, refuses no paper."""
    hollow = hashlib.sha256(HOLLOW).hexdigest()
    paper = with_photos((GREY, "the plug"), (hollow, "cut off"), ("f" * 64, "elsewhere"))
    laid = laid_out(paper, Speaker().say, Look(logo=GREY))
    made = typeset(laid, {GREY: Blob(PNG, "image/png"), hollow: Blob(HOLLOW, "image/png")})
    assert images(made, tmp_path) in ([["image", "2", "1"]], [["image", "2", "1"]] * 2)
    said = " ".join(text_of(made, tmp_path).split())
    assert said.count("This picture is not on this device, or it cannot be drawn.") == 2
    assert all(told in said for told in ("the plug", "cut off", "elsewhere"))
    assert b"pdfuaid:part" in made


def test_pictures_are_the_same_bytes_each_time() -> None:
    """Two folders, made apart, leave no trace."""
    laid = laid_out(with_photos((GREY, "the plug")), Speaker().say, Look())
    one, two = (typeset(laid, {GREY: Blob(PNG, "image/png")}) for _ in range(2))
    assert one == two
