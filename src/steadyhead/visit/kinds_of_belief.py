"""How what was believed of a visit's suspects is read, written and described: each suspect with its share.

Rules
-----
1. One text a suspect: its fault, or two joined by ``+``, then its share in percent (``sensor-open 42 %``).
2. No suspect stands twice, and together they come to no more than everything.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from steadyhead.errors import InputError
from steadyhead.messages import message
from steadyhead.quantities import DIMENSIONS
from steadyhead.visit.exact import exact
from steadyhead.visit.kinds import Joined, Kind, Known, quoted, wrong_type
from steadyhead.visit.kinds_of_quantity import Share
from steadyhead.visit.nearest import shown

#: By how much all shares may pass everything: each is rounded.
ROUNDED = 0.01


class Shares(Kind):
    """Suspects with their shares, as a list of texts."""

    def __init__(self, *faults: str) -> None:
        self._fault, self._share = Joined(*faults), Share()

    def read(self, raw: object, known: Known) -> tuple[tuple[str, float], ...]:
        """Return each suspect with its share, in their order."""
        if not isinstance(raw, list):
            raise InputError(wrong_type(raw, self.says()))
        found: dict[str, float] = {}
        for each in raw:
            if not isinstance(each, str):
                raise InputError(wrong_type(each, self.says()))
            fault, _, share = each.strip().partition(" ")
            name = self._fault.read(fault, known)
            if name in found:
                raise InputError(message("believed-twice", got=shown(fault)))
            found[name] = self._share.read(share, known)
        if sum(found.values()) > 1.0 + ROUNDED:
            raise InputError(message("believed-too-much", got=f"{100.0 * sum(found.values()):.0f} %"))
        return tuple(found.items())

    def write(self, value: Sequence[tuple[str, float]]) -> str:
        """Return the list."""
        return "[" + ", ".join(quoted(each) for each in texts_of(value)) + "]"

    def says(self) -> str:
        """Return what may be written."""
        return "a list of faults, each with its share, such as 'sensor-open 42 %'"

    def schema(self) -> dict[str, Any]:
        """Return a list of texts, with an example."""
        one = f"sensor-open {DIMENSIONS['percent'].examples[0]}"
        return {"type": "array", "items": {"type": "string", "examples": [one]}}


def texts_of(shares: Sequence[tuple[str, float]]) -> list[str]:
    """Return suspects with their shares as texts that read back identical.

    >>> texts_of([("sensor-open", 0.42), ("none", 0.1)])
    ['sensor-open 42 %', 'none 10 %']
    """
    return [f"{fault} {exact(share, 'percent')}" for fault, share in shares]
