"""A source that is printed keeps its title; what nobody printed is said in the reader's language."""

from __future__ import annotations

import ast
from pathlib import Path

import pytest

import steadyhead
from steadyhead.words import Speaker
from steadyhead.words.sources import OWN, OWN_PARTED, sourced

#: What is printed, by the signs of its title: a body, a number, a year, an author, a place in it.
PRINTED = frozenset("0123456789")


def named(key: str) -> set[str]:
    """Return every plain text that the package gives a source or a figure under a name."""
    found = set()
    for path in Path(steadyhead.__path__[0]).rglob("*.py"):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.keyword) and node.arg == key and isinstance(node.value, ast.Constant):
                found.add(str(node.value.value))
    return found


@pytest.mark.parametrize("cite", sorted(named("cite")))
def test_a_source_is_printed_or_is_said_in_every_language(cite: str) -> None:
    """A title has its number or its year; three that have neither are known by their beginnings."""
    assert PRINTED & set(cite) or cite in OWN or cite.startswith(("NIST ", "Karassik ", "Water Systems Council"))


def test_common_practice_is_said_in_spanish_and_a_standard_keeps_its_title() -> None:
    """Words of the table, and a title."""
    speaker = Speaker(language="es")
    said = speaker.tell("source-remembered", cite="common practice", locator="no source")
    assert said == "práctica común, sin fuente, de memoria."
    assert speaker.tell("source-read", cite="IEC 61298-2:2008", locator="8.3") == "IEC 61298-2:2008, 8.3."


def test_where_a_figure_was_given_is_said_with_its_number() -> None:
    """A part within a part."""
    speaker = Speaker(language="es")
    assert speaker.tell("paper-from", whence="belief after reading 2") == "Dado: parte después de la lectura 2."
    assert speaker.tell("paper-from", whence="grade 2A") == "Dado: grado 2A."


def test_in_english_every_source_comes_out_as_it_went_in() -> None:
    """The texts themselves."""
    for text in (*OWN, *OWN_PARTED):
        assert sourced(text, lambda same: same) == text
