"""Search finds whatever a person remembers of a system, a visit, an instrument."""

from __future__ import annotations

import pytest

from steadyhead.service.record.erasing import erase
from steadyhead.service.record.finding import find
from steadyhead.service.record.given import Given
from steadyhead.service.record.instruments import add_instrument
from steadyhead.service.record.systems import set_site, set_system
from steadyhead.service.record.temporary import leave_temporary
from steadyhead.service.record.visits import start_visit
from tests.web.client import Browser

PLATE = {"signal": "0.5..4.5 V ratiometric", "range": "0..100 psi"}
LEFT = {"what": "spare transducer of 150 psi", "why": "new one ordered", "until": "2026-05-20", "watch": "Joaquín"}


@pytest.fixture
def visit(given: Given) -> str:
    """Return a visit at a named place, with something left temporary (invented)."""
    visit = start_visit(given, {"text": "Pump hunts at night"}, sensor=PLATE, name="Café Molina")
    system = find(given, "molina").systems[0].id
    set_system(given, system, {"labels": {"wire.signal": "turquoise"}})
    set_site(given, system, {"name": "Harbour yard"})
    leave_temporary(given, visit, LEFT)
    return visit


@pytest.mark.parametrize(
    "words",
    ["cafe", "MOLINA café", "night hunts", "turquoise", "harbour", "joaquin", "150 spare", "ana", "ratiomet"],
)
def test_a_visit_is_found_by_whatever_was_written_of_it(given: Given, visit: str, words: str) -> None:
    """Capitals, accents, order and the end of a word do not matter; a place and a plate find their visits too."""
    assert visit in [each.id for each in find(given, words).visits]


@pytest.mark.parametrize("words", ["night turquoise-green", "molinas", "zzz", " "])
def test_words_that_stand_nowhere_find_nothing(given: Given, visit: str, words: str) -> None:
    """Every word must stand somewhere; blanks are no word."""
    assert visit
    assert find(given, words).nothing


def test_an_instrument_is_found_by_its_serial_number(given: Given) -> None:
    """And not by another's."""
    gauge = add_instrument(given, "gauge", {"range": "0..160 psi", "serial": "K-4471"}, name="Red gauge")
    add_instrument(given, "gauge", {"range": "0..160 psi", "serial": "K-5582"}, name="Blue gauge")
    assert [each.id for each in find(given, "k-4471").instruments] == [gauge]


def test_what_was_erased_is_not_found(given: Given, visit: str) -> None:
    """A customer's right: neither the visit nor its words."""
    erase(given, visit)
    assert visit not in [each.id for each in find(given, "joaquin").visits]


def test_the_page_lists_what_was_found_and_keeps_the_words(browser: Browser, visit: str) -> None:
    """Each line leads where it says."""
    page = browser.get("/search?words=cafe%20molina").page
    addresses = [known.get("href", "") for tag, known in page.tags if tag == "a"]
    assert f"/visits/{visit}" in addresses
    assert any(address.startswith("/systems/") for address in addresses)
    assert page.form("/search").fields["words"] == "cafe molina"


def test_the_page_says_that_nothing_was_found_and_escapes_the_words(browser: Browser) -> None:
    """What was typed is shown again as text, whatever it is."""
    answer = browser.get("/search?words=%3Cscript%3Ealert(1)%3C/script%3E")
    assert "Nothing holds all of these words" in answer.page.said
    assert "<script>alert" not in answer.text
