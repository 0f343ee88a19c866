"""The answer as JSON values: sums, order, words; what a label changes and what it does not."""

from __future__ import annotations

import dataclasses
import re
from math import isclose

import pytest

from steadyhead.diagnosis.observing import Question
from steadyhead.diagnosis.shipped import REPAIRS
from steadyhead.errors import VisitFileError
from steadyhead.loop.faults import FAULTS
from steadyhead.service.answer_json import NO_SIZE, answer_json, source_text
from steadyhead.service.diagnosis import diagnose_text, speaker_of
from steadyhead.service.repair_cautions import REPAIR_CAUTIONS, repair_cautions
from steadyhead.words.sentences import ENGLISH
from tests.service.answers import NAMES, answer, as_json, visit

QUICK = "booster-reversed-loop"
SUM_ERROR = 1e-9  #: of probability, the contract's own figure


@pytest.mark.parametrize("name", NAMES)
def test_probabilities_sum_to_one_and_fall(name: str) -> None:
    """The contract: each list sums to 1 within 1e-9, the most probable first."""
    found = as_json(name)
    for listed in (found["suspects"], found["remedies"]):
        odds = [each["probability"] for each in listed]
        assert isclose(sum(odds), 1.0, abs_tol=SUM_ERROR)
        assert odds == sorted(odds, reverse=True)


@pytest.mark.parametrize("name", NAMES)
def test_each_remedy_has_the_odds_of_its_suspects(name: str) -> None:
    """Closed form: a sum over the suspects that it mends."""
    found = as_json(name)
    for remedy in found["remedies"]:
        mended = [s["probability"] for s in found["suspects"] if s["remedy"] == remedy["remedy"]]
        assert isclose(sum(mended), remedy["probability"], abs_tol=SUM_ERROR)


@pytest.mark.parametrize("name", NAMES)
def test_the_verdict_names_the_most_probable_remedy(name: str) -> None:
    """The contract: always the most probable, also while open."""
    found = as_json(name)
    assert found["verdict"]["remedy"] == found["remedies"][0]["remedy"]


@pytest.mark.parametrize("name", NAMES)
def test_every_text_is_a_sentence_and_no_id(name: str) -> None:
    """Sentences have no braces, no point ids and no decimals of probability."""
    texts = [text["text"] for text in _messages(as_json(name))]
    assert [text for text in texts if re.search(r"[{}]|(controller|sensor|wire)\.\w|\(\w+=", text)] == []


def _messages(value: object) -> list[dict[str, str]]:
    if isinstance(value, dict):
        own = [value] if set(value) == {"id", "values", "text"} else []
        return own + [found for each in value.values() for found in _messages(each)]
    return [found for each in value for found in _messages(each)] if isinstance(value, list) else []


def test_another_label_changes_words_and_no_number() -> None:
    """A property: the same answer, said for two panels, differs in its texts alone."""
    found = visit(QUICK)
    other = dataclasses.replace(found, labels={"controller.signal": "ZZ9", "wire.signal": "mauve"})
    one, two = (answer_json(answer(QUICK), speaker_of(v), current=True) for v in (found, other))
    assert _without_text(one) == _without_text(two)


def _without_text(value: object) -> object:
    if isinstance(value, dict):
        return {key: _without_text(each) for key, each in value.items() if key != "text"}
    return [_without_text(each) for each in value] if isinstance(value, list) else value


def test_a_renamed_label_in_the_file_changes_no_number() -> None:
    """A property: the whole way from the text of a file, with and without labels."""
    text = 'schema = 1\n[sensor]\nsignal = "4..20 mA"\nrange = "0..10 bar"\n'
    labels = '[labels]\n"controller.signal" = "AI2"\n"wire.signal" = "white"\n'
    one, two = diagnose_text(text), diagnose_text(text + labels)
    assert _without_text(one) == _without_text(two)
    assert any("AI2" in check["how"]["text"] for check in two["next_checks"])


def test_a_broken_text_is_refused_by_its_name() -> None:
    """The name given here comes back in the message."""
    with pytest.raises(VisitFileError, match="visit-file-refused") as refused:
        diagnose_text("schema = 1\n", "mine.toml")
    assert refused.value.message.values["file"] == "mine.toml"


@pytest.mark.parametrize(
    ("source", "current", "said"),
    [(0.012, True, "12 mA"), (2.5, False, "2.5 V"), (0.0, True, "0 mA"), (0.0, False, "0 V"), (None, True, None)],
)
def test_a_source_is_spelled_as_a_file_spells_it(source: float | None, current: bool, said: str | None) -> None:
    """The spelling of the file format; nothing is told by the figure's size."""
    assert source_text(Question("displayed-pressure", "source-at-controller", source=source), current=current) == said


def test_only_faults_of_the_table_are_without_a_size() -> None:
    """The fault table."""
    assert {f.id for f in FAULTS if f.severity is not None} >= NO_SIZE


def test_every_repair_that_is_planned_has_its_cautions() -> None:
    """The table of repairs and their minutes."""
    assert set(REPAIRS) - set(REPAIR_CAUTIONS) == set()
    assert all(each.id in ENGLISH for told in REPAIR_CAUTIONS.values() for each in told)


def test_work_on_wires_and_boards_begins_with_lock_out_and_prove_dead() -> None:
    """Common practice, and every electrical code: lock out, wait, prove the tester, prove dead."""
    for remedy in ("repair-cable", "correct-wiring", "replace-board", "replace-sensor", "remove-load"):
        first = [each.id for each in repair_cautions(remedy)[:3]]
        assert first == ["lock-out", "capacitors-hold-charge", "prove-tester-then-dead"]


def test_a_pair_of_repairs_has_the_cautions_of_both_once() -> None:
    """Closed form: a union in order."""
    both = [each.id for each in repair_cautions("repair-cable+replace-sensor")]
    assert len(both) == len(set(both))
    wanted = {each.id for part in ("repair-cable", "replace-sensor") for each in repair_cautions(part)}
    assert set(both) == wanted
