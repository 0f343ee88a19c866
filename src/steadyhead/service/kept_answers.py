"""Answers kept beyond the process that worked them out: a restarted laptop and a reopened phone recompute nothing.

Rules
-----
1. An answer's key is a digest of what was asked, of the engine (its code and tables, byte for byte), of the estimates
   that it judged by, and of all of the visit but what no answer hangs on: names, labels, the customer's own words. So
   nothing is ever stale, and nothing that a person typed can be read off a key.
2. What is kept is read as data, never run, and what cannot be read is worked out anew.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Iterator
from dataclasses import replace
from functools import cache
from hashlib import sha256
from importlib.resources import files
from importlib.resources.abc import Traversable

from steadyhead.diagnosis.answer_text import answer_of, plain, text_of
from steadyhead.diagnosis.estimates import SHIPPED, Estimates
from steadyhead.diagnosis.memory import Asked, T
from steadyhead.service.ports import KeepsTexts
from steadyhead.visit.record import Visit

#: The packages and modules of `steadyhead` that an answer hangs on.
ENGINE = (
    "diagnosis", "errors.py", "figures.py", "loop", "messages.py", "published", "quantities", "visit", "water",
)  # fmt: skip


@cache
def engine() -> str:
    """Return a digest of the engine as it is installed here."""
    found = sha256()
    for part in _parts(files("steadyhead")):
        found.update(f"{part.name}:".encode())
        found.update(part.read_bytes())
    return found.hexdigest()


def _parts(root: Traversable) -> Iterator[Traversable]:
    """Yield the engine's files, by name: sources, or what they were compiled to where there are no sources."""
    for part in sorted(root.iterdir(), key=lambda each: each.name):
        if part.name in ENGINE or part.name.removesuffix("c") in ENGINE:
            yield from _inside(part)


def _inside(part: Traversable) -> Iterator[Traversable]:
    if part.is_file():
        yield part
        return
    for each in sorted(part.iterdir(), key=lambda one: one.name):
        if each.name != "__pycache__":
            yield from _inside(each)


class KeptAnswers:
    """Keeps answers as texts.

    Parameters
    ----------
    texts
        Where.
    version
        What the engine is told by: other figures, another version.
    """

    def __init__(self, texts: KeepsTexts, version: Callable[[], str] = engine) -> None:
        self._texts, self._version = texts, version

    def of(self, visit: Visit, estimates: Estimates, asked: Asked[T], work: Callable[[], T]) -> T:
        """Return what was asked of a visit judged by estimates, worked out now where it is new."""
        key = self.key(visit, estimates, asked.what)
        text = self._texts.get(key)
        known = None if text is None else answer_of(text, asked)
        if known is not None:
            return known
        found = work()
        self._texts.put(key, text_of(found))
        return found

    def close(self) -> None:
        """Let go of what holds the texts."""
        self._texts.close()

    def key(self, visit: Visit, estimates: Estimates, what: str) -> str:
        """Return what tells an answer from every other."""
        unnamed = replace(
            visit, site=replace(visit.site, name=None), labels={}, complaint=replace(visit.complaint, text=None)
        )
        judged = None if estimates == SHIPPED else plain(estimates)
        told = json.dumps([what, self._version(), judged, plain(unnamed)], sort_keys=True)
        return sha256(told.encode()).hexdigest()
