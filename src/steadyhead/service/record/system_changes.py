"""Use cases: what was changed in a system and its site, by whom; a change put back; what devices disagree on, settled.

Rules
-----
1. A change is told key by key, against the facts that it replaced: a key that only joined two devices is no change.
2. A change is put back as a new fact; only keys that still say what that change said: a later word stands.
3. What two devices disagree on is settled by choosing what one of them says, key by key; the others stay unsettled.
4. A fact that copied from another system names it in a key beside its fields, `COPIED_FROM`.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from typing import Any, NamedTuple

from steadyhead.errors import NotFoundError, RecordError
from steadyhead.messages import message
from steadyhead.service.ports import UnitOfWork
from steadyhead.service.record.changing import Change
from steadyhead.service.record.given import Given
from steadyhead.service.record.systems import keep_changed
from steadyhead.service.record.whole import entity, said
from steadyhead.visit.from_facts import Clash
from steadyhead.visit.heads import Entity, heads_of, joined

Row = Mapping[str, Any]
COPIED_FROM = "copied_from"


class KeyChanged(NamedTuple):
    """One key of a change: what it said before and says after; None where it said nothing."""

    key: str
    before: Any
    after: Any


@dataclass(frozen=True, slots=True, kw_only=True)
class Changed:
    """One change of a system or of its site.

    Parameters
    ----------
    fact
        Its fact.
    kind
        ``system`` or ``site``.
    at, author
        When (UTC), and who.
    keys
        What changed; empty keys are left out.
    copied_from
        The system that it was copied from, and what that is called; empty where it was typed.
    back
        Whether anything of it could be put back now.
    """

    fact: str
    kind: str
    at: str
    author: str
    keys: tuple[KeyChanged, ...]
    copied_from: str = ""
    copied_name: str = ""
    back: bool = False


def system_changes(given: Given, system: str) -> tuple[Changed, ...]:
    """Return what was changed in a system and in its site, the last first.

    Raises
    ------
    NotFoundError
        There is no such system, or it was erased.
    """
    with given.reading() as work:
        found = [each for entity_ in _of_system(work, system) for each in _changes(work, entity_)]
    return tuple(sorted(found, key=lambda each: each.fact, reverse=True))


def unsettled(given: Given, system: str) -> tuple[Clash, ...]:
    """Return what two devices disagree on in a system and its site, each value with the fact that says it.

    Raises
    ------
    NotFoundError
        There is no such system, or it was erased.
    """
    with given.reading() as work:
        return tuple(
            Clash(about=each.about, kind=each.kind, key=key, values=values, heads=each.replaces)
            for each in _of_system(work, system)
            for key, values in each.conflicts.items()
        )


def settle_system(given: Given, system: str, key: str, head: str, *, token: str | None = None) -> None:
    """Keep what one device says of a key that two disagree on.

    Parameters
    ----------
    given
        Store, ids, clock.
    system
        The system.
    key
        The key: ``cable.length``.
    head
        The fact that is right.
    token
        Id of the fact that this makes; the same one again changes nothing.

    Raises
    ------
    NotFoundError
        There is no such system, or nothing of it is unsettled so.
    """
    with given.writing() as work:
        for each in _of_system(work, system):
            if head in each.replaces and (key in each.conflicts or _has_token(each, token)):
                value = next(_value(fact.body, key) for fact in each.heads if fact.id == head)
                keep_changed(given, work, each.about, _puts({key: value}), token)
                return
            if _has_token(each, token):
                return
    raise NotFoundError(message("entity-unknown", got=head))


def put_back(given: Given, system: str, fact: str, *, token: str | None = None) -> int:
    """Put a change back, and return how many keys say again what they said before it.

    Raises
    ------
    NotFoundError
        There is no such system, or no such change of it.
    RecordError
        Nothing of it can be put back: later words stand in its place.
    """
    with given.writing() as work:
        for each in _of_system(work, system):
            if _has_token(each, token):
                return 0
            if fact not in {known.id for known in each.history}:
                continue
            keys = {key.key: key.before for key in _keys(each, fact) if _stands(each, key)}
            if not keys or fact == each.first.id:
                raise RecordError(message("change-overtaken"))
            keep_changed(given, work, each.about, _puts(keys), token)
            return len(keys)
    raise NotFoundError(message("entity-unknown", got=fact))


def _has_token(each: Entity, token: str | None) -> bool:
    return token is not None and any(token in {fact.id, fact.extra.get("token")} for fact in each.history)


def _of_system(work: UnitOfWork, system: str) -> Iterator[Entity]:
    """Yield a system and its site; where two devices name different sites, each of them."""
    own = entity(work, system)
    yield own
    named = dict.fromkeys(str(fact.body["site"]) for fact in own.heads if fact.body.get("site"))
    for site in named:
        if work.facts(about=site):
            yield entity(work, site)


def _changes(work: UnitOfWork, each: Entity) -> Iterator[Changed]:
    for fact in each.history:
        keys = tuple(_keys(each, fact.id))
        if not keys and fact is not each.first:
            continue
        source = str(fact.extra.get(COPIED_FROM, ""))
        first = fact.id == each.first.id
        yield Changed(
            fact=fact.id, kind=each.kind, at=fact.at, author=fact.author, keys=keys, copied_from=source,
            copied_name=_name(work, source) if source else "",
            back=not first and any(_stands(each, key) for key in keys),
        )  # fmt: skip


def _name(work: UnitOfWork, system: str) -> str:
    names = [str(fact.body["name"]) for fact in work.facts(about=system) if fact.body.get("name")]
    return names[-1] if names else ""


def _keys(each: Entity, fact: str) -> Iterator[KeyChanged]:
    """Yield what a fact changed against what it replaced."""
    own = next(known for known in each.history if known.id == fact)
    replaced = [known for known in each.history if known.id in own.supersedes]
    before = dict(flat(joined(replaced, each.history)[0])) if replaced else {}
    after = dict(flat(own.body))
    for key in dict.fromkeys((*after, *before)):
        if before.get(key) != after.get(key):
            yield KeyChanged(key, before.get(key), after.get(key))


def _stands(each: Entity, key: KeyChanged) -> bool:
    return key.key not in each.conflicts and bool(_value(each.body, key.key) == key.after)


def flat(body: Row) -> Iterator[tuple[str, Any]]:
    """Yield the keys of a body, those of a table inside it as ``table.key``.

    >>> dict(flat({"name": "Pump 1", "cable": {"length": "12 m"}}))
    {'name': 'Pump 1', 'cable.length': '12 m'}
    """
    for key, value in body.items():
        if isinstance(value, Mapping):
            yield from ((f"{key}.{inner}", told) for inner, told in flat(value))
        else:
            yield key, value


def _value(body: Row, key: str) -> Any:  # noqa: ANN401 - of the key
    return dict(flat(body)).get(key)


def _puts(keys: Row) -> Change:
    """Return a change that puts keys to values; None takes a key out, and a table that is empty then."""

    def change(body: Row) -> dict[str, Any]:
        after = {key: dict(value) if isinstance(value, Mapping) else value for key, value in body.items()}
        for key, value in keys.items():
            table, _, inner = key.partition(".")
            if inner:
                after[table] = said({**after.get(table, {}), inner: value})
            else:
                after[key] = value
        return said(after)

    return change


def found_in(given: Given, visits: Iterable[str]) -> dict[str, str]:
    """Return what was at fault at visits that said so: the id of a fault, by the visit."""
    found: dict[str, str] = {}
    with given.reading() as work:
        for visit in visits:
            facts = work.facts(visit=visit, kind="finding")
            faults = {str(fact.body["fault"]) for fact in heads_of(facts) if fact.body.get("fault")}
            if len(faults) == 1:
                found |= dict.fromkeys([visit], faults.pop())
    return found
