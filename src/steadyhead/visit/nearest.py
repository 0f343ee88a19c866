"""What was typed, fit to be shown again, and the allowed words with the nearest first.

Rules
-----
1. What is shown of an input is short and printable: a file cannot fill a terminal or steer it.
2. All allowed words are always given; the nearest stand first, and `nearest` names one only where it is really near.
"""

from __future__ import annotations

from collections.abc import Iterable

LONGEST_SHOWN = 80
_NEAR_ENOUGH = 0.6


def shown(text: str) -> str:
    r"""Return `text` cut to `LONGEST_SHOWN` signs, each of them printable.

    >>> shown("a\x1b[31m" + "b" * 100)[:12]
    'a\\x1b[31mbbb'
    """
    short = text if len(text) <= LONGEST_SHOWN else f"{text[: LONGEST_SHOWN - 1]}…"
    return "".join(sign if sign.isprintable() else sign.encode("unicode_escape").decode("ascii") for sign in short)


def nearest_first(got: str, allowed: Iterable[str]) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Return all of `allowed`, nearest to `got` first, and the nearest if it is near enough to be what was meant.

    >>> nearest_first("volt", ["ohms", "volts", "milliamps"])
    (('volts', 'ohms', 'milliamps'), ('volts',))
    """
    from difflib import SequenceMatcher  # noqa: PLC0415 - a sound file never needs it

    matcher = SequenceMatcher(autojunk=False)
    matcher.set_seq2(_plain(got[:LONGEST_SHOWN]))
    rated = []
    for word in allowed:
        matcher.set_seq1(_plain(word))
        rated.append((-matcher.ratio(), word))
    rated.sort(key=lambda pair: pair[0])
    words = tuple(word for _, word in rated)
    return words, words[:1] if rated and -rated[0][0] >= _NEAR_ENOUGH else ()


def _plain(word: str) -> str:
    return word.lower().replace("_", "-").replace(" ", "-")
