"""What would do instead, or was assumed, in this language: the domain hands it over as a short English phrase.

Rules
-----
1. A phrase is taken apart by the templates of `PHRASES`, the first that fits; its parts are said by themselves.
2. What no template fits is said as it stands: a figure in quotes, a word that is typed.
3. In English every phrase comes out as it went in.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from functools import cache
from string import Formatter

#: Values of a message that are such phrases.
PHRASED = frozenset(("must_be", "is_a"))

#: Whole phrases: what is asked for, and what was got in its place.
NOUNS = (
    "a pressure", "an absolute pressure", "a head of water", "a voltage", "a current", "a resistance", "a percentage",
    "a length", "a conductor's size", "a volume", "a flow", "a temperature", "a time", "a frequency", "a range",
    "a signal",
    "a difference of temperature", "a percentage of the span", "an accuracy", "a tolerance", "counts of a size",
    "a figure of the signal", "a figure with its unit", "a number", "a number above zero", "a whole number", "a day",
    "a text", "text", "a list", "a table", "a bare number", "a date or a time", "true or false", "a finite figure",
    "a unit of the table", "a few words", "a number of times", "ratiometric or fixed",
)  # fmt: skip
#: Phrases with parts, those that end a phrase first; the parts are phrases again, or stand as they are.
PARTED = (
    "as the sensor, or {low} to {high} times its range",
    "{range}, grade {grade}",
    "about {figure}",
    "a figure with its unit; a spread such as {jumping} or {over}; {ends}; a word for {word} and {other}",
    "{what}; several as a list of texts, rising",
    "{what}; several as a list of texts",
    "{what}; two are joined by `+`",
    "{what}, in the sensor's unit",
    "{what}, above zero",
    "{what}, from {least} to {most}",
    "one of these words, in quotes: {words}",
    "{what}, without quotes, such as {example}",
    "{what} without quotes, such as {example}",
    "{what} in quotes, such as {example}",
    "{what}, in quotes",
    "{what} in quotes",
    "{what}, without quotes",
    "a list of at most {most} texts, each {what}",
    "a list of faults, each with its share, such as {example}",
    "a list of words, such as {example}",
    "a list of {words}",
    "one of {words}",
    "{schema}, before the first table",
    "{what} on a line of its own",
    "{what} or above",
    "{what}, or {other}",
    "{what} or {other}",
    "{what} such as {example}",
    "{least} to {most}",
)
PHRASES = (*NOUNS, *PARTED)


@cache
def _pattern(template: str) -> re.Pattern[str]:
    """Return what matches a template, its parts by name."""
    pieces = [
        re.escape(literal) + (f"(?P<{name}>.+)" if name else "") for literal, name, _, _ in Formatter().parse(template)
    ]
    return re.compile("".join(pieces))


def phrase(
    text: str,
    translated: Callable[[str], str],
    parted: tuple[str, ...] = PARTED,
    leaf: Callable[[str], str] | None = None,
) -> str:
    """Return a phrase in another language.

    Parameters
    ----------
    text
        The phrase in English.
    translated
        Returns a template in that language.
    parted
        The templates that take it apart.
    leaf
        Says a part that no template fits; it stands as it is where there is none.

    Examples
    --------
    >>> phrase("a pressure such as '62 psi' or '4.3 bar', above zero", lambda template: template)
    "a pressure such as '62 psi' or '4.3 bar', above zero"
    """
    if text in NOUNS:
        return translated(text)
    for template in parted:
        match = _pattern(template).fullmatch(text)
        if match:
            found = match.groupdict().items()
            parts = {name: phrase(part, translated, parted, leaf) for name, part in found}
            return translated(template).format(**parts)
    return leaf(text) if leaf else text
