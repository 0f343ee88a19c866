"""The benchmark's game: minutes, scores, the protocol, and that every fault can be drawn and written as a visit."""

import doctest
import json
import sys
import tomllib
from collections.abc import Mapping
from pathlib import Path
from types import ModuleType
from typing import Any

import pytest

from benchmarks.closed_loop import command_tool, main, play
from benchmarks.truth import faults, fixed_order, instruments, score
from benchmarks.truth import play as play_module
from benchmarks.truth.case import Kind
from benchmarks.truth.cases import draw_case
from benchmarks.truth.faults import REMEDIES, ids, remedy_of
from benchmarks.truth.minutes import SET_UP, Clock
from benchmarks.truth.play import condemned
from benchmarks.truth.score import calibration_error, wilson
from benchmarks.truth.visit_text import first_checks, write_visit
from benchmarks.truth.witness import Witness
from steadyhead.loop.vocabulary import ARRANGEMENTS
from tests.benchmarks.tidy import need_ngspice

SIGNAL = {"measure": "volts", "red": "controller.signal", "black": "controller.common", "arrangement": "connected"}
AT_SENSOR = {"measure": "volts", "red": "sensor.signal", "black": "sensor.common", "arrangement": "connected"}
KINDS: tuple[Kind, ...] = ("three-wire", "two-wire")


def scripted(text: str) -> Mapping[str, Any]:
    """A tool that takes two checks, then settles on the sensor: it speaks the answer's shape and nothing more."""
    taken = len(tomllib.loads(text).get("reading", ())) - 3
    done = taken >= 3
    check = {**SIGNAL, "source": None, "item": None} if taken < 2 else {"measure": "inspection", "item": "connections"}
    return {
        "verdict": {"state": "proved" if done else "open", "settled": done, "remedy": "replace-sensor"},
        "remedies": [{"remedy": "replace-sensor", "probability": 0.6}, {"remedy": "none", "probability": 0.4}],
        "next_checks": [] if done else [check],
    }


def endless(_text: str) -> Mapping[str, Any]:
    """A tool that never settles."""
    return {
        "verdict": {"state": "open", "settled": False, "remedy": "none"},
        "remedies": [{"remedy": "none", "probability": 1.0}],
        "next_checks": [SIGNAL],
    }


def test_minutes_are_charged_as_the_rules_say() -> None:
    """By hand: 2 + 1 (covers off), + 1, + 5 + 1 (to the sensor), + 1 + 6 + 1 (back, leads lifted), + 0.3."""
    lifted = {**SIGNAL, "arrangement": "sensor-leads-lifted"}
    clock = Clock()
    found = []
    for check in (SIGNAL, SIGNAL, AT_SENSOR, lifted, {"measure": "displayed-pressure"}):
        clock = clock.after(check)
        found.append(clock.minutes)
    assert found == pytest.approx([3.0, 4.0, 10.0, 18.0, 18.3])
    assert Clock(walk_min=2.0, opened=True).after(AT_SENSOR).minutes == pytest.approx(6.0)


def test_the_minutes_of_an_arrangement_are_those_of_the_project() -> None:
    """Two tables written apart from one page must agree: the benchmark's own and the vocabulary's."""
    assert {name: a.minutes for name, a in ARRANGEMENTS.items() if not a.water_side} == SET_UP


def test_every_fault_that_is_drawn_has_one_remedy() -> None:
    """Walks the table; a fault without a remedy cannot be scored."""
    known = set(REMEDIES.values())
    assert all(remedy_of(fault) in known for kind in KINDS for fault in ids(kind))


def test_wilson_and_calibration_follow_their_closed_forms() -> None:
    """Wilson 1927 for 0 of 10: upper bound z^2/(n + z^2) = 0.2775; 20 answers off by 0.10 and 5 by 0.05: 0.09."""
    assert wilson(0, 10)[1] == pytest.approx(3.841459 / 13.841459, abs=1e-6)
    pairs = [(0.95, True)] * 17 + [(0.95, False)] * 3 + [(0.35, True)] * 2 + [(0.35, False)] * 3
    assert calibration_error(pairs) == pytest.approx((20 * 0.10 + 5 * 0.05) / 25)


