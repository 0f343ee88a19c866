"""Answers kept beyond the process: told apart by all that they hang on, and by nothing else."""

from __future__ import annotations

import subprocess
import sys
from collections.abc import Callable
from dataclasses import replace
from importlib.resources import files
from typing import Any

import pytest

from steadyhead.diagnosis.answer_text import DIAGNOSIS
from steadyhead.diagnosis.diagnose import diagnose
from steadyhead.diagnosis.estimates import SHIPPED, Row
from steadyhead.diagnosis.memory import Memory
from steadyhead.service import kept_answers
from steadyhead.service.kept_answers import ENGINE, KeptAnswers
from steadyhead.service.packing import pack_json
from steadyhead.service.papers.occasion import thinking
from steadyhead.service.why import why
from steadyhead.visit import parse_visit
from steadyhead.visit.record import Complaint, Site, Visit
from steadyhead.words import Speaker
from tests.diagnosis.visits import HOUSE, VAN, gauge, signal

VISIT = parse_visit(HOUSE + VAN + gauge("50 psi") + signal("2.42 V")).visit
WORD = DIAGNOSIS.what
NAMED = replace(
    VISIT, site=Site(name="Miller"), labels={"controller.signal": "AI1"}, complaint=Complaint(text="no water")
)
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


def never() -> Any:  # noqa: ANN401 - whatever is asked
    """Fail: nothing should be worked out."""
    pytest.fail("worked out anew")


@pytest.fixture
def texts() -> Texts:
    """Return where answers are kept."""
    return Texts()


def test_what_was_answered_before_is_not_worked_out_again(texts: Texts) -> None:
    """The same answer, from a shelf that somebody else has filled."""
    fresh = diagnose(VISIT, memory=Memory(KeptAnswers(texts)))
    assert KeptAnswers(texts).of(VISIT, SHIPPED, DIAGNOSIS, never) == fresh


def test_the_engine_asks_who_keeps_answers(texts: Texts) -> None:
    """What stands on the shelf is the answer: it is the one of another visit here, to tell it by."""
    kept = KeptAnswers(texts)
    other = replace(VISIT, readings=VISIT.readings[:1])
    answer = diagnose(other, memory=Memory(kept))
    texts.kept = {kept.key(VISIT, SHIPPED, WORD): text for text in texts.kept.values()}
    assert diagnose(VISIT, memory=Memory(kept)) == answer


def engine_gone(monkeypatch: pytest.MonkeyPatch) -> None:
    """From now on fail wherever the engine weighs anything."""
    for where in ("diagnose.diagnosed", "reasons.opened_belief", "reasons.suspected", "opening.believe"):
        monkeypatch.setattr(f"steadyhead.diagnosis.{where}", never)
    monkeypatch.setattr("steadyhead.diagnosis.packing.believed", never)
    monkeypatch.setattr("steadyhead.diagnosis.packing_instruments.believed", never)


@pytest.mark.parametrize(
    "ask",
    [
        lambda memory: why(VISIT, "sensor-low", Speaker(), memory=memory),
        lambda memory: why(VISIT, "Transducer stuck low", Speaker(), memory=memory),
        lambda memory: pack_json(VISIT, memory=memory),
        lambda memory: thinking(SHIPPED, memory).answer(VISIT),
        lambda memory: thinking(SHIPPED, memory).reasons(VISIT, "sensor-low"),
    ],
    ids=["why", "why, by its name", "what to load", "a paper's answer", "a paper's reasons"],
)
def test_a_reopened_home_asks_the_engine_nothing_again(
    texts: Texts, ask: Callable[[Memory], Any], monkeypatch: pytest.MonkeyPatch
) -> None:
    """The same to the last digit, which ``repr`` tells, from a shelf that was filled before; the engine is gone."""
    fresh = ask(Memory(KeptAnswers(texts)))
    assert repr(fresh) == repr(ask(Memory()))
    engine_gone(monkeypatch)
    assert repr(ask(Memory(KeptAnswers(texts)))) == repr(fresh)


@pytest.mark.parametrize("damaged", ["", "{}", '{"is":"Answer"}'])
def test_a_text_that_is_no_answer_is_worked_out_anew_and_mended(texts: Texts, damaged: str) -> None:
    """A text from nowhere costs time alone."""
    kept = KeptAnswers(texts)
    texts.put(kept.key(VISIT, SHIPPED, WORD), damaged)
    fresh = diagnose(VISIT)
    assert kept.of(VISIT, SHIPPED, DIAGNOSIS, lambda: fresh) == fresh
    assert kept.of(VISIT, SHIPPED, DIAGNOSIS, never) == fresh


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
    assert kept.key(other, SHIPPED, WORD) != kept.key(VISIT, SHIPPED, WORD)


def test_other_estimates_another_engine_and_another_question_make_other_keys() -> None:
    """What it judges by, who judges, and what is asked."""
    kept = KeptAnswers(Texts())
    assert kept.key(VISIT, SLOWER, WORD) != kept.key(VISIT, SHIPPED, WORD)
    assert KeptAnswers(Texts(), lambda: "other").key(VISIT, SHIPPED, WORD) != kept.key(VISIT, SHIPPED, WORD)
    assert kept.key(VISIT, SHIPPED, "why:sensor-low") != kept.key(VISIT, SHIPPED, WORD)


def test_names_and_labels_make_no_other_key_and_no_other_answer() -> None:
    """A property: a renamed label changes nothing (the same two visits answer alike), so both share what is kept."""
    kept = KeptAnswers(Texts())
    assert kept.key(NAMED, SHIPPED, WORD) == kept.key(VISIT, SHIPPED, WORD)
    assert diagnose(NAMED) == diagnose(VISIT)
    assert why(NAMED, "sensor-low", Speaker()) == why(VISIT, "sensor-low", Speaker())
    assert pack_json(NAMED) == pack_json(VISIT)


def test_the_engines_digest_covers_every_module_that_an_answer_hangs_on() -> None:
    """What Python loads for all that is kept, in a process of its own, lies in the packages of the digest."""
    asked = ("diagnose", "reasons", "packing", "packing_instruments")
    code = "import sys, {}; print(*[m for m in sys.modules if m.startswith('steadyhead.')])".format(
        ", ".join(f"steadyhead.diagnosis.{each}" for each in asked)
    )
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
