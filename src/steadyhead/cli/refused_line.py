"""What is said of a command line that cannot be read: how the command is used, and what is wrong, in every language.

Rules
-----
1. The library says it in English sentences; each kind of them that a command here can come to has one of ours.
2. A sentence of a kind that is not known here is passed on as it came.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Any

import typer

from steadyhead.cli.page import paragraph, width
from steadyhead.messages import Message, message
from steadyhead.visit.nearest import nearest_first, shown
from steadyhead.words import Speaker

#: Everything that the library refuses in a command line is of this kind, which has no public name of its own.
USAGE: type[Exception] = typer.BadParameter.__mro__[1]
#: The library's sentences, and what we say.
KINDS: tuple[tuple[re.Pattern[str], str], ...] = tuple(
    (re.compile(pattern), id_)
    for pattern, id_ in (
        (r"No such command ['\"](?P<got>.*?)['\"]\.", "command-unknown"),
        (r"No such option: (?P<got>\S+)", "command-option-unknown"),
        (r"Missing argument ['\"](?P<got>.*?)['\"]\.", "command-argument-missing"),
        (r"Got unexpected extra arguments?(?:\(s\))? \((?P<got>.*)\)", "command-too-much"),
        (r"Option ['\"](?P<got>.*?)['\"] does not take a value\.", "command-option-bare"),
        (r"Option ['\"](?P<got>.*?)['\"] requires an argument\.", "command-option-alone"),
        (r"Invalid value for ['\"](?P<key>.*?)['\"]: ['\"](?P<got>.*)['\"] is not a valid .*", "command-no-number"),
        (r"Invalid value for ['\"](?P<key>.*?)['\"]: (?P<got>\S+) is not in the range (?P<must_be>.*)\.",
         "command-out-of-range"),
    )
)  # fmt: skip


def refused_line(error: Any, speaker: Speaker) -> str:  # noqa: ANN401 - the library's own kinds have no public name
    """Return what is said of a command line that the library refused."""
    context = getattr(error, "ctx", None)
    if type(error).__name__ == "NoArgsIsHelpError":
        return str(error.format_message())
    told = paragraph(speaker.say(line_message(error)), width())
    if context is None:
        return "\n".join(told)
    asked = f"{context.command_path} --help"
    return "\n".join([context.get_usage(), speaker.tell("command-try", command=asked), "", *told])


def line_message(error: Any) -> Message:  # noqa: ANN401 - as in `refused_line`
    """Return what is wrong with a command line."""
    text = str(error.format_message())
    for pattern, id_ in KINDS:
        found = pattern.match(text)
        if found:
            got = {name: shown(value) for name, value in found.groupdict().items()}
            return message(id_, **got, **_known(id_, got["got"], error.ctx))
    return message("command-refused", got=shown(text))


def _known(id_: str, got: str, context: Any) -> dict[str, Any]:  # noqa: ANN401 - as in `refused_line`
    """Return the words that are known where a word is not, the nearest first."""
    if id_ not in {"command-unknown", "command-option-unknown"}:
        return {}
    words = context.command.commands if id_ == "command-unknown" else tuple(_options(context))
    ordered, nearest = nearest_first(got, words)
    return {"must_be": ordered, "nearest": nearest}


def _options(context: Any) -> Iterator[str]:  # noqa: ANN401 - as in `refused_line`
    for param in context.command.get_params(context):
        yield from (each for each in param.opts if each.startswith("-"))
