"""Points entered at a terminal or a pipe: reads lines, prints what is said, and saves before anything else.

Rules
-----
1. A point is on the disk before it is echoed; stopped, killed or cut off, the same command goes on where it stood.
2. A file that somebody else changed meanwhile is read again, never overwritten.
3. With ``--json`` each step is one object on a line of its own, and nothing else is printed.
"""

from __future__ import annotations

import json
from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path
from typing import Any

import typer

from steadyhead import __version__
from steadyhead.cli.check_work import speaker_for
from steadyhead.cli.manner import manner
from steadyhead.cli.page import paragraph, width
from steadyhead.cli.typed import take_any_line, typed_line
from steadyhead.cli.visit_input import STDIN
from steadyhead.errors import FileUnreadableError
from steadyhead.messages import Message, message
from steadyhead.sensorcheck.conformity import Rule
from steadyhead.sensorcheck.file import CheckFile, load_check, parse_check, save_check
from steadyhead.sensorcheck.progress import steps_left
from steadyhead.service.answer_json import message_json
from steadyhead.service.sensorcheck.as_json import SCHEMA
from steadyhead.service.sensorcheck.entering import Entry, Heard, begin, hear, unit_of
from steadyhead.service.sensorcheck.opening import ASKED, Opening, answered
from steadyhead.words import Speaker

#: The figure that each value of a point is called by.
_CALLED = {"reference": "reference-reading", "signal": "signal-read", "supply": "supply-read", "shown": "shown"}


def enter_at_terminal(name: str, rule: Rule, region: str, *, as_json: bool) -> None:
    """Hold the conversation until all is entered and left, or no line comes any more.

    Parameters
    ----------
    name
        The check file; made where it is not there.
    rule
        How it will be decided.
    region
        Whose words.
    as_json
        Whether each step is told as JSON.

    Raises
    ------
    InputError
        The file is no check file, or cannot be written.
    """
    if name == STDIN:
        raise FileUnreadableError(message("enter-needs-a-file"))
    take_any_line()
    check = load_check(name) if Path(name).exists() else _opened(name, region, as_json=as_json)
    if check is None:
        return
    teller = _Teller(speaker_for(check, region), as_json=as_json)
    heard = begin(check, rule)
    while True:
        if heard.changed:
            save_check(heard.entry.check, name)
        teller.show(heard)
        if heard.ended:
            return
        line = typed_line("" if as_json else teller.prompt(heard.entry))
        heard = hear(heard.entry, line) if line is None else _heard(heard.entry, name, line)


def _heard(entry: Entry, name: str, line: str) -> Heard:
    """Return what comes of a line; where somebody else changed the file, begin anew with it and say so."""
    there = load_check(name)
    if there.text == entry.check.text:
        return hear(entry, line)
    begun = begin(there, entry.rule)
    return replace(begun, said=(message("enter-changed", file=name), *begun.said))


class _Teller:
    """Tells each step, to a person or to a program."""

    def __init__(self, speaker: Speaker, *, as_json: bool) -> None:
        self._speaker = speaker
        self._as_json = as_json

    def show(self, heard: Heard) -> None:
        """Print what is said."""
        if self._as_json:
            typer.echo(json.dumps(_entry_json(heard, self._speaker), allow_nan=False))
        else:
            _say(heard.said, self._speaker)

    def prompt(self, entry: Entry) -> str:
        """Return the question that stands before the cursor."""
        key = entry.asks
        if key is None:
            return "> "
        return self._speaker.tell("enter-ask", figure=_CALLED[key], unit=unit_of(key, entry.check))


def _say(said: Sequence[Message], speaker: Speaker) -> None:
    lines = [line for each in said for line in paragraph(speaker.say(each), width(), "", "  ")]
    if lines:
        typer.echo("\n".join(lines))


def _entry_json(heard: Heard, speaker: Speaker) -> dict[str, Any]:
    entry = heard.entry
    key, step, points = entry.asks, entry.step, entry.check.run.points
    place = None if step is None else {
        "number": step.number, "cycle": step.cycle, "direction": step.direction, "pressure": step.pressure_pa,
    }  # fmt: skip
    return {
        **_head_json(entry.check.name, heard.said, speaker),
        "asks": None if key is None else {"key": key, "unit": unit_of(key, entry.check)},
        "step": place,
        "points": len(points),
        "left": len(steps_left(entry.plan, points)),
        "saved": heard.changed,
        "ended": heard.ended,
    }


def _head_json(name: str, said: Sequence[Message], speaker: Speaker) -> dict[str, Any]:
    return {
        "schema": SCHEMA, "engine": __version__, "kind": "enter", "file": name,
        "said": [message_json(each, speaker) for each in said],
    }  # fmt: skip


# ------------------------------------------------------------ a file that is not there yet


def _opened(name: str, region: str, *, as_json: bool) -> CheckFile | None:
    """Return a new check file from answers, kept; None where no line comes any more.

    Raises
    ------
    FileUnreadableError
        Its folder is not there.
    """
    folder = Path(name).parent
    if not folder.is_dir():
        raise FileUnreadableError(message("guide-folder-missing", file=name, folder=str(folder)))
    speaker = manner(region).speaker()
    opening = Opening()
    said: tuple[Message, ...] = (message("enter-new-file", file=name),)
    while opening.asks is not None:
        _tell_opening(name, opening, said, speaker, as_json=as_json)
        line = typed_line("" if as_json else "> ")
        if line is None:
            return None
        opening, said = answered(opening, line)
    check = parse_check(opening.text, name)
    save_check(check, name)
    if not as_json:
        _say((message("enter-file-made", file=name),), speaker)
    return check


def _tell_opening(
    name: str, opening: Opening, said: Sequence[Message], speaker: Speaker, *, as_json: bool
) -> None:
    key = opening.asks
    assert key is not None  # noqa: S101 - the caller's loop
    table = ASKED[opening.place][0]
    must_be = key.kind.says().replace("`", "").replace(" in quotes", "")
    question = message("enter-question", table=table, says=key.says, must_be=must_be)
    if not as_json:
        _say((*said, question), speaker)
        return
    place = ".".join(ASKED[opening.place])
    asks = {"key": place, "required": key.required, "question": message_json(question, speaker)}
    typer.echo(json.dumps({**_head_json(name, said, speaker), "asks": asks, "ended": False}, allow_nan=False))
