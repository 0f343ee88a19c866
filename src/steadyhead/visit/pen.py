"""Writes facts: what a device, a person and a moment have in common, so that each fact says only what is its own."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Any

from steadyhead.visit.facts import Fact, canonical, fact_from_text
from steadyhead.visit.ids import Clock, at_text


@dataclass(frozen=True, slots=True, kw_only=True)
class Pen:
    """Who writes, where, with what.

    Parameters
    ----------
    new_id
        Returns a new ULID, after the one that it is given (``""`` for any).
    clock
        Milliseconds since 1970, UTC.
    zone, author, program
        As in `steadyhead.visit.facts.Fact`.
    """

    new_id: Callable[[str], str] = field(repr=False)
    clock: Clock = field(repr=False)
    zone: str = "UTC"
    author: str = ""
    program: str = ""

    def fact(
        self,
        kind: str,
        body: Mapping[str, Any],
        *,
        id_: str | None = None,
        about: str | None = None,
        visit: str | None = None,
        supersedes: tuple[str, ...] = (),
        instrument: str | None = None,
        after: str = "",
        extra: Mapping[str, Any] | None = None,
    ) -> Fact:
        """Return a new fact; without `id_` with a new id that sorts after `after`, without `about` about itself.

        Raises
        ------
        RecordError
            It could not be read back: a text with a NUL, a name that is no line, more than a fact holds.
        """
        own = self.new_id(after) if id_ is None else id_
        fact = Fact(
            id=own, kind=kind, about=own if about is None else about, visit=visit, body=body, at=at_text(self.clock()),
            zone=self.zone, author=self.author, instrument=instrument, program=self.program, supersedes=supersedes,
            extra=extra or {},
        )  # fmt: skip
        return fact_from_text(canonical(fact))
