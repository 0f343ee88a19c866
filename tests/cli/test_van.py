"""The van's commands as a person types them."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from tests.cli.terminal import Terminal

VISIT = str(Path(__file__).resolve().parents[2] / "examples" / "house-damp-cable.toml")
SPARE = ("signal=0.5..4.5 V ratiometric", "range=0..150 psi", "accuracy=1 %", "supply=5 V", "thread=1/4 NPT", "count=2",
         "approval=nsf-61,nsf-372", "pins.supply=1")  # fmt: skip


@pytest.fixture(autouse=True)
def _record(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Let a record of the test's own be the usual one."""
    monkeypatch.setenv("STEADYHEAD_DATA", str(tmp_path / "record.db"))


def test_a_sensor_is_put_on_the_list_put_right_and_taken_off(terminal: Terminal) -> None:
    """What was typed comes back; a line is found by its name too."""
    told = json.loads(terminal.run("van", "add", "Red box", *SPARE, "--json").out)
    assert (told["name"], told["left"], told["build"]["approval"]) == ("Red box", 2, ["nsf-61", "nsf-372"])
    assert told["pins"] == {"supply": "1"}
    assert terminal.run("van", "set", "red box", "count=5", "thread=").code == 0
    (line,) = json.loads(terminal.run("van", "list", "--json").out)["stock"]
    assert (line["stock"], line["left"], "thread" in line["build"]) == (told["stock"], 5, False)
    assert "Red box: 5 left" in terminal.run("van", "list").out
    assert terminal.run("van", "off", told["stock"]).code == 0
    assert "Nothing is on the list" in terminal.run("van", "list").out


def test_what_will_do_is_told_with_settings_pins_error_and_cautions(terminal: Terminal) -> None:
    """0..150 psi for 0..100 psi: the range to enter, half as much error again, this panel's own labels."""
    terminal.run("van", "add", "Red box", *SPARE)
    said = terminal.run("van", "for", VISIT).out
    for words in ("Enter the range 0 psi to 150 psi", "1.5 times what it", "COM", "Relieve the pressure"):
        assert words in said
    (found,) = json.loads(terminal.run("van", "for", VISIT, "--json").out)["van"]
    assert (found["grade"], found["error"]["ratio"]) == ("check", pytest.approx(1.5))
    assert [row["terminal"] for row in found["pins"]] == ["V+", "AI", "COM"]
    assert found["settings"]["range_pa"] == pytest.approx([0.0, 150 * 6894.757293168361])


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("add", "Red box", "rnge=1"), "range"),
        (("add", "Red box", "signal=4..20 mA", "range=much"), "much"),
        (("add", "Red box", *SPARE, "count=-1"), "no count"),
        (("set", "Red box", "count=1"), "nothing on the van"),
        (("off", "01KQRX467JHX6XV8A99HSWY9BD"), "01KQRX467JHX6XV8A99HSWY9BD"),
    ],
)
def test_a_refusal_ends_with_2_and_says_what_would_do(
    terminal: Terminal, words: tuple[str, ...], said: str
) -> None:
    """Exit codes of the commands; stdout stays empty."""
    ended = terminal.run("van", *words)
    assert (ended.code, ended.out) == (2, "")
    assert said in " ".join(ended.err.split())


@pytest.mark.parametrize("command", ["list", "add", "set", "off", "for"])
def test_the_help_of_each_has_an_example(terminal: Terminal, command: str) -> None:
    """The house rule."""
    said = terminal.run("van", command, "--help").out
    assert f"Example: steadyhead van {command}" in said
    assert "--json" in said
