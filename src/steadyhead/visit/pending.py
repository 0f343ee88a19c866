"""What comes back by itself: what a visit still waits for, read off its facts, so that a list need not read them all.

Rules
-----
1. A night's test is waited for while its visit stands as night pending, a watch while it stands as watching, the end of
   something temporary while it stands as left temporary, or as left off until then. A part and a next service are
   waited for until they are done.
2. Of what hangs on the visit's state there is one a visit: the one that is due first. Of what was left temporary the
   latest holds.
3. Where two devices ended a visit differently, it waits for what either of them waits for.
4. What says no day has an empty one, and stands first: somebody must look at it.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence, Set
from dataclasses import dataclass

from steadyhead.visit.fact_kinds import FOLLOW_UPS
from steadyhead.visit.facts import Fact
from steadyhead.visit.heads import Entity, entities_of

FOLLOW_UP, TEMPORARY = "follow-up", "temporary"
NIGHT, WATCH, TEMPORARY_END, PART, SERVICE = FOLLOW_UPS
#: How a visit stands, and what was left says, where all is off until its day.
LEFT_OFF = "made-safe"
#: How a visit stands while it waits for each; those that are not named are waited for however it stands.
WHILE: Mapping[str, str] = {NIGHT: "night-pending", WATCH: "watching", TEMPORARY_END: "left-temporary"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Pending:
    """One thing that is waited for.

    Parameters
    ----------
    about
        Its entity.
    visit, system
        The visit that waits, and its system.
    kind
        One of `steadyhead.visit.fact_kinds.FOLLOW_UPS`.
    due
        The day, such as ``2026-05-05``.
    what
        What for, in a person's words.
    heads
        How many heads it has: more than one is a conflict.
    """

    about: str
    visit: str
    system: str | None
    kind: str
    due: str
    what: str
    heads: int


def pending_of(visit: str, heads: Sequence[Fact], facts: Iterable[Fact]) -> tuple[Pending, ...]:
    """Return what a visit waits for, what is due first first.

    Parameters
    ----------
    visit
        Its ULID.
    heads
        The heads of the visit itself.
    facts
        Its facts.
    """
    system = next((str(head.body["system"]) for head in heads if head.body.get("system")), None)
    states = {str(head.body.get("state")) for head in heads}
    own = [fact for fact in facts if fact.kind in {FOLLOW_UP, TEMPORARY} and fact.body]
    found = [each for each in _followed(entities_of(own), visit, system) if WHILE.get(each.kind, "") in {*states, ""}]
    waits = sorted((*found, *_temporary(own, visit, system, states)), key=_order)
    return tuple(_once_each(waits))


def _order(each: Pending) -> tuple[str, str]:
    return each.due, each.about


def _followed(entities: Iterable[Entity], visit: str, system: str | None) -> Iterator[Pending]:
    for each in entities:
        if each.kind != FOLLOW_UP or all(head.body.get("ended") for head in each.heads):
            continue
        kinds, days, texts = (_texts(each, key) for key in ("kind", "due", "what"))
        if kinds and kinds[0] in FOLLOW_UPS:
            due = min(days, default="")
            what = " / ".join(dict.fromkeys(texts))
            yield Pending(
                about=each.about, visit=visit, system=system, kind=kinds[0], due=due, what=what, heads=len(each.heads)
            )


def _texts(entity: Entity, key: str) -> list[str]:
    """Return what the heads of an entity say at a key."""
    return [text for head in entity.heads if isinstance(text := head.body.get(key), str)]


def _temporary(own: Iterable[Fact], visit: str, system: str | None, states: Set[str]) -> Iterator[Pending]:
    """Yield the end of what was left temporary last, while the visit stands so."""
    left = [fact for fact in own if fact.kind == TEMPORARY]
    last = max(left, key=lambda fact: fact.id, default=None)
    if last is not None and (LEFT_OFF if last.body.get("mode") == LEFT_OFF else WHILE[TEMPORARY_END]) in states:
        due, what = (str(last.body.get(key, "")) for key in ("until", "what"))
        yield Pending(
            about=last.about, visit=visit, system=system, kind=TEMPORARY_END, due=due, what=what, heads=1
        )


def _once_each(waits: Iterable[Pending]) -> Iterator[Pending]:
    """Yield what hangs on the visit's state once, the rest as often as it is."""
    met: set[str] = set()
    for each in waits:
        if each.kind not in WHILE or each.kind not in met:
            met.add(each.kind)
            yield each
