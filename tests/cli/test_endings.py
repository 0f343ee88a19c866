"""How commands end: exit codes, streams, and never a traceback."""

from __future__ import annotations

from pathlib import Path

import pytest

from steadyhead import __version__
from steadyhead.cli import entry
from tests.cli.terminal import Terminal

BROKEN = """\
schema = 1
[sensor]
signal = "4..20 mA"
range = "100..0 psi"
acuracy = "1 %"
[[reading]]
measure = "volts"
red = "controller.signal"
black = "controller.common"
value = "1.12"
"""
MINIMAL = b'schema = 1\n[sensor]\nsignal = "4..20 mA"\nrange = "0..10 bar"\n'


@pytest.fixture
def broken(tmp_path: Path) -> Path:
    """Return a file with three problems, in lines 4, 5 and 10."""
    path = tmp_path / "broken.toml"
    path.write_text(BROKEN, encoding="utf-8")
    return path


def test_the_version_is_told(terminal: Terminal) -> None:
    """The package's own version."""
    assert terminal.run("--version").out == f"steadyhead {__version__}\n"


@pytest.mark.parametrize("command", ["diagnose", "expect", "check-file"])
@pytest.mark.parametrize("switch", [[], ["--json"]], ids=["text", "json"])
def test_every_problem_of_a_file_has_its_line_on_stderr(
    terminal: Terminal, broken: Path, command: str, switch: list[str]
) -> None:
    """The three lines that are wrong in the file; exit code 2; stdout stays empty."""
    ended = terminal.run(command, str(broken), *switch)
    assert (ended.code, ended.out) == (2, "")
    starts = [line.split(" ")[0] for line in ended.err.splitlines()]
    assert starts[:3] == [f"{broken}:{number}:" for number in (4, 5, 10)]
    assert all(key in ended.err for key in ("[sensor] range", "acuracy", "accuracy", "[[reading]] 1 value"))


@pytest.mark.parametrize(
    "words",
    [
        ["nonsense"],
        ["diagnose"],
        ["diagnose", "--nonsense", "x.toml"],
        ["diagnose", "no-such-file.toml"],
        ["diagnose", "."],
        ["diagnose", "-", "--region", "mars"],
        ["expect", "-", "--pressure", "3"],
        ["expect", "-", "--pressure", "3 volts"],
        ["tables", "no-such-table"],
        ["faults", "--region", "mars"],
    ],
    ids=" ".join,
)
def test_wrong_words_end_with_2_and_an_empty_stdout(terminal: Terminal, words: list[str]) -> None:
    """The contract: input errors go to stderr as text, stdout stays empty, exit code 2."""
    ended = terminal.run(*words, stdin=MINIMAL)
    assert (ended.code, ended.out) == (2, "")
    assert ended.err.strip()
    assert "Traceback" not in ended.err


@pytest.mark.parametrize("data", [b"\xff\xfe\x00", b"PK\x03\x04", b"\0", b"schema = ", b"x" * (1 << 21), b"[" * 4000])
def test_whatever_comes_in_no_traceback_goes_out(terminal: Terminal, data: bytes) -> None:
    """Bytes that are no visit file."""
    ended = terminal.run("diagnose", "-", stdin=data)
    assert (ended.code, ended.out) == (2, "")
    assert "Traceback" not in ended.err


def test_a_mistake_of_the_program_is_one_line_and_code_1(terminal: Terminal, monkeypatch: pytest.MonkeyPatch) -> None:
    """A command made to fail here."""
    monkeypatch.delenv("STEADYHEAD_DEBUG", raising=False)
    monkeypatch.setattr("steadyhead.cli.visit_input.visit_file", _fail)
    ended = terminal.run("check-file", "x.toml")
    assert (ended.code, ended.out) == (1, "")
    assert ended.err.count("\n") == 1
    assert "report" in ended.err
    assert "ZeroDivisionError" in ended.err


def _fail(_: str) -> None:
    reason = "by\nzero"
    raise ZeroDivisionError(reason)


def test_debugging_shows_the_traceback(terminal: Terminal, monkeypatch: pytest.MonkeyPatch) -> None:
    """With STEADYHEAD_DEBUG=1 the error itself comes out."""
    monkeypatch.setenv("STEADYHEAD_DEBUG", "1")
    monkeypatch.setattr("steadyhead.cli.visit_input.visit_file", _fail)
    with pytest.raises(ZeroDivisionError):
        terminal.run("check-file", "x.toml")


def test_stopping_it_ends_quietly_with_130(terminal: Terminal, monkeypatch: pytest.MonkeyPatch) -> None:
    """128 + 2, the shells' code for an interrupt."""

    def stop(_: str) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr("steadyhead.cli.visit_input.visit_file", stop)
    ended = terminal.run("check-file", "x.toml")
    assert (ended.code, ended.out, ended.err) == (130, "", "")


def test_stopping_it_before_a_command_begins_is_as_quiet() -> None:
    """The same, outside every command."""

    def stop() -> int:
        raise KeyboardInterrupt

    assert entry.guarded(stop) == 130


def test_a_sound_file_is_fine(terminal: Terminal) -> None:
    """The smallest visit file there is."""
    ended = terminal.run("check-file", "-", stdin=MINIMAL)
    assert (ended.code, ended.err) == (0, "")
    assert "fine" in ended.out
