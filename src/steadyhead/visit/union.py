"""Brings the facts of two devices together: the same result in any order, repeated or cut off, and nothing lost.

Rules
-----
1. The union holds every fact once, by its id.
2. A purge empties the facts that it covers: those whose id, entity or visit it names, those that arrive later too. A
   purge is covered by none, and nothing replaces it.
3. One id with two contents is no honest device's work. One content is kept: a purge before anything else; then the one
   whose canonical text, emptied, sorts first; then the one whose canonical text sorts first. Two purges of one id cover
   what either covers. So the choice is the same in any order, and does not change when a purge arrives.
4. Each such id is reported, so that it can be shown.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from functools import reduce

from steadyhead.visit.facts import Fact, canonical, emptied
from steadyhead.visit.ids import is_ulid

PURGE = "purge"


@dataclass(frozen=True, slots=True)
class Union:
    """Facts brought together: `facts` by id, `collisions` the ids that came with more than one content."""

    facts: tuple[Fact, ...]
    collisions: tuple[str, ...] = ()


def union(*sides: Iterable[Fact]) -> Union:
    """Return the facts of all sides brought together, purges applied.

    Examples
    --------
    >>> note = Fact(id="0" * 25 + "1", kind="note", about="0" * 25 + "1", body={"text": "wet"}, at="")
    >>> purge = Fact(id="0" * 25 + "2", kind="purge", about="0" * 25 + "2", body={"of": [note.id]}, at="")
    >>> [dict(fact.body) for fact in union([purge], [note]).facts]
    [{}, {'of': ['00000000000000000000000001']}]
    """
    kept: dict[str, Fact] = {}
    collided: set[str] = set()
    for fact in (fact for side in sides for fact in side):
        other = kept.setdefault(fact.id, fact)
        if other is not fact and other != fact:
            kept[fact.id] = chosen(other, fact)
            if not _purged_on_one_side(other, fact):
                collided.add(fact.id)
    ordered = sorted(kept.values(), key=lambda fact: fact.id)
    return Union(purged(ordered), tuple(sorted(collided)))


def _purged_on_one_side(one: Fact, other: Fact) -> bool:
    return emptied(one) == emptied(other) and emptied(one) in {one, other}


def purged(facts: Iterable[Fact]) -> tuple[Fact, ...]:
    """Return facts with those emptied that a purge among them covers."""
    every = tuple(facts)
    targets = targets_of(every)
    return tuple(emptied(fact) if covers(targets, fact) else fact for fact in every) if targets else every


def targets_of(facts: Iterable[Fact]) -> frozenset[str]:
    """Return the ids of facts, entities and visits that the purges among facts name."""
    return frozenset(id_ for fact in facts if fact.kind == PURGE for id_ in named_by(fact))


def named_by(purge: Fact) -> Iterator[str]:
    """Yield the ids that a purge names."""
    named = purge.body.get("of", ())
    return (id_ for id_ in (named if isinstance(named, (list, tuple)) else ()) if is_ulid(id_))


def covers(targets: frozenset[str], fact: Fact) -> bool:
    """Tell whether purges that name `targets` empty a fact."""
    return fact.kind != PURGE and not targets.isdisjoint({fact.id, fact.about, fact.visit or ""})


def emptied_ids(facts: Iterable[Fact]) -> frozenset[str]:
    """Return the ids of the facts that the purges among them cover."""
    every = tuple(facts)
    targets = targets_of(every)
    return frozenset(fact.id for fact in every if covers(targets, fact))


def chosen(*contents: Fact) -> Fact:
    """Return the one content of an id that is kept, whatever the order in which they came; at least one is given."""
    return reduce(_chosen, contents)


def _chosen(one: Fact, other: Fact) -> Fact:
    if canonical(one) == canonical(other):
        return one
    if one.kind == other.kind == PURGE:
        return _both(one, other)
    return min(one, other, key=_rank)


def _rank(fact: Fact) -> tuple[bool, str, str]:
    return fact.kind != PURGE, canonical(emptied(fact)), canonical(fact)


def _both(one: Fact, other: Fact) -> Fact:
    """Return a purge that covers what either covers, the rest from the one that sorts first without what it covers."""
    named = sorted({*named_by(one), *named_by(other)})
    rest = [replace(fact, body={key: v for key, v in fact.body.items() if key != "of"}) for fact in (one, other)]
    first = min(rest, key=_rank)
    return replace(first, body={**first.body, "of": named})
