"""The calibration on makes that were left out: folds, scores by hand, and that nothing is chosen on the test fold."""

from __future__ import annotations

import doctest
import json
from math import log
from pathlib import Path
from typing import Any

import pytest

from benchmarks import calibration
from benchmarks.calibration import Stated, by_remedy, folds, left_out, main, stated
from benchmarks.truth.cases import draw_case
from benchmarks.truth.play import play
from benchmarks.truth.score import record
from tests.benchmarks.test_truth_play import scripted
from tests.benchmarks.tidy import need_ngspice


def told(supply: str, truth: str, *steps: dict[str, float]) -> dict[str, Any]:
    """Return a record of one case."""
    return {
        "seed": "1:0", "kind": "three-wire", "make": {"supply": supply, "sensor": "series", "signal": "0..10 V"},
        "fault": "x", "truth": truth, "file": "",
        "steps": [{"readings": k, "remedies": remedies} for k, remedies in enumerate(steps)],
    }  # fmt: skip


def test_the_examples_hold() -> None:
    """They stand beside what they show; each was worked out by hand."""
    failed, tried = doctest.testmod(calibration)
    assert (failed, tried > 0) == (0, True)


def test_every_case_is_in_one_fold_of_each_device() -> None:
    """A property of a partition."""
    records = [told("soft", "a", {"a": 1.0}), told("hiccup", "b", {"a": 1.0}), told("soft", "b", {"b": 1.0})]
    parted = folds(records, "supply")
    assert {name: len(held) for name, held in parted.items()} == {"hiccup": 1, "soft": 2}
    assert [r for held in folds(records, "sensor").values() for r in held] == records


def test_a_remedys_calibration_counts_its_own_chance() -> None:
    """By hand: 0.8 stated twice and true once is 0.3 off; 0.2 twice and true once as much the other way."""
    answers = [Stated(0, {"a": 0.8, "b": 0.2}, "a"), Stated(1, {"a": 0.8, "b": 0.2}, "b")]
    found = by_remedy(answers)
    assert {name: (round(error, 9), right, n) for name, (error, right, n) in found.items()} == {
        "a": (0.3, 0.5, 2),
        "b": (0.3, 0.5, 2),
    }


def test_the_likeliest_remedy_is_the_first_and_a_pair_is_right_in_any_order() -> None:
    """The rule that scores a run: both parts, whatever their order."""
    (answer,) = stated([told("soft", "b+a", {"a+b": 0.6, "a": 0.4})])
    assert answer.first == (0.6, True)


def test_nothing_of_the_fold_that_is_left_out_chooses_its_tempering() -> None:
    """A property: whatever the fold's own scores are, the choice stays."""
    others = {"soft": [{0.6: -1.0, 1.0: -0.5}], "hiccup": [{0.6: -0.2, 1.0: -0.9}]}
    for own in ({0.6: 0.0, 1.0: -9.0}, {0.6: -9.0, 1.0: 0.0}):
        chosen = {each.fold: each.chosen for each in left_out({**others, "foldback": [own]})}
        assert chosen["foldback"] == 0.6
        means = {each.fold: each.elsewhere for each in left_out({**others, "foldback": [own]})}
        assert means["foldback"] == {0.6: pytest.approx(-0.6), 1.0: pytest.approx(-0.7)}


def test_a_case_is_scored_by_the_chance_of_what_came_true() -> None:
    """Closed form, and the least chance that is scored."""
    assert calibration.log_score({"a": 0.25, "b": 0.75}, "a") == pytest.approx(log(0.25))
    assert calibration.log_score({"b": 1.0}, "a") == pytest.approx(log(calibration.LEAST))


@pytest.mark.ngspice
def test_a_run_records_makes_and_chances_and_they_are_read_again(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """The scripted tool states 0.6 and 0.4 after none to three readings, which is what stands in the file."""
    need_ngspice()
    records = [record(play(draw_case(f"t:{n}", "two-wire"), scripted)) for n in range(2)]
    assert all(set(r["make"]) == set(calibration.DEVICES) for r in records)
    assert {tuple(step["remedies"].values()) for r in records for step in r["steps"]} == {(0.6, 0.4)}
    assert all("[[reading]]" in r["file"] for r in records)
    out = tmp_path / "run.json"
    out.write_text(json.dumps({"records": records}), encoding="utf-8")
    assert main([str(out), "--by", "signal"]) == 0
    assert "4..20 mA: 2 cases" in capsys.readouterr().out
