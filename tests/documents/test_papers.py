"""A paper, its hash, and its HTML: the same words in the same order, the same bytes, nothing obeyed."""

from __future__ import annotations

import hashlib
import json
import re
from base64 import b64decode
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from steadyhead.documents.canonical import canonical, content_hash, way_back
from steadyhead.documents.html import article, page
from steadyhead.documents.laid import Look, laid_out, pictured
from steadyhead.documents.numbers import digits, pads
from steadyhead.documents.paper import Paper, Paragraph
from steadyhead.documents.plot import steps
from steadyhead.errors import QuantityError
from steadyhead.messages import message
from steadyhead.service.ports import Blob
from steadyhead.words import Speaker
from tests.documents.made_up import HOSTILE, Html, Said, computed, every_block, long_table, shown, text, with_photos
from tests.documents.pictured import GREY, PNG

STYLE = "p{color:red}"


def laid(paper: Paper, look: Look | None = None) -> dict[str, object]:
    """Return a paper in words."""
    chosen = look or Look()
    return laid_out(paper, Speaker(decimal=chosen.decimal).say, chosen)


def html_of(paper: Paper, look: Look | None = None) -> Html:
    """Return a paper's article."""
    return Html(str(article(laid(paper, look))))


@pytest.mark.parametrize("decimal", [".", ","])
def test_html_says_what_the_description_says_in_its_order(decimal: str) -> None:
    """The description itself, its figures by exact decimals."""
    look = Look(decimal="," if decimal == "," else ".")
    wanted = Said(decimal).words(every_block())
    assert html_of(every_block(), look).words[: len(wanted)] == wanted


def test_the_same_paper_gives_the_same_bytes() -> None:
    """Two descriptions made apart, one after the other."""
    first, second = (page(laid(every_block()), STYLE) for _ in range(2))
    assert first == second


def test_the_hash_is_the_sha_256_of_the_canonical_text() -> None:
    """The standard library's own digest of a text that is JSON and sorted."""
    told = canonical(every_block())
    assert json.dumps(json.loads(told), sort_keys=True, separators=(",", ":"), ensure_ascii=False) == told
    assert content_hash(every_block()) == hashlib.sha256(told.encode()).hexdigest()


def test_a_paper_that_says_nothing_new_keeps_the_hash_that_is_printed_on_it() -> None:
    """A key that came later stands in the text only where it says something."""
    plain = replace(every_block(), blocks=(Paragraph(line=(shown(1.0, "bar"),)),))
    printed = replace(every_block(), blocks=(Paragraph(line=(shown(1.0, "bar", beside=True, own="psi"),)),))
    assert '"own"' not in canonical(plain)
    assert '"own":"psi"' in canonical(printed)


def test_the_hash_hangs_on_the_content_and_not_on_the_way_back_or_the_sheet() -> None:
    """The rule of the hash."""
    paper = every_block()
    other = replace(paper, link="steadyhead:file/0")
    assert content_hash(other) == content_hash(paper)
    assert content_hash(replace(paper, dated="")) != content_hash(paper)
    assert laid(paper, Look(sheet="a6", decimal=","))["hash"] == content_hash(paper)


@given(st.floats(-1e300, 1e300), st.integers(-3, 3))
@settings(max_examples=60)
def test_a_last_digit_of_another_machine_does_not_change_the_hash(value: float, ulps: int) -> None:
    """Twelve digits: a few units in the last place of a double (16 digits) are beyond them, but at an edge."""
    near = value * (1 + ulps * 2**-52)
    said = [canonical(replace(every_block(), blocks=(Paragraph(line=(message("x", v=v),)),))) for v in (value, near)]
    assert said[0] == said[1] or f"{value:.11e}" != f"{near:.11e}"


def test_the_way_back_names_the_visit_the_paper_and_its_hash() -> None:
    """The scheme in docs/papers.md."""
    paper = every_block()
    assert way_back(paper, content_hash(paper)) == f"{paper.link}/customer?hash={content_hash(paper)[:16]}"
    assert way_back(replace(paper, link=""), content_hash(paper)) == ""


def test_nothing_that_a_person_typed_is_markup() -> None:
    """The very text comes back, and no element but ours stands there."""
    found = Html(page(laid(every_block(HOSTILE)), STYLE))
    tags = {tag for tag, _ in found.tags}
    assert "script" not in tags
    assert " ".join(HOSTILE.split()) in " ".join(found.words)
    assert sum(tag == "style" for tag, _ in found.tags) == 1
    assert [tag for tag, _ in found.tags] == [tag for tag, _ in Html(page(laid(every_block("x")), STYLE)).tags]


ELEMENTS = [tag for tag, _ in Html(page(laid(every_block("x")), STYLE)).tags]


@given(st.text(max_size=40))
@settings(max_examples=25)
def test_no_text_whatever_adds_or_takes_an_element(typed: str) -> None:
    """The elements are those of the description."""
    assert [tag for tag, _ in Html(page(laid(every_block(typed or "x")), STYLE)).tags] == ELEMENTS


