"""Answers kept beyond the process: told apart by all that they hang on, and by nothing else."""

from __future__ import annotations

import subprocess
import sys
from dataclasses import replace
from importlib.resources import files

import pytest

from steadyhead.diagnosis.answer import Answer
from steadyhead.diagnosis.diagnose import diagnose
from steadyhead.diagnosis.estimates import SHIPPED, Row
from steadyhead.diagnosis.memory import Memory
from steadyhead.service import kept_answers
from steadyhead.service.kept_answers import ENGINE, KeptAnswers
from steadyhead.visit import parse_visit
from steadyhead.visit.record import Complaint, Site, Visit
from tests.diagnosis.visits import HOUSE, VAN, gauge, signal

VISIT = parse_visit(HOUSE + VAN + gauge("50 psi") + signal("2.42 V")).visit
SLOWER = SHIPPED.replaced({("arrangements", "vented"): Row(25.0, "no cocks here")})


class Texts:
    """Keeps texts in memory."""

    def __init__(self) -> None:
        self.kept: dict[str, str] = {}

    def get(self, key: str) -> str | None:
        """Return the text of a key."""
        return self.kept.get(key)

    def put(self, key: str, text: str) -> None:
        """Keep a text."""
        self.kept[key] = text

    def close(self) -> None:
        """Let nothing go: there is nothing but this."""


def never() -> Answer:
    """Fail: nothing should be worked out."""
    pytest.fail("worked out anew")


@pytest.fixture
def texts() -> Texts:
    """Return where answers are kept."""
    return Texts()


def test_what_was_answered_before_is_not_worked_out_again(texts: Texts) -> None:
    """The same answer, from a shelf that somebody else has filled."""
    fresh = diagnose(VISIT, memory=Memory(KeptAnswers(texts)))
    assert KeptAnswers(texts).of(VISIT, SHIPPED, never) == fresh


def test_the_engine_asks_who_keeps_answers(texts: Texts) -> None:
    """What stands on the shelf is the answer: it is the one of another visit here, to tell it by."""
    kept = KeptAnswers(texts)
    other = replace(VISIT, readings=VISIT.readings[:1])
    answer = diagnose(other, memory=Memory(kept))
    texts.kept = {kept.key(VISIT, SHIPPED): text for text in texts.kept.values()}
    assert diagnose(VISIT, memory=Memory(kept)) == answer


@pytest.mark.parametrize("damaged", ["", "{}", '{"is":"Answer"}'])
def test_a_text_that_is_no_answer_is_worked_out_anew_and_mended(texts: Texts, damaged: str) -> None:
    """A text from nowhere costs time alone."""
    kept = KeptAnswers(texts)
    texts.put(kept.key(VISIT, SHIPPED), damaged)
    fresh = diagnose(VISIT)
    assert kept.of(VISIT, SHIPPED, lambda: fresh) == fresh
    assert kept.of(VISIT, SHIPPED, never) == fresh


@pytest.mark.parametrize(
    "other",
    [
        replace(VISIT, readings=VISIT.readings[:1]),
        replace(VISIT, pressure_unit="bar"),
        replace(VISIT, cable=replace(VISIT.cable, length_m=12.1)),
        replace(VISIT, complaint=Complaint(since="sudden")),
        replace(VISIT, site=Site(altitude_m=900.0)),
    ],
)
def test_whatever_an_answer_hangs_on_makes_another_key(other: Visit) -> None:
    """A reading less, another unit, another plate, what was said, where it stands; units and the rest compare equal."""
    kept = KeptAnswers(Texts())
    assert kept.key(other, SHIPPED) != kept.key(VISIT, SHIPPED)


def test_other_estimates_and_another_engine_make_other_keys() -> None:
    """What it judges by, and who judges."""
    kept = KeptAnswers(Texts())
    assert kept.key(VISIT, SLOWER) != kept.key(VISIT, SHIPPED)
    assert KeptAnswers(Texts(), lambda: "other").key(VISIT, SHIPPED) != kept.key(VISIT, SHIPPED)


def test_names_and_labels_make_no_other_key_and_no_other_answer() -> None:
    """A property: a renamed label changes nothing (the same two visits answer alike), so both share what is kept."""
    named = replace(
        VISIT, site=Site(name="Miller"), labels={"controller.signal": "AI1"}, complaint=Complaint(text="no water")
    )
    kept = KeptAnswers(Texts())
    assert kept.key(named, SHIPPED) == kept.key(VISIT, SHIPPED)
    assert diagnose(named) == diagnose(VISIT)


def test_the_engines_digest_covers_every_module_that_an_answer_hangs_on() -> None:
    """What Python loads for a diagnosis, in a process of its own, lies in the packages of the digest."""
    code = "import sys, steadyhead.diagnosis.diagnose; print(*[m for m in sys.modules if m.startswith('steadyhead.')])"
    loaded = subprocess.run([sys.executable, "-c", code], capture_output=True, check=True, encoding="utf-8").stdout
    tops = {name.split(".")[1] for name in loaded.split()}
    assert tops <= {name.removesuffix(".py") for name in ENGINE}


def test_the_engines_digest_changes_with_a_byte_of_it(monkeypatch: pytest.MonkeyPatch) -> None:
    """A module less is another engine; asked twice it is the same."""
    monkeypatch.setattr(kept_answers, "_parts", lambda root: [root / "messages.py", root / "errors.py"])
    one = kept_answers.engine.__wrapped__()
    monkeypatch.setattr(kept_answers, "_parts", lambda root: [root / "messages.py"])
    assert kept_answers.engine.__wrapped__() != one
    monkeypatch.undo()
    names = [part.name for part in kept_answers._parts(files("steadyhead"))]
    assert {"messages.py", "rough.py", "solve.py", "record.py"} <= set(names)
    assert "text.py" not in names
