"""The guide as a command: lines come in by a pipe, what is said goes out at 80 columns, the file is always sound."""

from __future__ import annotations

import json
import os
import signal
import subprocess
import sys
from pathlib import Path

import pytest

import steadyhead
from steadyhead.visit import load_visit
from tests.cli.terminal import Terminal
from tests.service.guide.talks import PLATE, remembered

SOURCE = str(Path(steadyhead.__file__).parent.parent)


@pytest.fixture(autouse=True)
def diagnosed_once(monkeypatch: pytest.MonkeyPatch) -> None:
    """Keep the answers of the real diagnosis."""
    monkeypatch.setattr("steadyhead.service.guide.thinking.diagnose", remembered)


@pytest.fixture
def path(tmp_path: Path) -> Path:
    """Return a visit file with the plate alone."""
    file = tmp_path / "visit.toml"
    file.write_text(PLATE, encoding="utf-8")
    return file


def typed(*lines: str) -> bytes:
    """Return what comes in when these lines are typed."""
    return "".join(f"{line}\n" for line in lines).encode()


def test_a_visit_is_begun_held_and_left_on_a_plain_pipe(terminal: Terminal, tmp_path: Path) -> None:
    """80 columns, no escape codes, exit code 0, and a file that can be read."""
    file = tmp_path / "new.toml"
    ended = terminal.run("guide", str(file), stdin=typed("1", "100 psi", "", "", "48", "16.8", "why", "quit"))
    assert (ended.code, ended.err) == (0, "")
    assert [line for line in ended.out.splitlines() if len(line) > 80 or "\x1b" in line] == []
    assert len(load_visit(file).visit.readings) == 2


def test_what_was_typed_is_echoed_where_no_terminal_does_it(terminal: Terminal, path: Path) -> None:
    """The printed conversation reads like one."""
    assert "psi > 48\n" in terminal.run("guide", str(path), stdin=typed("48")).out


def test_bytes_that_are_no_text_are_refused_and_asked_again(terminal: Terminal, path: Path) -> None:
    """A byte that UTF-8 does not have."""
    ended = terminal.run("guide", str(path), stdin=b"\xff\xfe\n48\n")
    assert (ended.code, ended.err) == (0, "")
    assert len(load_visit(path).visit.readings) == 1


def test_two_sittings_make_the_same_file_as_one(terminal: Terminal, path: Path, tmp_path: Path) -> None:
    """The end of input between two answers."""
    other = tmp_path / "other.toml"
    other.write_text(PLATE, encoding="utf-8")
    terminal.run("guide", str(path), stdin=typed("48", "16.8"))
    terminal.run("guide", str(path), stdin=typed("1.12"))
    terminal.run("guide", str(other), stdin=typed("48", "16.8", "1.12"))
    assert path.read_bytes() == other.read_bytes()


def test_a_file_that_is_changed_elsewhere_meanwhile_is_not_overwritten(
    terminal: Terminal, path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A comment that an editor has added between two answers."""
    lines = iter(["48", "16.8", "16.8", None])

    def line(_: str) -> str | None:
        text = next(lines)
        if text == "16.8" and "# by hand" not in path.read_text(encoding="utf-8"):
            path.write_text(path.read_text(encoding="utf-8") + "\n# by hand\n", encoding="utf-8")
        return text

    monkeypatch.setattr("steadyhead.cli.guide_loop.typed_line", line)
    ended = terminal.run("guide", str(path))
    assert "changed elsewhere" in ended.out
    assert "# by hand" in path.read_text(encoding="utf-8")
    assert len(load_visit(path).visit.readings) == 2


def test_json_is_one_object_a_step_and_nothing_else(terminal: Terminal, path: Path) -> None:
    """Parsed by the standard library; the last step says that it has ended."""
    ended = terminal.run("guide", str(path), "--json", stdin=typed("48", "banana", "480", "quit"))
    steps = [json.loads(line) for line in ended.out.splitlines()]
    assert steps[1]["asks"]["kind"] == "take"
    assert steps[1]["asks"]["unit"] == "psi"
    assert [step["ended"] for step in steps] == [False] * (len(steps) - 1) + [True]
    assert any(step["saved"] for step in steps)
    assert json.loads(json.dumps(steps)) == steps


@pytest.mark.parametrize("name", [".", "no-such-folder/visit.toml", "-"])
def test_a_place_where_no_file_can_be_ends_with_2(
    terminal: Terminal, name: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The contract of input errors."""
    monkeypatch.chdir(tmp_path)
    ended = terminal.run("guide", name, stdin=typed("1", "100 psi"))
    assert ended.code == 2
    assert "Traceback" not in ended.err
    assert ended.err.strip()


def test_a_broken_file_is_told_line_by_line_and_left_alone(terminal: Terminal, path: Path) -> None:
    """A key that does not exist."""
    path.write_text(PLATE + "acuracy = 1\n", encoding="utf-8")
    before = path.read_bytes()
    ended = terminal.run("guide", str(path), stdin=typed("48"))
    assert (ended.code, ended.out) == (2, "")
    assert path.read_bytes() == before


@pytest.mark.laptop
@pytest.mark.skipif(os.name != "posix", reason="signals as on a laptop with a Unix")
@pytest.mark.parametrize("how", [signal.SIGKILL, signal.SIGINT], ids=["killed", "stopped"])
def test_killed_between_two_answers_it_leaves_a_sound_file_with_all_of_them(path: Path, how: signal.Signals) -> None:
    """Both answers, and no other file beside it."""
    process = subprocess.Popen(
        [sys.executable, "-m", "steadyhead", "guide", str(path)],
        env={**os.environ, "PYTHONPATH": SOURCE},
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
        encoding="utf-8",
    )
    assert process.stdin is not None
    assert process.stdout is not None
    process.stdin.write("48\n16.8\n")
    process.stdin.flush()
    heard = ""
    while "Kept. Reading 2" not in heard:
        heard += process.stdout.readline()
    process.send_signal(how)
    _, err = process.communicate(timeout=60)
    assert "Traceback" not in err
    assert [str(r.number) for r in load_visit(path).visit.readings] == ["1", "2"]
    assert [file.name for file in path.parent.iterdir()] == [path.name]
