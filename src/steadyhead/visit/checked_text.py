"""A file's text walked and checked whole, whichever kind of file it is: its rows, or everything that is wrong with it.

Rules
-----
1. The walk and the rules between keys tell their problems together, in the order of the file.
2. Nothing of a file is used while one problem is left.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

from steadyhead.errors import Problem
from steadyhead.visit.keys import Language
from steadyhead.visit.toml_text import TomlText, decode, parse
from steadyhead.visit.walk import Findings, Rule, TooMany, Walked, walk


class Checked(NamedTuple):
    """A text, its rows (None where it cannot be used), and its problems."""

    text: str
    walked: Walked | None
    problems: tuple[Problem, ...]


def checked_text(text: str | bytes, name: str, language: Language, rules: Iterable[Rule]) -> Checked:
    """Return what a text says in a file's language, and what is wrong with it.

    Parameters
    ----------
    text
        The text, or its bytes.
    name
        What the file is called in messages.
    language
        The tables that such a file has.
    rules
        What its keys cannot be together.

    Raises
    ------
    FileUnreadableError
        Larger than 1 MiB, or no UTF-8 text.
    """
    plain = decode(text if isinstance(text, bytes) else text.encode("utf-8", "surrogatepass"), name)
    toml = parse(plain)
    findings = Findings(toml)
    walked = _walked(toml, findings, language, rules) if toml.values is not None else None
    problems = findings.sorted()
    return Checked(plain, None if problems else walked, problems)


def _walked(toml: TomlText, findings: Findings, language: Language, rules: Iterable[Rule]) -> Walked | None:
    try:
        walked = walk(toml, findings, language)
        for rule in rules:
            for path, told in rule(walked):
                findings.add(path, told)
    except TooMany:
        return None
    return walked
