"""Finds what two records differ in without sending either: ranges of ids, each with a count and a digest.

Rules
-----
1. A span is the facts whose ids come after `after`, up to `upto`. Spans that follow one another cover every id.
2. Its digest is over each fact's id and mark; a fact's mark is over its canonical text, so that an emptied fact and the
   same one in full differ.
3. What never leaves a home (the invented visit) is in no span.
4. No more facts are held at once than a span has, and one.
"""

from __future__ import annotations

import hashlib
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import islice

from steadyhead.service.ports import UnitOfWork
from steadyhead.service.record.everything import handed_out
from steadyhead.visit.facts import Fact, canonical
from steadyhead.visit.ids import LAST, ulid_text

#: The last id that there can be.
END = ulid_text(LAST)
#: Facts of a span.
SIZE = 256
MARK = 20  #: hexadecimal signs: 80 bits


@dataclass(frozen=True, slots=True)
class Span:
    """A range of ids, and what a home has in it."""

    after: str
    upto: str
    count: int
    digest: str


def mark(fact: Fact) -> str:
    """Return what tells one content of a fact from another."""
    return hashlib.sha256(canonical(fact).encode()).hexdigest()[:MARK]


def marks(facts: Iterable[Fact]) -> list[tuple[str, str]]:
    """Return the id and the mark of each fact."""
    return [(fact.id, mark(fact)) for fact in facts]


def span_of(after: str, upto: str, found: list[tuple[str, str]]) -> Span:
    """Return a span, given the ids and marks in it.

    >>> span_of("", END, []).digest == hashlib.sha256(b"").hexdigest()
    True
    """
    text = "".join(f"{id_} {of}\n" for id_, of in found)
    return Span(after, upto, len(found), hashlib.sha256(text.encode()).hexdigest())


def within(work: UnitOfWork, after: str, upto: str, left_out: frozenset[str]) -> Iterator[Fact]:
    """Yield the facts of a range."""
    for fact in handed_out(work, left_out, after, SIZE + 1):
        if fact.id > upto:
            return
        yield fact


def spans_after(work: UnitOfWork, after: str, most: int, left_out: frozenset[str]) -> list[Span]:
    """Return at most so many spans that follow one another from `after` on; the last of all ends at `END`."""
    facts = handed_out(work, left_out, after)
    spans: list[Span] = []
    while len(spans) < most and after != END:
        found = marks(islice(facts, SIZE))
        upto = found[-1][0] if len(found) == SIZE else END
        spans.append(span_of(after, upto, found))
        after = upto
    return spans


@dataclass(frozen=True, slots=True)
class Differing:
    """Where spans differ, each with the marks here, as far as was told: up to `upto`."""

    spans: tuple[tuple[Span, tuple[tuple[str, str], ...]], ...]
    upto: str


def differing(work: UnitOfWork, spans: Sequence[Span], most: int, left_out: frozenset[str]) -> Differing:
    """Return where spans of another home differ from here.

    Where more than `most` marks would be told, the last span ends earlier and those after it are left out: whoever asks
    goes on from `upto`.
    """
    told: list[tuple[Span, tuple[tuple[str, str], ...]]] = []
    left, upto = most, ""
    for span in spans:
        here = within(work, span.after, span.upto, left_out)
        found = marks(islice(here, span.count + 1))
        if span_of(span.after, span.upto, found) == span:
            upto = span.upto
            continue
        if left <= 0:
            break
        found = [*found, *marks(islice(here, max(0, left - len(found))))]
        more = next(here, None) is not None
        upto = found[-1][0] if more else span.upto
        told.append((Span(span.after, upto, span.count, span.digest), tuple(found)))
        left -= len(found)
        if more:
            break
    return Differing(tuple(told), upto)
