"""How suspect each part of the drawing is: shares of faults gathered by the part in which one would look for them.

Everything that affects which part a fault shades lives in this file.

Rules
-----
1. A fault belongs to the part where a technician would put a hand to it.
2. Of a pair each fault shades its own part.
3. A part is told in a word and in hatching, never by colour. Only one part is the most likely.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from steadyhead.diagnosis.answer import Suspect

PARTS = ("controller", "cable", "sensor", "pipe", "meter")

#: Beginning of a fault's id, and its part; the first that fits counts.
_PART_OF: tuple[tuple[str, str], ...] = (
    ("sensor-cock-shut", "pipe"),
    ("sensor-", "sensor"),
    ("port-", "pipe"),
    ("tap-", "pipe"),
    ("vacuum", "pipe"),
    ("site-gauge-", "pipe"),
    ("own-gauge-", "pipe"),
    ("controller-", "controller"),
    ("setting-", "controller"),
    ("other-load", "controller"),
    ("meter-", "meter"),
    ("none", ""),
    ("", "cable"),
)
#: A part with less than this is ruled out, unlikely, possible; with more it is likely.
RULED_OUT, UNLIKELY, POSSIBLE = 0.01, 0.06, 0.25
#: The likeliest part is called that from this share on.
MOST = 0.4


@dataclass(frozen=True, slots=True)
class Level:
    """How suspect a part is: a word of the list (`web-part-…`) and the density of its hatching, 0 to 3."""

    word: str
    density: int


def part_of(fault: str) -> str:
    """Return the part that a fault shades, empty where it shades none.

    >>> [part_of(fault) for fault in ("leakage-signal-common", "sensor-low", "sensor-cock-shut", "none")]
    ['cable', 'sensor', 'pipe', '']
    """
    return next(part for start, part in _PART_OF if fault.startswith(start))


def shares(suspects: Iterable[Suspect]) -> dict[str, float]:
    """Return each part's share of suspicion."""
    found = dict.fromkeys(PARTS, 0.0)
    for suspect in suspects:
        for part in {part_of(fault) for fault in suspect.fault.split("+")} - {""}:
            found[part] += suspect.probability
    return found


def levels(suspects: Iterable[Suspect]) -> Mapping[str, Level]:
    """Return how suspect each part is; nothing where nothing was judged."""
    found = shares(suspects)
    first = max(found, key=lambda part: found[part])
    if found[first] == 0.0:
        return {}
    return {part: _level(share, most=part == first) for part, share in found.items()}


def _level(share: float, *, most: bool) -> Level:
    if most and share >= MOST:
        return Level("most-likely", 3)
    if share >= POSSIBLE:
        return Level("likely", 2)
    if share >= UNLIKELY:
        return Level("possible", 1)
    return Level("ruled-out" if share < RULED_OUT else "unlikely", 0)
