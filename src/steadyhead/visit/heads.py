"""What holds of an entity now: its heads, what came before them, and where two devices disagree.

Rules
-----
1. The heads of an entity are its facts that no other fact names as replaced. Only a fact about the same entity can
   replace one.
2. Two heads are a conflict: both are kept and shown. They are never put in order by a clock; by id they only stand in
   the same order on every device.
3. A key that all heads agree on holds. A key that only one head changed, against what they both replaced, holds as
   changed. Any other key is in conflict and holds nothing, until a fact that replaces both heads says what it is.
4. Facts that name one another in a ring, which no honest device writes, leave no head; then all of the ring stand as
   heads, so that nothing is hidden.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any, Final

from steadyhead.visit.facts import Fact

_MISSING: Final = object()


@dataclass(frozen=True, slots=True, kw_only=True)
class Entity:
    """One entity as its facts tell it.

    Parameters
    ----------
    about
        Its ULID.
    kind
        What it is, as its first head says.
    first
        Its earliest fact by id: where it stands in its visit.
    heads
        What holds, by id; more than one is a conflict.
    history
        All of its facts, by id.
    body
        The keys that hold.
    conflicts
        The keys that do not agree, each with every head's value, in the order of the heads; None where a head has none.
    purged
        Whether a purge emptied it.
    """

    about: str
    kind: str
    first: Fact
    heads: tuple[Fact, ...]
    history: tuple[Fact, ...]
    body: Mapping[str, Any]
    conflicts: Mapping[str, tuple[Any, ...]]
    purged: bool

    @property
    def head(self) -> Fact:
        """The first head by id, for what can be shown once only."""
        return self.heads[0]

    @property
    def replaces(self) -> tuple[str, ...]:
        """What a correction of it must name."""
        return tuple(fact.id for fact in self.heads)


def heads_of(facts: Iterable[Fact]) -> tuple[Fact, ...]:
    """Return the facts that no other of them about the same entity replaces, by id."""
    every = sorted(facts, key=lambda fact: fact.id)
    replaced = {(fact.about, id_) for fact in every for id_ in fact.supersedes if id_ != fact.id}
    heads = tuple(fact for fact in every if (fact.about, fact.id) not in replaced)
    lost = {fact.about for fact in every} - {fact.about for fact in heads}
    ring = tuple(fact for fact in every if fact.about in lost)
    return tuple(sorted((*heads, *ring), key=lambda fact: fact.id)) if ring else heads


def entities_of(facts: Iterable[Fact], purged: frozenset[str] = frozenset()) -> tuple[Entity, ...]:
    """Return the entities that facts speak of, in the order of their first facts.

    Parameters
    ----------
    facts
        Facts in any order, each id once.
    purged
        Ids of the facts among them that a purge emptied.
    """
    by_entity: dict[str, list[Fact]] = defaultdict(list)
    for fact in sorted(facts, key=lambda fact: fact.id):
        by_entity[fact.about].append(fact)
    found = [entity_of(some, purged) for some in by_entity.values()]
    return tuple(sorted(found, key=lambda entity: (entity.first.id, entity.about)))


def entity_of(facts: Sequence[Fact], purged: frozenset[str] = frozenset()) -> Entity:
    """Return the entity that facts about it, at least one, tell."""
    history = tuple(sorted(facts, key=lambda fact: fact.id))
    heads = heads_of(history)
    body, conflicts = joined(heads, history)
    return Entity(
        about=history[0].about, kind=heads[0].kind, first=history[0], heads=heads, history=history,
        body=body, conflicts=conflicts, purged=any(fact.id in purged for fact in heads),
    )  # fmt: skip


def as_stood(facts: Iterable[Fact], heads: Iterable[str]) -> tuple[Fact, ...]:
    """Return those of an entity's facts that stood when the facts `heads` were its heads: they and all before them."""
    known = {fact.id: fact for fact in facts}
    kept = {id_ for id_ in heads if id_ in known}
    kept |= {id_ for head in tuple(kept) for id_ in _before(known[head], known)}
    return tuple(known[id_] for id_ in sorted(kept))


def joined(heads: Sequence[Fact], history: Sequence[Fact]) -> tuple[dict[str, Any], dict[str, tuple[Any, ...]]]:
    """Return the keys of the heads that hold, and those that are in conflict; a table's keys are joined one by one."""
    bodies = [head.body for head in heads]
    return _joined(bodies, _base(heads, history))


def _joined(
    bodies: Sequence[Mapping[str, Any]], base: Mapping[str, Any]
) -> tuple[dict[str, Any], dict[str, tuple[Any, ...]]]:
    holds: dict[str, Any] = {}
    conflicts: dict[str, tuple[Any, ...]] = {}
    for key in dict.fromkeys(key for body in bodies for key in body):
        values = [body.get(key, _MISSING) for body in bodies]
        if len(values) > 1 and all(isinstance(value, Mapping) for value in values):
            before = base.get(key)
            holds[key], inner = _joined(values, before if isinstance(before, Mapping) else {})
            conflicts |= {f"{key}.{name}": told for name, told in inner.items()}
            continue
        value = _agreed(values, base.get(key, _MISSING))
        if value is _CONFLICT:
            conflicts[key] = tuple(None if value is _MISSING else value for value in values)
        elif value is not _MISSING:
            holds[key] = value
    return holds, conflicts


_CONFLICT: Final = object()


def _agreed(values: Sequence[Any], before: object) -> Any:  # noqa: ANN401 - of the key
    """Return the one value that holds, `_MISSING` where the key holds no more, or `_CONFLICT`."""
    changed = [value for value in values if value is not before and value != before]
    if not changed:
        return before
    first = changed[0]
    return first if all(value is first or value == first for value in changed) else _CONFLICT


def _base(heads: Sequence[Fact], history: Sequence[Fact]) -> Mapping[str, Any]:
    """Return the body of the one fact that all heads stand on and that no other such fact stands on, or nothing."""
    if len(heads) < 2:
        return {}
    known = {fact.id: fact for fact in history}
    shared = set.intersection(*(_before(head, known) for head in heads))
    nearest = [id_ for id_ in shared if not any(id_ in _before(known[other], known) for other in shared - {id_})]
    return known[nearest[0]].body if len(nearest) == 1 else {}


def _before(fact: Fact, known: Mapping[str, Fact]) -> set[str]:
    """Return the ids of all known facts that a fact replaced, and those that they replaced, and so on."""
    found: set[str] = set()
    open_ = [*fact.supersedes]
    while open_:
        id_ = open_.pop()
        if id_ in known and id_ not in found:
            found.add(id_)
            open_ += known[id_].supersedes
    return found
