"""The guide at a terminal or a pipe: reads lines, prints what is said, and saves before anything else.

Rules
-----
1. An answer is on the disk before it is echoed; stopped, killed or cut off, the guide goes on where it stood.
2. A file that somebody else changed meanwhile is read again, never overwritten.
"""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path

import typer

from steadyhead.cli.guide_screen import prompt, said_lines
from steadyhead.cli.typed import take_any_line, typed_line
from steadyhead.cli.visit_input import STDIN
from steadyhead.errors import FileUnreadableError
from steadyhead.messages import message
from steadyhead.service.guide.as_json import turn_json
from steadyhead.service.guide.state import Guide, Turn
from steadyhead.service.guide.talk import begin, hear, think, wants_thought, with_text
from steadyhead.visit.save import save_bytes
from steadyhead.visit.toml_text import decode, read_bytes

Printer = Callable[[Turn], None]


def guide_at_terminal(begun: Guide, wide: int, *, as_json: bool) -> None:
    """Hold the conversation until the file is settled and left, or no line comes any more.

    `begun` says which file it is, and whose words and estimates hold.

    Raises
    ------
    InputError
        The file is no visit file, or cannot be written.
    """
    take_any_line()
    path = Path(begun.name)
    turn = begin(begun, _text_of(path))
    show = _print_json if as_json else _printer(wide)
    try:
        while True:
            _save(turn, path)
            show(turn)
            if turn.ended:
                return
            turn = think(turn.guide) if wants_thought(turn.guide) else _heard(turn.guide, path, as_json=as_json)
    except KeyboardInterrupt:
        if not as_json:
            typer.echo("")
            show(hear(turn.guide, None))
        raise


def _text_of(path: Path) -> str | None:
    """Return the text of the file, None where there is none yet.

    Raises
    ------
    FileUnreadableError
        It cannot be read, or its folder is not there.
    """
    if str(path) == STDIN:
        raise FileUnreadableError(message("guide-needs-a-file"))
    if path.exists():
        return decode(read_bytes(path), str(path))
    if not path.parent.is_dir():
        raise FileUnreadableError(message("guide-folder-missing", file=str(path), folder=str(path.parent)))
    return None


def _save(turn: Turn, path: Path) -> None:
    if turn.text is not None:
        save_bytes(turn.text.encode("utf-8"), path)


def _heard(guide: Guide, path: Path, *, as_json: bool) -> Turn:
    """Return what comes of the next line."""
    line = typed_line("" if as_json else prompt(guide))
    if guide.file is not None and line is not None:
        text = _text_of(path)
        if text is not None and text != guide.file.text:
            return with_text(guide, text)
    return hear(guide, line)


def _printer(wide: int) -> Printer:
    def show(turn: Turn) -> None:
        lines = said_lines(turn.guide, turn.said, wide)
        if lines:
            typer.echo("\n".join(lines))

    return show


def _print_json(turn: Turn) -> None:
    if not wants_thought(turn.guide) or turn.said:
        typer.echo(json.dumps(turn_json(turn), allow_nan=False))
