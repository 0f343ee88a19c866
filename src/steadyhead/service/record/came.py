"""Use cases: what came with the last file or sync is kept to be looked at, and told of the record as it stands then.

Rules
-----
1. It is a setting of this device: ids and counts alone, so that what is erased later is not told by it either.
2. Only the last one is kept; the file or the other home can always be asked again.
"""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from dataclasses import asdict, dataclass, fields
from typing import Any

from steadyhead.service.ports import UnitOfWork
from steadyhead.service.record.coming import Imported
from steadyhead.service.record.given import Given
from steadyhead.service.record.whole import targets_among
from steadyhead.visit.facts import Fact
from steadyhead.visit.heads import entity_of, heads_of
from steadyhead.visit.union import covers

CAME_LAST = "came-last"
#: Visits and conflicts that are told one by one.
MOST = 50


@dataclass(frozen=True, slots=True)
class CameVisit:
    """A visit that changed: its id, what it is called, how many entries were new; empty where it was erased."""

    id: str
    name: str
    new: int


@dataclass(frozen=True, slots=True)
class Disagreed:
    """What two devices disagree on: an entity of a kind, where it is settled, and each value of each key."""

    kind: str
    about: str
    visit: str
    name: str
    values: Mapping[str, tuple[Any, ...]]


@dataclass(frozen=True, slots=True)
class Came:
    """What came, with what it touched as it stands now."""

    done: Imported
    visits: Sequence[CameVisit]
    conflicts: Sequence[Disagreed]


def keep_came(given: Given, token: str, done: Imported) -> None:
    """Keep what came, under the id of the form or the sync that brought it."""
    plain = asdict(done) | {"of": dict(list(done.of.items())[:MOST]), "conflicts": list(done.conflicts)[:MOST]}
    with given.writing() as work:
        work.set_setting(CAME_LAST, json.dumps({"token": token, "done": plain}))
        work.commit()


def came(given: Given, token: str) -> Came | None:
    """Return what came last; None where that was another form's or another sync's."""
    with given.reading() as work:
        kept = json.loads(work.setting(CAME_LAST) or "{}")
        if not token or kept.get("token") != token:
            return None
        known = {each.name for each in fields(Imported)}
        plain: dict[str, Any] = {
            key: tuple(value) if isinstance(value, list) else value for key, value in kept["done"].items()
        }
        done = Imported(**{key: value for key, value in plain.items() if key in known})
        visits = [CameVisit(id_, _name(work, id_), count) for id_, count in done.of.items()]
        conflicts = [each for about in done.conflicts if (each := _disagreed(work, about)) is not None]
    return Came(done, [each for each in visits if each.id], conflicts)


def _name(work: UnitOfWork, visit: str) -> str:
    """Return what a visit's system is called; empty where it has no name."""
    systems = [str(head.body.get("system", "")) for head in _heads(work, visit)]
    names = work.names(systems)
    return next((names[each] for each in systems if each in names), "")


def _heads(work: UnitOfWork, about: str) -> Sequence[Fact]:
    """Return the heads of an entity; none where it was erased."""
    facts = work.facts(about=about)
    targets = targets_among(work, facts)
    return [] if not facts or any(covers(targets, fact) for fact in facts) else heads_of(facts)


def _disagreed(work: UnitOfWork, about: str) -> Disagreed | None:
    """Return what two devices disagree on in an entity; None where they no longer do, or it was erased."""
    if not _heads(work, about):
        return None
    found = entity_of(work.facts(about=about))
    if not found.conflicts:
        return None
    visit = found.first.visit or (about if found.kind == "visit" else "")
    name = _name(work, visit) if visit else work.names([about]).get(about, "")
    return Disagreed(found.kind, about, visit, name, found.conflicts)
