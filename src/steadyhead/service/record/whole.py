"""Gathers the facts that a visit hangs on, and refuses what would not be read back."""

from __future__ import annotations

import hashlib
from collections.abc import Iterable, Mapping, Sequence
from typing import Any

from steadyhead.errors import NotFoundError, Problem, RecordError, VisitFileError
from steadyhead.messages import message
from steadyhead.service.ports import UnitOfWork
from steadyhead.visit.fact_kinds import CHECK_KIND
from steadyhead.visit.facts import Fact
from steadyhead.visit.from_facts import ToldVisit, visit_of_facts
from steadyhead.visit.heads import Entity, entity_of, heads_of
from steadyhead.visit.kinds import LONGEST_TEXT
from steadyhead.visit.union import covers


def facts_of_visit(work: UnitOfWork, visit: str) -> tuple[Fact, ...]:
    """Return the facts of a visit, and those of the site, the system and the instruments that it names.

    Raises
    ------
    NotFoundError
        There is no such visit.
    """
    own = work.facts(visit=visit)
    heads = heads_of(fact for fact in own if fact.about == visit and fact.kind != CHECK_KIND)
    if not heads:
        raise NotFoundError(message("visit-unknown", got=visit))
    systems = _named(heads, "system")
    beside = [fact for id_ in systems for fact in work.facts(about=id_)]
    sites = {*_named(heads, "site"), *_named(beside, "site")}
    instruments = {str(id_) for head in heads for id_ in head.body.get("instruments", ())}
    instruments |= {fact.instrument for fact in own if fact.instrument}
    beside += [fact for id_ in sorted(sites | instruments) for fact in work.facts(about=id_)]
    return tuple({fact.id: fact for fact in (*own, *beside)}.values())


def _named(facts: Iterable[Fact], key: str) -> list[str]:
    return list(dict.fromkeys(str(fact.body[key]) for fact in facts if isinstance(fact.body.get(key), str)))


def targets_among(work: UnitOfWork, facts: Iterable[Fact]) -> frozenset[str]:
    """Return what purges name, as far as it touches these facts."""
    return work.purged({id_ for fact in facts for id_ in (fact.id, fact.about, fact.visit) if id_})


def told(work: UnitOfWork, visit: str, *more: Fact) -> ToldVisit:
    """Return a visit as it stands, or as it would stand with more facts.

    Raises
    ------
    NotFoundError
        There is no such visit.
    """
    facts = facts_of_visit(work, visit)
    targets = targets_among(work, facts)
    if visit in targets:
        raise NotFoundError(message("visit-erased", got=visit))
    return visit_of_facts({fact.id: fact for fact in (*facts, *more)}.values(), visit, targets)


def entity(work: UnitOfWork, about: str) -> Entity:
    """Return an entity as it stands.

    Raises
    ------
    NotFoundError
        There is none, or it was erased.
    """
    facts = work.facts(about=about)
    if not facts:
        raise NotFoundError(message("entity-unknown", got=about))
    targets = targets_among(work, facts)
    found = entity_of(facts, frozenset(fact.id for fact in facts if covers(targets, fact)))
    if found.purged:
        raise NotFoundError(message("entity-erased", got=about))
    return found


def refuse_unread(work: UnitOfWork, visit: str, new: Sequence[Fact]) -> ToldVisit:
    """Return the visit with new facts in it.

    Raises
    ------
    VisitFileError
        A new fact would be set aside; `problems` says why.
    """
    after = told(work, visit, *new)
    ids = {fact.id for fact in new}
    problems = tuple(Problem(each.why, each.key, None) for each in after.set_aside if each.fact in ids)
    if problems:
        raise VisitFileError(message("entry-refused", problems=len(problems)), problems)
    return after


def said(row: Mapping[str, Any]) -> dict[str, Any]:
    """Return the keys of a form that say something: an empty one is unknown.

    >>> said({"length": "12 m", "conductor": "", "shown": [], "shield": False})
    {'length': '12 m', 'shield': False}
    """
    return {key: value for key, value in row.items() if value is not None and value not in ("", [], (), {})}


def line_of(text: str) -> str:
    """Return what somebody wrote, without blanks at its ends.

    Raises
    ------
    RecordError
        It is too long.
    """
    if len(text) > LONGEST_TEXT:
        raise RecordError(message("text-too-long", got=text[:40], length=len(text), most=LONGEST_TEXT))
    return text.strip()


def key_of(facts: Iterable[Fact]) -> str:
    """Return a short text that changes with every fact that is added or emptied, and with nothing else."""
    ids = sorted(f"{fact.id}{'' if fact.body else '-'}" for fact in facts)
    return hashlib.sha256("".join(ids).encode()).hexdigest()[:32]
