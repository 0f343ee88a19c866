"""How wide a text will be, so that a label of any length finds room in the drawing.

Rules
-----
1. Widths are estimates, on the wide side, of the app's own typeface: they are in parts of its size, by kinds of signs.
2. A text that finds no room at its size is set a little smaller; one that finds none even so loses its end, and the
   drawing's hidden text tells it whole.
"""

from __future__ import annotations

NARROW, MIDDLE, WIDE, CAPITAL, FIGURE = 0.33, 0.58, 0.92, 0.7, 0.62
_NARROW = frozenset("ijlIt.,:;'|!()[]{} /\\")
_WIDE = frozenset("mwMW@%—…")
#: The sizes that a label is tried at [units of the drawing]; bold letters are this much wider.
SIZES = (14.0, 13.0, 12.0)
BOLD = 1.05
ELLIPSIS = "…"


def width(text: str, size: float = SIZES[0], *, bold: bool = False) -> float:
    """Return how wide a text is at most [units of the drawing].

    >>> round(width("SIG"), 1), width("") == 0.0
    (24.2, True)
    """
    return sum(map(_sign, text)) * size * (BOLD if bold else 1.0)


def figures(text: str, room: float) -> tuple[str, float]:
    """Return a figure and the size at which it fits into `room`; in the face for figures all signs are one width."""
    size = next((size for size in SIZES if len(text) * size * FIGURE <= room), SIZES[-1])
    most = int(room / (size * FIGURE))
    return (text if len(text) <= most else text[: most - 1] + ELLIPSIS), size


def fit(text: str, room: float, *, bold: bool = False) -> tuple[str, float]:
    """Return a text and the size at which it fits into `room`; its end gives way where it must.

    >>> fit("SIG", 60.0), fit("white with a black stripe", 60.0)
    (('SIG', 14.0), ('white w…', 12.0))
    """
    for size in SIZES:
        if width(text, size, bold=bold) <= room:
            return text, size
    kept = text
    while kept and width(kept + ELLIPSIS, SIZES[-1], bold=bold) > room:
        kept = kept[:-1]
    return kept.rstrip() + ELLIPSIS, SIZES[-1]


def _sign(sign: str) -> float:
    if sign in _NARROW:
        return NARROW
    if sign in _WIDE or ord(sign) > 0x2E7F:
        return WIDE if ord(sign) <= 0x2E7F else 1.05
    return CAPITAL if sign.isupper() else MIDDLE