def test_a_page_of_its_own_allows_its_own_style_and_nothing_else() -> None:
    """The digest of the very style, by the standard library; no script, no address elsewhere, no style attribute."""
    whole = page(laid(every_block()), STYLE)
    digest = hashlib.sha256(STYLE.encode()).digest()
    import base64  # noqa: PLC0415 - one use

    assert f"style-src &#39;sha256-{base64.b64encode(digest).decode()}&#39;" in whole
    found = Html(whole)
    kept = [(tag, name, value) for tag, known in found.tags for name, value in known.items()]
    assert [(tag, name) for tag, name, _ in kept if name == "style" or name.startswith("on")] == []
    assert [value for _, name, value in kept if name in {"src", "href"} and not str(value).startswith("#")] == []


def test_every_figure_leads_to_the_line_that_tells_how_it_was_made() -> None:
    """Anchors within the page: each link has its target, and what a line was made of has its own."""
    found = html_of(every_block())
    links = {str(known["href"])[1:] for tag, known in found.tags if tag == "a"}
    targets = {str(known["id"]) for tag, known in found.tags if tag == "li" and "id" in known}
    assert links
    assert links <= targets
    said = " ".join(found.words)
    assert "Signal of the plate's line: 2.5 V" in said
    assert "(signal at the lower end + signal at the upper end) / 2" in said


def test_given_figures_that_are_equal_have_one_line_and_computed_ones_their_own() -> None:
    """Counting: two figures computed apart, of the same two given ones, and three that were read."""
    names = [each["name"] for each in laid(every_block())["made"]]  # type: ignore[attr-defined]
    assert names.count("Signal of the plate's line") == 2
    assert names.count("Signal at the lower end") == 1


@pytest.mark.parametrize(
    ("value", "places", "signed", "said"),
    [(2.675, 1, False, "2.7"), (-0.004, 2, False, "0.00"), (0.5, 2, True, "+0.50"), (-1.5, 1, True, "−1.5"),
     (0.0, 1, True, "0.0"), (123456.0, 0, False, "123456")],
)  # fmt: skip
def test_digits_are_those_of_the_figure(value: float, places: int, said: str, signed: bool) -> None:
    """By hand."""
    assert digits(value, places, ".", signed=signed) == said


def test_a_figure_that_is_none_is_refused() -> None:
    """Not finite."""
    with pytest.raises(QuantityError, match="number-out-of-range"):
        digits(float("nan"), 1, ".")


@given(st.lists(st.one_of(st.none(), st.integers(0, 4)), max_size=8))
def test_a_column_of_figures_ends_at_the_same_place(places: list[int | None]) -> None:
    """Digits after the sign, and what fills them up, add up to the most; the sign is lacking or there for all."""
    most = max((each for each in places if each is not None), default=0)
    for own, pad in zip(places, pads(places), strict=True):
        assert pad == 0 if own is None else own + abs(pad) == most
        assert own is None or (pad < 0) == (own == 0 and most > 0)


@given(st.floats(-1e4, 1e4), st.floats(1e-3, 1e4))
def test_an_axis_reaches_over_both_ends_at_whole_steps(low: float, width: float) -> None:
    """The rule of the axis."""
    first, last, step = steps(low, low + width)
    slack = 1e-6 * step
    assert first <= low + slack
    assert last >= low + width - slack
    assert (last - first) / step == pytest.approx(round((last - first) / step))
    assert re.fullmatch(r"[125]\.0*e[+-]\d+", f"{step:.3e}")


def test_a_long_table_has_one_head_and_every_row() -> None:
    """Counting."""
    found = html_of(long_table(200))
    assert sum(tag == "thead" for tag, _ in found.tags) == 1
    assert sum(tag == "tr" for tag, _ in found.tags) == 201


def test_a_figure_knows_what_it_was_made_of_on_the_paper() -> None:
    """The inputs of the made-up figure, by number."""
    lines = laid(replace(every_block(), blocks=(Paragraph(line=(text("x"),)),)))["made"]
    assert lines == []
    assert [each.name for each in computed().inputs] == ["signal-low", "signal-high"]


def test_a_photo_stands_on_a_page_of_its_own_as_its_own_bytes_and_under_what_it_shows() -> None:
    """RFC 2397; one that is not here is told to be lacking, and nothing is loaded for it."""
    paper = with_photos((GREY, "the plug, green inside"), ("f" * 64, "not sent over yet"))
    whole = page(laid(paper), "", {GREY: Blob(PNG, "image/png")})
    (image,) = (known for tag, known in Html(whole).tags if tag == "img")
    assert image["alt"] == "the plug, green inside"
    assert b64decode(str(image["src"]).removeprefix("data:image/png;base64,")) == PNG
    assert "This picture is not on this device" in whole
    assert whole.index("not on this device") < whole.index("not sent over yet")


def test_a_paper_names_its_pictures_and_its_logo_first() -> None:
    """By their SHA-256; the same one twice is one."""
    paper = with_photos((GREY, "one"), (GREY, "again"))
    assert pictured(laid(paper, Look(logo="a" * 64))) == ("a" * 64, GREY)
    assert pictured(laid(paper)) == (GREY,)


def test_a_logo_is_over_the_paper_and_no_part_of_its_hash() -> None:
    """The address that it is handed with."""
    plain, headed = laid(every_block()), laid(every_block(), Look(logo=GREY))
    assert plain["hash"] == headed["hash"]
    assert '<img src="/logo" alt="The company' in article(headed, {GREY: "/logo"})
    assert "<img" not in article(plain, {GREY: "/logo"})
