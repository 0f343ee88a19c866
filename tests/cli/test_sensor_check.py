"""`steadyhead sensor-check` as a person and as a program use it."""

from __future__ import annotations

import json
import re
import shutil
from importlib.resources import files
from pathlib import Path
from typing import Any

import pytest

from steadyhead.cli.app import app
from steadyhead.cli.typed import typed_line
from steadyhead.sensorcheck.file import load_check
from tests.cli.terminal import Ended, Terminal
from tests.support import ROOT

EXAMPLES = ROOT / "examples" / "checks"
MANUAL = (ROOT / "docs" / "sensor-check.md").read_text(encoding="utf-8")
GROUP = next(each.typer_instance for each in app.registered_groups if each.typer_instance is not None)
COMMANDS = [str(each.name) for each in GROUP.registered_commands]
HOUSE = """schema = 1
[sensor]
signal = "0.5..4.5 V ratiometric"
range = "0..100 psi"
accuracy = "1 %"
[reference]        # my own
range = "0..100 psi"
accuracy = "0.1 %"
resolution = "0.1 psi"
[check]
purpose = "quick"
pressure_from = "hand-pump"
"""


@pytest.fixture
def here(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Return the current folder, with both examples and a check that is not begun."""
    monkeypatch.chdir(tmp_path)
    for each in EXAMPLES.iterdir():
        shutil.copy(each, tmp_path)
    (tmp_path / "new.toml").write_text(HOUSE, encoding="utf-8")
    return tmp_path


def ran(terminal: Terminal, *words: str, typed: str = "") -> Ended:
    """Return how a command of the group ended, which must be well."""
    done = terminal.run("sensor-check", *words, stdin=typed.encode())
    assert (done.code, done.err) == (0, "")
    assert "--json" in words or [line for line in done.out.splitlines() if len(line) > 80] == []
    return done


# ------------------------------------------------------------ what a person reads


def test_the_first_line_of_a_plan_says_what_can_be_convicted(terminal: Terminal, here: Path) -> None:
    """TRADE: state first, with this gauge you can convict only beyond so much."""
    assert here.is_dir()
    first = ran(terminal, "plan", "house-reads-high.toml").out.splitlines()[0]
    assert re.match(r"With this gauge you can convict only beyond ±1\.\d+ psi", first)


def test_a_plan_warns_before_the_first_point_and_never_leaves_the_relief_valve_behind(
    terminal: Terminal, here: Path
) -> None:
    """The example's relief valve opens at 75 psi: a tenth below that is 67.5 psi."""
    assert here.is_dir()
    said = ran(terminal, "plan", "house-reads-high.toml").out
    assert said.index("Local codes") < said.index("Points")
    pressures = [float(each) for each in re.findall(r"(\d+\.\d+) psi  +1\.\d+ psi", said)]
    assert len(pressures) == 11
    assert max(pressures) <= 67.5


@pytest.mark.parametrize(("purpose", "count"), [("quick", 5), ("full", 11), ("repeat", 33), ("laboratory", 63)])
def test_the_purpose_decides_how_many_points(terminal: Terminal, here: Path, purpose: str, count: int) -> None:
    """The table of purposes: n levels are 2 n - 1 points, times the cycles."""
    assert here.is_dir()
    found = json.loads(ran(terminal, "plan", "new.toml", "--purpose", purpose, "--json").out)
    assert (len(found["steps"]), found["left"]) == (count, count)


def test_a_house_call_reads_five_lines(terminal: Terminal, here: Path) -> None:
    """The example of a house was made 3 psi high, that of a booster within half a percent."""
    assert here.is_dir()
    house = ran(terminal, "show", "house-reads-high.toml").out.split("\n\n")[0]
    assert len(re.findall(r"^\S", house, re.MULTILINE)) == 5
    assert "Not good: it reads 3.05 psi high" in house
    booster = ran(terminal, "show", "booster-hand-pump.toml").out
    assert "Good: nowhere off by more than 0.0386 bar" in booster


def test_the_door_opens_to_levels_kinds_and_budget(terminal: Terminal, here: Path) -> None:
    """Each of the example's six levels, and the shares of the budget."""
    assert here.is_dir()
    said = ran(terminal, "show", "booster-hand-pump.toml", "--full").out
    assert len(re.findall(r"(?:bar|-)  good$", said, re.MULTILINE)) == 6
    shares = [int(each) for each in re.findall(r"(\d+) %$", said.partition("are made of")[2], re.MULTILINE)]
    assert 97 <= sum(shares) <= 103


@pytest.mark.usefixtures("here")
def test_monte_carlo_judges_the_linear_figure(terminal: Terminal) -> None:
    """A row for each level, whether the linear interval will do, and what is decided; JCGM 101, clause 8."""
    said = ran(terminal, "show", "house-reads-high.toml", "--monte-carlo").out
    told = said.partition("once more by Monte Carlo")[2]
    rows = [line for line in told.splitlines() if line.endswith("not good")]
    assert len(rows) == 6
    assert "nothing is decided otherwise" in " ".join(told.split())
    assert "Monte Carlo" not in ran(terminal, "show", "house-reads-high.toml", "--full").out


def test_the_region_chooses_the_word(terminal: Terminal, here: Path) -> None:
    """Common practice: a transducer in North America, a sensor elsewhere."""
    assert here.is_dir()
    assert ran(terminal, "show", "booster-hand-pump.toml").out.startswith("Transducer BX-0093")
    assert ran(terminal, "show", "booster-hand-pump.toml", "--region", "elsewhere").out.startswith("Sensor BX-0093")


def test_a_trace_leads_every_figure_to_its_source(terminal: Terminal, here: Path) -> None:
    """A property: numbers from 1 on, each input is one of them, and readings stand at the bottom."""
    assert here.is_dir()
    said = ran(terminal, "adjust", "house-reads-high.toml", "--trace").out.partition("How each figure came about")[2]
    numbers = [int(each) for each in re.findall(r"^ *(\d+)  \S+ = ", said, re.MULTILINE)]
    assert numbers == list(range(1, len(numbers) + 1))
    inputs = [int(each) for found in re.findall(r"\[([\d,\s]+)\]", said) for each in found.split(",")]
    assert set(inputs) <= set(numbers)
    assert "given: point 11" in said


def test_a_setting_is_worked_out_or_refused_with_its_reason(terminal: Terminal, here: Path) -> None:
    """The house's zero moved; two points of one pressure lay no line."""
    said = ran(terminal, "adjust", "house-reads-high.toml").out
    assert said.startswith("Set the controller's range to -3.16 psi .. 97.8 psi (now 0 psi .. 100 psi).")
    only_top = ran(terminal, "adjust", "house-reads-high.toml", "--keep-low").out
    assert "range to 0 psi .." in only_top or "Leave the controller's range" in only_top
    (here / "points.csv").write_text("reference [psi],signal [V],supply [V]\n50,2.6,5\n50,2.6,5\n", encoding="utf-8")
    ran(terminal, "take", "new.toml", "points.csv")
    assert ran(terminal, "adjust", "new.toml").out.startswith("Leave the controller's range at 0 psi .. 100 psi:")


def test_drift_is_told_against_an_earlier_check(terminal: Terminal, here: Path) -> None:
    """A closed form: the same file dated two years earlier with its signals 0.04 V (1 psi) lower: half a psi a year."""
    text = (here / "house-reads-high.toml").read_text(encoding="utf-8").replace("2026-03-14", "2024-03-14")
    def lower(found: re.Match[str]) -> str:
        return f'signal = "{float(found[1]) - 0.04 * 5.02 / 5:.4f} V"'

    (here / "earlier.toml").write_text(re.sub(r'signal = "([\d.]+) V"', lower, text), encoding="utf-8")
    answer = json.loads(
        ran(terminal, "show", "house-reads-high.toml", "--earlier", "earlier.toml", "--json").out
    )["drift"]
    assert answer["days"] == ["2024-03-14", "2026-03-14"]
    assert answer["zero_per_year"]["value"] / 6894.757 == pytest.approx(1.0 / 730 * 365.2425, abs=0.002)
    said = ran(terminal, "show", "house-reads-high.toml", "--earlier", "earlier.toml").out
    told = re.search(r"its zero drifts by 0\.501 psi, known to (\d\.\d+) psi", " ".join(said.split()))
    assert told is not None
    assert 0.585 * 2**0.5 / 2 < float(told[1]) < 0.5  # each zero is known to 0.585 psi, two years apart


# ------------------------------------------------------------ points one by one


def test_points_are_entered_kept_at_once_and_the_five_lines_come_at_the_end(terminal: Terminal, here: Path) -> None:
    """A sensor 2 psi high at 0, 50 and 100 psi (2.08 V too much at ... as the plate's line has it)."""
    typed = "0\n0.58\n5\n50\n2.58 V\n5\n100 psi\n4580 mV\n5.0\n50\n2.58\n5\n0\n0.58\n5\n\n"
    said = ran(terminal, "enter", "new.toml", typed=typed).out
    assert "Point 1 kept: it reads 2 psi high (1 psi is allowed)." in said
    assert "Not good: it reads 2 psi high" in said
    assert said.rstrip().endswith("5 points are kept in new.toml.")
    run = load_check(here / "new.toml").run
    assert [each.direction for each in run.points] == ["up", "up", "up", "down", "down"]
    assert "# my own" in (here / "new.toml").read_text(encoding="utf-8")


def test_what_was_kept_is_there_after_a_break_and_the_next_point_is_asked_for(terminal: Terminal, here: Path) -> None:
    """No line any more after the second point and half of the third: two points are kept."""
    first = ran(terminal, "enter", "new.toml", typed="0\n0.5\n5\n50\n2.5\n5\n100\n").out
    assert "2 points are kept in new.toml, 3 are left. The same command goes on." in " ".join(first.split())
    assert len(load_check(here / "new.toml").run.points) == 2
    second = ran(terminal, "enter", "new.toml").out
    assert "2 points are kept, 3 are left." in second
    assert "Point 3 of 5" in second


def test_again_undo_and_skip(terminal: Terminal, here: Path) -> None:
    """By hand: a value taken back, a point taken out and taken anew, a step left."""
    typed = "0\n0.9\nagain\n0.5\n5\nundo\n0\n0.51\n5\nskip\n100\n4.5\n5\nquit\n"
    said = ran(terminal, "enter", "new.toml", typed=typed).out
    assert "Taken back." in said
    assert "Point 1 is taken out." in said
    run = load_check(here / "new.toml").run
    assert [(round(each.reference_pa / 6894.757), each.signal) for each in run.points] == [(0, 0.51), (100, 4.5)]


def test_a_former_point_is_entered_anew_in_its_place(terminal: Terminal, here: Path) -> None:
    """By hand: three points, the first two put right while the third is open; the order and the ways stay."""
    typed = "0\n0.9\n5\n50\n2.9\n5\nlist\nfix 1\n0\n0.5\n5\nfix 2\n51\n2.54\n5\n100\n4.5\n5\nquit\n"
    said = " ".join(ran(terminal, "enter", "new.toml", typed=typed).out.split())
    assert "Point 1: 0 psi, 0.9 V Point 2: 50 psi, 2.9 V" in said
    assert "Point 2 anew, in its place; it was taken at 50 psi." in said
    run = load_check(here / "new.toml").run
    found = [(round(each.reference_pa / 6894.757), each.signal, each.direction) for each in run.points]
    assert found == [(0, 0.5, "up"), (51, 2.54, "up"), (100, 4.5, "up")]
    assert "# my own" in (here / "new.toml").read_text(encoding="utf-8")


@pytest.mark.parametrize("leave", ["undo", "skip", "again", "quit"])
def test_a_point_that_is_left_half_way_keeps_its_old_values(terminal: Terminal, here: Path, leave: str) -> None:
    """One value of three typed anew, then left: the file has the old point, and the next step is still open."""
    half = "" if leave == "again" else "1\n"
    said = ran(terminal, "enter", "new.toml", typed=f"0\n0.5\n5\nfix 1\n{half}{leave}\nq\n").out
    (point,) = load_check(here / "new.toml").run.points
    assert (point.reference_pa, point.signal) == (0.0, 0.5)
    assert ("is left as it was" in said) is (leave != "quit")


@pytest.mark.parametrize(("typed", "told"), [("fix 3", "3 is no point. Type fix and its number, 1 to 1"),
                                             ("fix", "Type fix and the number of the point"),
                                             ("fix two", "two is no point")])  # fmt: skip
def test_a_point_that_is_not_there_cannot_be_entered_anew(
    terminal: Terminal, here: Path, typed: str, told: str
) -> None:
    """One point is kept; nothing else is asked for than before."""
    said = " ".join(ran(terminal, "enter", "new.toml", typed=f"0\n0.5\n5\n{typed}\n50\n2.5\n5\nq\n").out.split())
    assert told in said
    assert len(load_check(here / "new.toml").run.points) == 2


def test_what_is_no_figure_is_refused_and_asked_again(terminal: Terminal, here: Path) -> None:
    """Nothing is kept of it."""
    said = ran(terminal, "enter", "new.toml", typed="50 volts\nzero\n?\n0\n12 mA\n0.5\n5\nq\n").out
    assert len(load_check(here / "new.toml").run.points) == 1
    assert "A figure, with or without its unit" in said


def test_what_cannot_be_is_refused_before_the_next_value_is_asked_for(terminal: Terminal, here: Path) -> None:
    """35 bar is 508 psi, and no 5 V sensor has 501 V: a unit and a decimal sign slipped; nothing is kept of them."""
    said = ran(terminal, "enter", "new.toml", typed="35 bar\n0\n0.5\n501\n5.01\nq\n").out
    assert "beyond its scale" in said
    assert "501 V is no power of this transducer" in said
    (point,) = load_check(here / "new.toml").run.points
    assert (point.reference_pa, point.supply_v) == (0.0, 5.01)


def test_a_point_elsewhere_or_from_the_wrong_side_is_kept_and_told(terminal: Terminal, here: Path) -> None:
    """By hand: 100 where 50 was wanted; then, at the step that comes down, from below."""
    said = " ".join(ran(terminal, "enter", "new.toml", typed="0\n0.5\n5\n100\n4.5\n5\nq\n").out.split())
    assert "is not where this point was wanted (50 psi)" in said
    typed = "undo\n50\n2.5\n5\n100\n4.5\n5\nskip\n0\n0.5\n5\nq\n"
    ran(terminal, "enter", "new.toml", typed=typed)
    assert len(load_check(here / "new.toml").run.points) == 4
    rising = ran(terminal, "enter", "new.toml", typed="50\n2.5\n5\nq\n").out
    assert "should have come down" in " ".join(rising.split())


def test_a_file_that_somebody_else_changed_is_read_again(
    terminal: Terminal, here: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Another program writes the serial number between two lines: it is still there at the end, and so is the point."""
    lines = iter(range(99))

    def meanwhile(asked: str) -> str | None:
        if next(lines) == 1:
            changed = load_check(here / "new.toml").with_value("check", "serial", "K7")
            (here / "new.toml").write_text(changed.text, encoding="utf-8")
        return typed_line(asked)

    monkeypatch.setattr("steadyhead.cli.check_entering.typed_line", meanwhile)
    said = ran(terminal, "enter", "new.toml", typed="0\n0.5\n0\n0.5\n5\nq\n").out
    assert "was changed meanwhile" in said
    found = load_check(here / "new.toml").run
    assert (found.serial, len(found.points)) == ("K7", 1)


def test_a_file_that_is_not_there_is_made_from_a_few_answers(terminal: Terminal, here: Path) -> None:
    """Two answers are needed; the others may be left out."""
    typed = "4-20\n4..20 mA\n0..10 bar\n0.5 %\n\n0..16 bar\n\n1 %\n0.01 bar\n\n\nhand-pump\n25 bar\nquick\n\n"
    said = ran(terminal, "enter", "made.toml", typed=typed + "0\n4\nq\n").out
    assert "Kept in made.toml." in said
    found = load_check(here / "made.toml")
    assert (found.run.sensor.signal.kind, found.purpose, found.run.pressure_from) == ("current", "quick", "hand-pump")
    assert (found.run.reference.gauge.accuracy, len(found.run.points)) == (0.01, 1)


def test_nothing_is_made_where_nobody_answers(terminal: Terminal, here: Path) -> None:
    """The end of the lines before the first answer."""
    ran(terminal, "enter", "made.toml")
    assert not (here / "made.toml").exists()


# ------------------------------------------------------------ points from a table


def test_a_table_is_taken_into_the_file(terminal: Terminal, here: Path) -> None:
    """Counted; a trial writes nothing; standard input does as well."""
    table = "reference [psi];signal [V];supply [V]\n0;0,5;5\n50;2,5;5\n"
    (here / "points.csv").write_text(table, encoding="utf-8")
    before = (here / "new.toml").read_text(encoding="utf-8")
    ran(terminal, "take", "new.toml", "points.csv", "--dry-run")
    assert (here / "new.toml").read_text(encoding="utf-8") == before
    assert ran(terminal, "take", "new.toml", "points.csv").out == "2 points were added to new.toml.\n"
    told = json.loads(ran(terminal, "take", "new.toml", "-", "--json", typed=table).out)
    assert (told["added"], told["points"]) == (2, 4)
    assert (here / "new.toml").read_text(encoding="utf-8").startswith(before)


# ------------------------------------------------------------ what is refused


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("show", "gone.toml"), "There is no file"),
        (("show", "new.toml"), "take some first"),
        (("show", "broken.toml"), "broken.toml:2:"),
        (("plan", "new.toml", "--purpose", "fullish"), "Nearest: full"),
        (("plan", "new.toml", "--rule", "guardband"), "Nearest: guard-band"),
        (("take", "new.toml", "bad.csv"), "bad.csv:2: column 1 (reference)"),
        (("enter", "-"), "a file of your own"),
        (("enter", "no/folder/x.toml"), "no folder"),
        (("show", "house-reads-high.toml", "--earlier", "new.toml"), "two different days"),
    ],
)
def test_a_refusal_ends_with_2_says_why_and_changes_nothing(
    terminal: Terminal, here: Path, words: tuple[str, ...], said: str
) -> None:
    """Exit codes of the commands; stdout stays empty."""
    (here / "broken.toml").write_text("schema = 1\n[sensr]\n", encoding="utf-8")
    (here / "bad.csv").write_text("reference [psi],signal [V],supply [V]\nx,1,5\n", encoding="utf-8")
    before = {each.name: each.read_bytes() for each in here.iterdir()}
    done = terminal.run("sensor-check", *words)
    assert (done.code, done.out) == (2, "")
    assert said in " ".join(done.err.split())
    assert {each.name: each.read_bytes() for each in here.iterdir()} == before


# ------------------------------------------------------------ the contract and the manual


@pytest.mark.laptop
def test_every_json_follows_the_schema(terminal: Terminal, here: Path) -> None:
    """By the JSON Schema library; of `enter` every line."""
    from jsonschema import Draft202012Validator  # noqa: PLC0415 - a laptop's library

    package = files("steadyhead.service.sensorcheck")
    schema = json.loads(package.joinpath("sensor_check_1.json").read_text(encoding="utf-8"))
    validator = Draft202012Validator(schema)
    (here / "points.csv").write_text("reference [psi],signal [V],supply [V]\n0,0.5,5\n", encoding="utf-8")
    house = "house-reads-high.toml"
    answers: list[Any] = [
        json.loads(ran(terminal, *words, "--json").out)
        for words in (
            ("plan", house), ("show", house, "--trace"), ("show", house, "--monte-carlo"), ("adjust", house, "--trace"),
            ("take", "new.toml", "points.csv"),
        )
    ]  # fmt: skip
    typed = ran(terminal, "enter", "new.toml", "--json", typed="50\n2.5\n5\nskip\nq\n").out
    opened = ran(terminal, "enter", "made.toml", "--json", typed="4..20 mA\n0..10 bar\n").out
    answers += [json.loads(line) for line in (typed + opened).splitlines()]
    assert len(answers) > 10
    for answer in answers:
        assert [f"{each.json_path}: {each.message}" for each in validator.iter_errors(answer)] == []


@pytest.mark.parametrize("command", COMMANDS)
def test_the_manual_and_the_help_have_every_command_and_option(terminal: Terminal, command: str) -> None:
    """The program's own list of commands."""
    said = ran(terminal, command, "--help").out
    assert f"Example: steadyhead sensor-check {command}" in said
    assert f"steadyhead sensor-check {command}" in MANUAL
    for option in re.findall(r"--[a-z-]+", said):
        assert option in MANUAL or option in {"--help", "--no-"}, option


def test_the_page_of_commands_names_the_group() -> None:
    """docs/commands.md."""
    assert "`steadyhead sensor-check" in (ROOT / "docs" / "commands.md").read_text(encoding="utf-8")
