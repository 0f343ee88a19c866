"""A paper of a visit in words: what is worked out for it takes the engine a while, so that it is a task of its own."""

from __future__ import annotations

from dataclasses import dataclass

from steadyhead.diagnosis.answer import Answer
from steadyhead.diagnosis.memory import Memory
from steadyhead.documents.laid import Values
from steadyhead.service.healthy import healthy_bands
from steadyhead.service.papers.kinds import in_words, look_of, paper_of
from steadyhead.service.papers.occasion import of_record, thinking
from steadyhead.service.record.times import AS_SHIPPED, Judging
from steadyhead.service.record.views import VisitSeen
from steadyhead.words import Manner


@dataclass(frozen=True, slots=True, kw_only=True)
class PaperAsked:
    """Which paper is asked for, in whose manner it speaks, and how it is set; what is empty is as usual."""

    kind: str
    manner: Manner
    sheet: str = ""
    decimal: str = ""
    trace: bool = False
    issuer: tuple[str, ...] = ()
    logo: str = ""
    judging: Judging = AS_SHIPPED

    @property
    def key(self) -> str:
        """What tells it from every other paper of the same visit."""
        how = (self.kind, str(self.manner), self.sheet, self.decimal, "traced" if self.trace else "")
        return ":".join((*how, self.judging.key, self.logo, *self.issuer))


def laid(memory: Memory, seen: VisitSeen, answer: Answer | None, asked: PaperAsked) -> Values:
    """Return a paper in words.

    Raises
    ------
    UnknownWordError
        No such sheet or sign.
    """
    bands = {} if seen.assumed else healthy_bands(seen.visit)
    occasion = of_record(seen, answer, bands, thinking(asked.judging.estimates, memory)).in_unit_of(asked.manner)
    made = paper_of(asked.kind, occasion)
    look = look_of(
        made,
        asked.manner,
        sheet=asked.sheet,
        decimal=asked.decimal,
        trace=asked.trace,
        issuer=asked.issuer,
        logo=asked.logo,
    )
    return in_words(made, occasion, asked.manner, look)
