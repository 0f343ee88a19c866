"""The customer's report: one page, plain words, honest about what is proved."""

from __future__ import annotations

import pytest

from steadyhead.documents.laid import Look
from steadyhead.service.papers.customer import WATCH, customer_report
from steadyhead.service.papers.kinds import paper_of
from steadyhead.service.papers.occasion import of_file
from steadyhead.service.papers.pieces import told_cautions
from steadyhead.visit import parse_visit
from steadyhead.visit.remedies import REMEDIES
from steadyhead.words.remedy_names import DONE
from steadyhead.words.sentences import ENGLISH
from tests.service.papers.occasions import ENGINE, example, fresh, text_of, worded


def said_of(name: str) -> str:
    """Return what the report of an example says."""
    return text_of(worded(customer_report(example(name)), example(name)))


@pytest.mark.parametrize("name", ["house-damp-cable", "amplified-frost-damage"])
def test_it_says_what_was_wrong_what_was_done_and_what_it_shows(name: str) -> None:
    """The heads of the report, and the customer's own words."""
    said = said_of(name)
    assert all(head in said for head in ("What was wrong", "What was done", "What it shows now"))
    assert str(example(name).visit.complaint.text) in said
    assert said.count("Local codes and a licensed person come first.") == 1


def test_what_was_not_mended_is_told_as_still_to_be_done() -> None:
    """A file without an action: proved, and nothing mended."""
    said = said_of("house-damp-cable")
    assert "Nothing was changed on this visit." in said
    assert "Still to be done: mend the cable" in said
    assert "What to watch" not in said


def test_no_repair_is_told_to_a_customer_before_it_is_settled_which_one() -> None:
    """A plate and no reading: each cause is a guess, the likeliest about 1 in 10."""
    file = parse_visit('schema = 1\n[sensor]\nsignal = "4..20 mA"\nrange = "0..10 bar"\n')
    seen = of_file(file, ENGINE.answer(file.visit), ENGINE)
    said = text_of(worded(customer_report(seen), seen))
    assert "This is not known yet: nothing was read." in said
    assert "Still to be done: find what is at fault." in said
    assert "Still to be done: mend" not in said
    claim = text_of(worded(paper_of("warranty", seen), seen))
    assert "Nothing to claim yet" in claim
    assert "what was found" not in claim
    onward = text_of(worded(paper_of("next", seen), seen))
    assert "every reading fits" not in onward


def test_after_a_repair_it_says_what_to_watch_and_that_nothing_was_read_since() -> None:
    """A file whose only action comes after its last reading."""
    said = said_of("amplified-frost-damage")
    assert "The pressure transducer was replaced." in said
    assert "Nothing was read after the repair." in said
    assert "What to watch" in said


def test_figures_keep_the_digits_in_which_they_were_read_with_either_decimal_sign() -> None:
    """72 psi was written without a digit after its sign, 21.8 psi with one."""
    seen = example("house-damp-cable")
    for sign in (".", ","):
        look = Look(decimal="," if sign == "," else ".")
        blocks = worded(customer_report(fresh(seen)), seen, look=look)["blocks"]
        rows = next(block for block in blocks if block["is"] == "table")["rows"]
        assert [row[1]["digits"] for row in rows] == ["72", f"21{sign}8", f"1{sign}37", f"4{sign}99"]
        assert [row[1]["pad"] for row in rows] == [f"{sign}00", "0", "", ""]


@pytest.mark.parametrize("name", ["house-damp-cable", "house-noise"])
def test_a_caution_is_told_once_however_often_it_held(name: str) -> None:
    """Local codes first, and no caution twice."""
    ids = [line[0].id for line in told_cautions(example(name)).lines]  # type: ignore[union-attr]
    assert ids[0] == "local-codes-first"
    assert len(ids) == len(set(ids))


def test_what_to_watch_belongs_to_repairs_that_exist_and_can_be_said() -> None:
    """The remedies of the vocabulary, and the sentences."""
    assert set(WATCH) <= set(REMEDIES)
    assert {each.id for told in WATCH.values() for each in told} <= set(ENGLISH)
    assert set(DONE) >= set(REMEDIES)
