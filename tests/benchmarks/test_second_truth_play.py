"""The second truth's game: the same case again, minutes, the engine's words, and what a run says."""

import ast
import ctypes
import doctest
import json
import re
import sys
import tomllib
from collections.abc import Mapping
from pathlib import Path
from typing import Any

import pytest

from benchmarks.second_truth import __main__ as command
from benchmarks.second_truth import score, spice
from benchmarks.second_truth.cases import draw_case
from benchmarks.second_truth.faults import THREE_WIRE, TWO_WIRE, remedy_of
from benchmarks.second_truth.formats import number
from benchmarks.second_truth.game import Play
from benchmarks.second_truth.visit import open_visit
from benchmarks.second_truth.witness import CannotAnswerError, Check, Witness
from steadyhead.loop.faults import faults_of
from tests.benchmarks.second_tidy import KINDS, SIGNAL, Asker, everything, need_ngspice, tidy
from tests.support import ROOT

PACKAGE = ROOT / "benchmarks" / "second_truth"
NOT_THERE = {"measure": "milliamps", "arrangement": "connected"}  # a current reading with all wires on


@pytest.fixture
def _ngspice() -> None:
    need_ngspice()


simulated = pytest.mark.usefixtures("_ngspice")


@pytest.mark.ngspice
@simulated
@pytest.mark.parametrize("kind", KINDS)
def test_a_seed_gives_the_same_case_and_readings_in_another_order(kind: str) -> None:
    """A property that every comparison needs: noise belongs to the check and its repeat, not to what came before."""
    once, again = draw_case("same:3", kind), draw_case("same:3", kind)
    assert once == again

    def told(witness: Witness, checks: list[Check]) -> dict[str, list[str]]:
        found: dict[str, list[str]] = {}
        for check in checks:
            try:
                value = witness.answer(check)
            except CannotAnswerError as reason:
                value = f"declined: {reason}"
            found.setdefault(json.dumps(check), []).append(value)
        return found

    straight = everything(kind) * 2
    assert told(Witness(once), straight) == told(Witness(again), straight[::-1])
    assert open_visit(once, "none").text() == open_visit(again, "none").text()


@pytest.mark.ngspice
@simulated
def test_a_declined_check_costs_nothing_and_is_written_down() -> None:
    """By the protocol: no minutes, no reading, the leads where they were, and its reason in the file."""
    game = Play(tidy("three-wire"), Asker())
    before = (game.clock.minutes, game.clock.standing, game.clock.at_sensor, len(game.visit.readings))
    game.take({**NOT_THERE, "red": "sensor.signal", "black": "sensor.common"})
    assert (game.clock.minutes, game.clock.standing, game.clock.at_sensor, len(game.visit.readings)) == before
    assert "only in the signal wire" in tomllib.loads(game.visit.text())["declined"][0]["why"]


@pytest.mark.ngspice
@simulated
def test_minutes_are_charged_as_the_description_says() -> None:
    """By hand: covers off 2 + 1, again 1, to the sensor 5 + 1, back 1 with the leads lifted 6 + 1, the screen 0.3."""
    game = Play(tidy("three-wire"), Asker())
    begun = game.clock.minutes
    at_pins = {"red": "sensor.signal", "black": "sensor.common", "arrangement": "connected"}
    at_terminals = {"red": SIGNAL[0], "black": SIGNAL[1], "arrangement": "connected"}
    spent = []
    for check in (at_terminals, at_terminals, at_pins, {**at_terminals, "arrangement": "sensor-leads-lifted"}):
        game.take({"measure": "volts", **check})
        spent.append(game.clock.minutes - begun)
    game.take({"measure": "displayed-pressure", "arrangement": "sensor-leads-lifted"})
    assert [*spent, game.clock.minutes - begun] == pytest.approx([3.0, 4.0, 10.0, 18.0, 18.3])


@pytest.mark.parametrize(("kind", "drawn"), [("three-wire", THREE_WIRE), ("two-wire", TWO_WIRE)])
def test_every_fault_that_it_draws_is_one_of_the_words(kind: str, drawn: Mapping[str, float]) -> None:
    """Two tables written apart from one description: the engine's ids, and the remedy of each."""
    wires, kinds = (2, ("loop",)) if kind == "two-wire" else (3, ("ratiometric", "voltage"))
    words = {f.id: f.remedy for name in kinds for f in faults_of(wires, name)}
    assert set(drawn) <= set(words), set(drawn) - set(words)
    assert {fault: remedy_of(fault) for fault in drawn} == {fault: words[fault] for fault in drawn}


@pytest.mark.ngspice
@simulated
@pytest.mark.parametrize(("kind", "drawn"), [("three-wire", THREE_WIRE), ("two-wire", TWO_WIRE)])
def test_a_run_keeps_to_the_faults_of_its_table(kind: str, drawn: Mapping[str, float]) -> None:
    """Each case hides one fault of the table, and would have been called about: the screen is off, or shows a word."""
    for seed in range(40):
        case = draw_case(f"words:{seed}", kind)
        assert case.fault.id in drawn
        if case.fault.id in {"none", "meter-wrong", "vacuum"}:
            continue
        screen = [{"measure": m, "arrangement": "connected"} for m in ("displayed-pressure", "displayed-fault")]
        shown = [Witness(case).answer(check) for check in screen]
        off = abs(number(shown[0]) - number(Witness(case).answer({"measure": "gauge-pressure"})))
        assert shown[1] != "none" or "jumping" in shown[0] or off > 0.045 * case.system.top


