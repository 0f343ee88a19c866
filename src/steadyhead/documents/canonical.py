"""The content of a paper as one text that is the same on every machine, and its SHA-256.

Rules
-----
1. The text is JSON: keys sorted, no spaces, ``{"is": "Shown", ...}`` for each part, messages by id and values.
2. A value is written with twelve significant digits: the last ones of a computed figure may differ by machine.
3. A figure is written once, in the order in which figures are met, and is a number elsewhere: figures share inputs.
4. A key that came after papers had been printed is left out where it says nothing, so that they keep their hash.
5. The way back to the record is left out: the same content may be reached in two ways.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Mapping
from dataclasses import fields, is_dataclass
from math import isfinite
from typing import Any

from steadyhead.documents.paper import Paper
from steadyhead.figures import Figure
from steadyhead.messages import Message

SCHEMA = 1
#: Keys that came later, empty where they say nothing.
LATER = frozenset((("Shown", "own"),))
DIGITS = 12
#: Digits of the hash on the paper, and in the way back to the record: a slip of the pen does not pass.
SHORT = 16


def canonical(paper: Paper) -> str:
    """Return the content of a paper as one text."""
    writer = _Writer()
    content = writer.plain(paper)
    del content["link"]
    whole = {"schema": SCHEMA, "paper": content, "figures": writer.figures}
    return json.dumps(whole, sort_keys=True, separators=(",", ":"), ensure_ascii=False, allow_nan=False)


def content_hash(paper: Paper) -> str:
    """Return the SHA-256 of a paper's content, in hexadecimal."""
    return hashlib.sha256(canonical(paper).encode()).hexdigest()


def way_back(paper: Paper, digest: str) -> str:
    """Return the address that leads from the paper back to its record: with the paper's kind and its hash, `digest`."""
    return f"{paper.link}/{paper.kind}?hash={digest[:SHORT]}" if paper.link else ""


def _number(value: float) -> float | str:
    """Return a float with `DIGITS` digits; one without end, such as degrees of freedom, as a word."""
    return float(f"{value:.{DIGITS - 1}e}") if isfinite(value) else str(value)


class _Writer:
    """Makes plain JSON of a paper; `figures` are those that were met."""

    def __init__(self) -> None:
        self.figures: list[Any] = []
        self._numbers: dict[int, int] = {}

    def plain(self, value: Any) -> Any:  # noqa: ANN401 - whatever a paper is made of
        """Return a value as plain JSON."""
        if isinstance(value, Figure):
            return {"is": "Figure", "number": self._number(value)}
        if isinstance(value, Message):
            return {"is": "Message", "id": value.id, "values": self.plain(value.values)}
        if is_dataclass(value):
            return {"is": type(value).__name__, **self._fields(value)}
        if isinstance(value, Mapping):
            return {str(key): self.plain(inner) for key, inner in value.items()}
        if isinstance(value, (tuple, list)):
            return [self.plain(inner) for inner in value]
        return _number(value) if isinstance(value, float) else value

    def _fields(self, value: Any) -> dict[str, Any]:  # noqa: ANN401 - any of the paper's dataclasses
        kind = type(value).__name__
        told = ((each.name, getattr(value, each.name)) for each in fields(value))
        return {name: self.plain(said) for name, said in told if said or (kind, name) not in LATER}

    def _number(self, figure: Figure) -> int:
        """Return the number of a figure, written now where it is met for the first time."""
        if id(figure) not in self._numbers:
            self._numbers[id(figure)] = len(self._numbers)
            place = len(self.figures)
            self.figures.append(None)
            self.figures[place] = self._fields(figure)
        return self._numbers[id(figure)]
