"""The commands that make the app ready for a phone: what they refuse, and that what is handed out can be fetched."""

from __future__ import annotations

import hashlib
import json
import subprocess
import sys
import urllib.request
from pathlib import Path

import pytest

from tests.cli.terminal import Terminal
from tests.support import ROOT

pytestmark = pytest.mark.laptop


@pytest.mark.parametrize("command", ["build", "serve"])
def test_the_manual_and_the_help_have_each_command(terminal: Terminal, command: str) -> None:
    """docs/commands.md, docs/offline.md, and the house rule that help shows an example."""
    assert f"steadyhead offline {command} " in (ROOT / "docs" / "offline.md").read_text(encoding="utf-8")
    assert "`steadyhead offline build" in (ROOT / "docs" / "commands.md").read_text(encoding="utf-8")
    said = terminal.run("offline", command, "--help").out
    assert f"Example: steadyhead offline {command}" in said
    assert "--json" in said


def test_a_folder_with_something_else_is_refused_and_left_alone(terminal: Terminal, tmp_path: Path) -> None:
    """Exit code 2, one line, nothing on stdout."""
    (tmp_path / "photo.jpg").write_bytes(b"1")
    done = terminal.run("offline", "build", str(tmp_path))
    assert (done.code, done.out) == (2, "")
    assert "holds something else" in done.err
    assert [file.name for file in tmp_path.iterdir()] == ["photo.jpg"]


def test_without_node_it_is_said_plainly(terminal: Terminal, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A path on which no program stands; nothing is made."""
    monkeypatch.setenv("PATH", str(tmp_path))
    done = terminal.run("offline", "build", str(tmp_path / "phone"))
    assert (done.code, done.out) == (2, "")
    assert done.err.startswith("node is not here")
    assert list(tmp_path.iterdir()) == []


def test_what_is_no_site_is_not_handed_out(terminal: Terminal, tmp_path: Path) -> None:
    """Exit code 2, and the command that makes one."""
    done = terminal.run("offline", "serve", str(tmp_path), "--no-open", "--port", "0")
    assert (done.code, done.out) == (2, "")
    assert "steadyhead offline build" in done.err


def test_a_site_is_handed_out_to_this_computer(tmp_path: Path) -> None:
    """A site of one page, fetched as a browser does it."""
    page = b"<!doctype html><title>Steadyhead</title>"
    (tmp_path / "index.html").write_bytes(page)
    said = {"program": "steadyhead", "files": {"index.html": hashlib.sha256(page).hexdigest()}}
    (tmp_path / "build.json").write_text(json.dumps(said), encoding="utf-8")
    command = [sys.executable, "-m", "steadyhead", "offline", "serve", str(tmp_path), "--no-open", "--port", "0"]
    with subprocess.Popen([*command, "--json"], stdout=subprocess.PIPE, encoding="utf-8") as serving:
        assert serving.stdout is not None
        try:
            address = json.loads(serving.stdout.readline())["address"]
            assert address.startswith("http://127.0.0.1:")
            with urllib.request.urlopen(address) as answer:  # noqa: S310 - the command's own address
                assert answer.read() == page
        finally:
            serving.kill()
