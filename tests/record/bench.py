"""A bench for tests of the record: a clock that is told, ids of a seed, facts in short."""

from __future__ import annotations

import random
from collections.abc import Mapping
from pathlib import Path
from typing import Any

from steadyhead.visit.facts import Fact
from steadyhead.visit.ids import Ids, at_text, ulid_text

#: The checkout.
ROOT = Path(__file__).resolve().parents[2]
#: 2026-05-04T07:09:31.250Z, worked out by hand: 20577 days, 7 h, 9 min, 31.25 s after 1970.
A_MORNING = (20577 * 86400 + 7 * 3600 + 9 * 60 + 31) * 1000 + 250


class ToldClock:
    """A clock that stands until it is moved."""

    def __init__(self, now: int = A_MORNING) -> None:
        self.now = now

    def __call__(self) -> int:
        """Return the milliseconds since 1970."""
        return self.now


def seeded_ids(clock: ToldClock, seed: int = 4) -> Ids:
    """Return a maker of ids that makes the same ones every time."""
    return Ids(clock, random.Random(seed).getrandbits)  # noqa: S311 - the same ids every time


def fact(number: int, kind: str = "note", about: int | None = None, **more: Any) -> Fact:  # noqa: ANN401 - any field
    """Return a fact whose ids are small numbers; `supersedes` and `of` are numbers too."""
    body: Mapping[str, Any] = more.pop("body", {"text": f"note {number}"})
    if kind == "purge":
        body = {"of": [ulid_text(each) for each in more.pop("of")]}
    visit = more.pop("visit", None)
    return Fact(
        id=ulid_text(number),
        kind=kind,
        about=ulid_text(number if about is None else about),
        visit=None if visit is None else ulid_text(visit),
        body=body,
        at=more.pop("at", at_text(A_MORNING)),
        supersedes=tuple(ulid_text(each) for each in more.pop("supersedes", ())),
        **more,
    )
