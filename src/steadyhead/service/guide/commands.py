"""The words that are no answers: why, back, fix, list, skip, done, ...

Rules
-----
1. A command is the first word of a line, in any case; what stands behind it belongs to it.
2. A word that is nearly a command, where an answer cannot be read, is asked about by its nearest.
"""

from __future__ import annotations

import re
from difflib import get_close_matches
from typing import NamedTuple

#: Each command's own name by every way of typing it.
SPELLINGS: dict[str, str] = {
    "why": "why",
    "back": "back",
    "undo": "back",
    "fix": "fix",
    "correct": "fix",
    "list": "list",
    "readings": "list",
    "skip": "skip",
    "next": "skip",
    "prove": "prove",
    "done": "done",
    "mended": "done",
    "fixed": "done",
    "set": "set",
    "cautions": "cautions",
    "help": "help",
    "?": "help",
    "quit": "quit",
    "q": "quit",
    "exit": "quit",
    "bye": "quit",
}
_NUMBER = re.compile(r"[0-9]{1,4}")
#: Answers that look like commands and are none.
ANSWERS = ("none", "zero", "not", "one", "seen", "right", "wrong", "yes", "no")


class Command(NamedTuple):
    """A command and what stands behind it."""

    name: str
    rest: str


def command(line: str) -> Command | None:
    """Return the command of a line, None where it is an answer.

    >>> command("FIX 3 2.4 V"), command("2.4"), command("next")
    (Command(name='fix', rest='3 2.4 V'), None, Command(name='skip', rest=''))
    """
    first, _, rest = line.strip().partition(" ")
    name = SPELLINGS.get(first.lower().rstrip(":,."))
    return None if name is None else Command(name, " ".join(rest.split()))


def choice(text: str, count: int) -> int | None:
    """Return the number that a text is, from 1 to `count`; None where it is none of them.

    >>> choice("2", 3), choice("4", 3), choice("\u00b9", 3), choice("x", 3)
    (2, None, None, None)
    """
    if not _NUMBER.fullmatch(text) or not 1 <= int(text) <= count:
        return None
    return int(text)


def nearly(line: str) -> str | None:
    """Return the command that a line nearly is.

    >>> nearly("hlep"), nearly("2.4")
    ('help', None)
    """
    first = line.strip().partition(" ")[0].lower()
    if first in ANSWERS:
        return None
    found = get_close_matches(first, [word for word in SPELLINGS if len(word) > 2], n=1, cutoff=0.7)
    return SPELLINGS[found[0]] if found else None
