"""Runs a command inside this process and keeps what it prints."""

from __future__ import annotations

import io
import sys
from dataclasses import dataclass

import pytest

from steadyhead.cli.entry import main


@dataclass(frozen=True)
class Ended:
    """How a command ended."""

    code: int
    out: str
    err: str


class Terminal:
    """A terminal of a test: 80 columns, no colour."""

    def __init__(self, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch) -> None:
        self._capsys = capsys
        self._monkeypatch = monkeypatch
        monkeypatch.setenv("COLUMNS", "80")
        monkeypatch.setenv("STEADYHEAD_COMPANY", "none")

    def run(self, *words: str, stdin: bytes = b"") -> Ended:
        """Run ``steadyhead`` with these words."""
        self._monkeypatch.setattr(sys, "stdin", io.TextIOWrapper(io.BytesIO(stdin), encoding="utf-8"))
        self._capsys.readouterr()
        code = main(list(words))
        out, err = self._capsys.readouterr()
        return Ended(code, out, err)
