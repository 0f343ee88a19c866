"""Use cases: notes, and cautions that were read.

Rules
-----
1. A caution is kept once a visit: it is told in full until it was read.
"""

from __future__ import annotations

from collections.abc import Iterable

from steadyhead.errors import NotFoundError, RecordError
from steadyhead.messages import message
from steadyhead.service.ports import UnitOfWork
from steadyhead.service.record.given import Given
from steadyhead.service.record.tokens import slot
from steadyhead.service.record.whole import facts_of_visit, line_of, said
from steadyhead.visit.facts import Fact
from steadyhead.visit.heads import heads_of

CAUTION_SEEN = "caution-seen"


def add_note(given: Given, visit: str, text: str, *, of: str | None = None, token: str | None = None) -> str:
    """Keep a line that somebody wrote, and return its id.

    Raises
    ------
    NotFoundError
        There is no such visit.
    RecordError
        It is empty, or too long.
    """
    with given.writing() as work:
        line = line_of(text)
        if not line:
            raise RecordError(message("note-empty"))
        return _keep(given, work, visit, ("note", said({"text": line, "of": of})), token)


def acknowledge_cautions(given: Given, visit: str, cautions: Iterable[str]) -> None:
    """Keep that cautions were read, each once a visit; `visit` may be a sensor check that stands alone.

    Raises
    ------
    NotFoundError
        There is no such visit.
    """
    with given.writing() as work:
        known = work.facts(visit=visit)
        if not known or work.purged([visit]):
            raise NotFoundError(message("visit-unknown", got=visit))
        read, newest = read_cautions(work, visit), max(fact.id for fact in known)
        new: list[Fact] = []
        for caution in dict.fromkeys(cautions):
            if caution not in read:
                after = new[-1].id if new else newest
                new.append(given.pen(work).fact(CAUTION_SEEN, {"caution": caution}, visit=visit, after=after))
        if new:
            work.add(new)
            work.commit()


def read_cautions(work: UnitOfWork, visit: str) -> frozenset[str]:
    """Return the ids of the cautions that were read in a visit, or in a sensor check that stands alone."""
    heads = heads_of(work.facts(visit=visit, kind=CAUTION_SEEN))
    return frozenset(str(fact.body["caution"]) for fact in heads if "caution" in fact.body)


def _keep(given: Given, work: UnitOfWork, visit: str, told: tuple[str, dict[str, object]], token: str | None) -> str:
    kind, body = told
    place = slot(work, given.ids, facts_of_visit(work, visit), token)
    if place.already is not None:
        return place.already.about
    work.add([given.pen(work).fact(kind, body, id_=place.id, visit=visit, extra=place.extra)])
    work.commit()
    return place.id
