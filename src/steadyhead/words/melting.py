"""What melts together in a language where a value follows a word: Spanish "de" and "el" are "del".

Rules
-----
1. Only where a template's own word meets a value: what a person typed stays as it was typed.
2. A language without a row here joins its parts as they stand.
"""

from __future__ import annotations

import re

#: Stands between what was said and what follows; no text holds it.
JOINT = "\0"
#: What meets at a joint, and what it becomes, by language (grammar, from memory): del, al, e hilo, u otro.
MELTS: dict[str, tuple[tuple[re.Pattern[str], str], ...]] = {
    "es": (
        (re.compile(r"\b([dD]e|[aA]) \0el "), r"\1l "),
        (re.compile(r"\by \0(?=h?[iIíÍ](?!e))"), "e "),
        (re.compile(r"\bo \0(?=h?[oóÓ])"), "u "),
    )
}
#: As much of what was said as the longest word that melts, its space, and what shows that it is a word.
LOOK_BACK = 5


def joined(said: str, follows: str, language: str) -> str:
    """Return a text and the value that follows it as one text.

    >>> joined("Suelte el hilo de ", "el borne de señal", "es"), joined("Suelte el hilo de ", "AI", "es")
    ('Suelte el hilo del borne de señal', 'Suelte el hilo de AI')
    >>> joined("azul y ", "hilo de señal", "es"), joined("the wire of ", "el toro", "en")
    ('azul e hilo de señal', 'the wire of el toro')
    """
    tail = f"{said[-LOOK_BACK:]}{JOINT}{follows}"
    for met, becomes in MELTS.get(language, ()):
        tail = met.sub(becomes, tail)
    return said[:-LOOK_BACK] + tail.replace(JOINT, "")