def test_it_imports_nothing_of_the_engine_and_nothing_of_the_first_truth() -> None:
    """Its independence is its whole worth: every import is the standard library's or its own."""
    files = sorted(PACKAGE.glob("*.py"))
    assert len(files) > 10
    for file in files:
        tree = ast.parse(file.read_text(encoding="utf-8"))
        names = [alias.name for node in ast.walk(tree) if isinstance(node, ast.Import) for alias in node.names]
        names += [str(node.module) for node in ast.walk(tree) if isinstance(node, ast.ImportFrom) and not node.level]
        assert not any(node.level for node in ast.walk(tree) if isinstance(node, ast.ImportFrom)), file.name
        own = [name for name in names if name.split(".")[:2] == ["benchmarks", "second_truth"]]
        foreign = [name for name in names if name not in own and name.split(".")[0] not in sys.stdlib_module_names]
        assert foreign == [], file.name
        spoken = [node.value for node in ast.walk(tree) if isinstance(node, ast.Constant)]
        assert "steadyhead" not in spoken or file.name == "__main__.py"  # where a run meets the tool by its name


# What a run says -----------------------------------------------------------------------------------


def test_wilson_and_calibration_follow_their_closed_forms() -> None:
    """Wilson 1927 for 0 of n: z^2/(n + z^2) = 3.8415/13.8415; 10 answers off by 0.1 and 10 by 0.3: 0.2."""
    assert score.wilson(0, 10) == pytest.approx((0.0, 3.841459 / 13.841459), abs=1e-6)
    assert score.wilson(10, 10) == pytest.approx((10 / 13.841459, 1.0), abs=1e-6)
    stated = [(0.9, True)] * 8 + [(0.9, False)] * 2 + [(0.5, True)] * 8 + [(0.5, False)] * 2
    assert score.calibration_error(stated) == pytest.approx(0.2)


def test_the_examples_of_the_figures_hold() -> None:
    """They stand beside what they show; each was worked out by hand."""
    failed, tried = doctest.testmod(score)
    assert (failed, tried) == (0, 2)


def _result(said: str, truth: str, state: str, chance: float) -> dict[str, Any]:
    right = said == truth
    return {
        "seed": "1:0", "fault": "x", "severity": None, "place": None, "truth": truth, "remedy": said, "right": right,
        "state": state, "minutes": 10.0, "minutes_with_wrong_remedy": 10.0 + 120.0 * (not right),
        "steps": [{"probability": 0.1}, {"probability": chance}],
    }  # fmt: skip


def test_a_run_is_summed_up_as_one_does_it_by_hand() -> None:
    """Five asked, two right; one good sensor condemned; of two proofs one right; the truth's own failure left out."""
    found = score.summarise(
        [
            _result("repair-cable", "repair-cable", "proved", 0.9),
            _result("replace-sensor", "repair-cable", "proved", 0.9),
            _result("none", "replace-sensor", "best-guess", 0.6),
            _result("replace-board", "replace-board", "best-guess", 0.6),
            {"seed": "1:4", "error": "ZeroDivisionError: by zero", "by": "tool"},
            {"seed": "1:5", "error": "NoOperatingPointError: x\nR1 a b 1", "by": "truth"},
        ]
    )
    counts = [(share.hits, share.of) for share in (found.right, found.condemned, found.proved_right)]
    assert counts == [(2, 5), (1, 5), (1, 2)]
    assert (found.minutes, found.minutes_with_wrong_remedy) == (10.0, 70.0)
    assert found.calibration_error == pytest.approx((abs(1.8 - 1) + abs(1.2 - 1)) / 4)
    assert [result["seed"] for result in found.wrong] == ["1:0", "1:0", "1:4"]
    text = score.render(found)
    assert "1:4        no answer: ZeroDivisionError: by zero" in text
    assert "R1" not in text


@pytest.mark.ngspice
@simulated
def test_the_command_writes_a_line_a_case_and_ends_with_the_figures(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """A tool that always says `none` is right as often as the loops are healthy, and proved each time."""
    out = tmp_path / "out.jsonl"
    words = ["--kind", "two-wire", "--seed", "said", "--json", str(out)]
    for first, cases in (("0", "2"), ("2", "6")):
        assert command.main([*words, "--from", first, "--cases", cases], Asker(remedy="none")) == 0
    lines = [json.loads(line) for line in out.read_text(encoding="utf-8").splitlines()]
    assert [line["seed"] for line in lines] == [f"said:{number}" for number in range(6)]
    healthy = sum(line["fault"] == "none" for line in lines[2:])
    assert f"right remedy         {healthy} of 4" in capsys.readouterr().out.split("minutes")[-2]
    wrong = next(line for line in lines if line["fault"] != "none")
    assert command.main(["--kind", "two-wire", "--case", wrong["seed"], "--trace"], Asker(remedy="none")) == 1
    told = capsys.readouterr().out
    assert f"truth: {wrong['fault']}" in told
    assert told.startswith("schema = 1")


@pytest.mark.ngspice
@simulated
def test_a_tool_that_raises_is_wrong_and_the_run_goes_on(capsys: pytest.CaptureFixture[str]) -> None:
    """Two cases, two failures of the tool, none right."""

    def broken(_text: str) -> Mapping[str, Any]:
        raise KeyError

    assert command.main(["--cases", "2"], broken) == 0
    said = capsys.readouterr().out
    assert re.findall(r"NO ANSWER of the (\w+): (\w+)", said) == [("tool", "KeyError")] * 2
    assert "0 of 2" in said


def test_without_ngspice_it_says_so_in_one_line(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """Exit code 2, and no traceback."""

    def missing(_name: str) -> ctypes.CDLL:
        raise OSError

    monkeypatch.setattr(ctypes, "CDLL", missing)
    monkeypatch.setattr(command, "solver", spice.solver.__wrapped__)
    assert command.main(["--cases", "1"], Asker()) == 2
    assert capsys.readouterr().err == "ngspice's shared library is not installed (Debian: libngspice0)\n"