@pytest.mark.parametrize("module", [faults, fixed_order, instruments, play_module, score], ids=lambda m: m.__name__)
def test_the_examples_in_the_truth_hold(module: ModuleType) -> None:
    """The examples stand beside what they show; each was worked out by hand."""
    failed, tried = doctest.testmod(module)
    assert (failed, tried > 0) == (0, True)


def test_a_good_part_is_condemned_only_where_it_is_not_at_fault() -> None:
    """By the words: the sensor named while the cable is at fault; not when the pair holds it."""
    assert condemned("replace-sensor", "repair-cable")
    assert not condemned("replace-sensor", "replace-board+replace-sensor")


@pytest.mark.ngspice
@pytest.mark.parametrize("kind", KINDS)
def test_a_case_is_played_to_its_end_and_charged(kind: Kind) -> None:
    """The scripted tool takes three checks; two of them at 3 + 1 minutes and a look at 4, after the first looks."""
    need_ngspice()
    case = next(c for c in (draw_case(f"t:{n}", kind) for n in range(20)) if len(first_checks(c)) == 3)
    lines: list[str] = []
    outcome = play(case, scripted, trace=lines.append)
    assert (outcome.readings, outcome.settled, outcome.state) == (3, True, "proved")
    assert outcome.minutes == pytest.approx(1.0 + 3.0 + 1.0 + 4.0)
    assert outcome.charged == outcome.minutes + (0 if outcome.right else 120)
    assert len(lines) == 5


@pytest.mark.ngspice
def test_a_tool_that_never_settles_is_stopped() -> None:
    """The protocol's limit: 25 readings."""
    need_ngspice()
    outcome = play(draw_case("t:1", "three-wire"), endless)
    assert (outcome.readings, outcome.settled) == (25, False)


@pytest.mark.ngspice
@pytest.mark.parametrize("kind", KINDS)
def test_every_fault_can_be_drawn_again_and_makes_a_toml_file(kind: Kind) -> None:
    """The same seed must give the same case, or a failing case cannot be looked at alone."""
    need_ngspice()
    for fault in ids(kind):
        one, two = (draw_case("again", kind, fault=fault) for _ in range(2))
        assert one == two
        assert one.fault_id == fault
        witness = Witness(one, "n")
        text = write_visit(one, [witness.ask(check) for check in first_checks(one)])
        assert tomllib.loads(text)["schema"] == 1


@pytest.mark.ngspice
def test_a_pair_has_both_faults() -> None:
    """A surge takes sensor and input: both ids, and both remedies."""
    need_ngspice()
    case = draw_case("pair", "two-wire", fault="sensor-open+controller-input-dead")
    assert case.fault_id == "controller-input-dead+sensor-open"


@pytest.mark.ngspice
@pytest.mark.laptop
def test_the_command_runs_a_foreign_tool_and_writes_its_figures(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """A tool that always settles on `none` scores the share of healthy loops, whatever they are."""
    need_ngspice()
    tool = tmp_path / "tool.py"
    answer = {
        "verdict": {"state": "best-guess", "settled": True, "remedy": "none"},
        "remedies": [{"remedy": "none", "probability": 1.0}],
        "next_checks": [],
    }
    tool.write_text(f"print({json.dumps(json.dumps(answer))})", encoding="utf-8")
    command = f"{Path(sys.executable).as_posix()} {tool.as_posix()} {{file}}"
    assert command_tool(command)("")["remedies"][0]["remedy"] == "none"
    out = tmp_path / "out.json"
    assert main(["--cases", "4", "--tool", command, "--json", str(out)]) == 0
    found = json.loads(out.read_text(encoding="utf-8"))
    healthy = sum(row["cases"] for row in found["by_fault"] if row["fault"] == "none")
    assert found["tool"]["right"]["count"] == healthy
    assert "fixed order" in capsys.readouterr().out
