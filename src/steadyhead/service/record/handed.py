"""Use cases: which visits were handed over since they were last written to, when and how; this device's own notes.

Rules
-----
1. It is a setting of this device, no fact: what another home has is not known by everybody else's record.
2. A visit is handed over as long as its last entry is the one that was handed over; one more entry, and it is not.
3. Only a visit that has ended is missed. The invented one never is.
4. Nothing hangs on it: whatever was handed over can be handed over again.
"""

from __future__ import annotations

import json
from collections.abc import Iterable
from dataclasses import dataclass

from steadyhead.service.ports import UnitOfWork
from steadyhead.service.record.demo import demo_id
from steadyhead.service.record.given import Given
from steadyhead.service.record.lists import visit_lines, visits_left
from steadyhead.service.record.views import VisitLine
from steadyhead.visit.cards import VisitCard
from steadyhead.visit.fact_kinds import OPEN
from steadyhead.visit.ids import at_text

HANDED = "handed-over"
#: Ways: as a file, through the phone's share sheet, with everything, by a sync; `came`: it came from another home so.
WAYS = FILE, SHARED, EVERYTHING, SYNC, CAME = ("file", "shared", "everything", "sync", "came")
#: Ended visits that are looked through, the last first, and notes that are kept.
MOST = 200


@dataclass(frozen=True, slots=True)
class Handed:
    """That a visit was handed over: its last entry then, when (UTC), and how."""

    last: str
    at: str
    way: str


def hand_over(given: Given, way: str, *visits: str) -> None:
    """Note that visits were handed over as they stand; without any, that all were."""
    with given.writing() as work:
        notes = _notes(work)
        chosen = [card for card in _cards(work) if card.visit in visits or not visits]
        now = at_text(given.clock())
        notes |= {card.visit: Handed(card.last, now, way) for card in chosen}
        _keep(work, notes)
        work.commit()


def came_so(given: Given, visits: Iterable[str]) -> None:
    """Note of visits that came from another home and were never here before that there is nothing to hand back."""
    hand_over(given, CAME, *visits) if (visits := tuple(visits)) else None


def handed(given: Given, visit: str) -> Handed | None:
    """Return when and how a visit was handed over as it stands now; None where it was not, or was written to since."""
    with given.reading() as work:
        note = _notes(work).get(visit)
        last = max((fact.id for fact in work.facts(visit=visit)), default="")
    return note if note is not None and note.last >= last else None


def not_handed(given: Given) -> tuple[VisitLine, ...]:
    """Return the visits that ended and were not handed over since, the last first."""
    with given.reading() as work:
        notes, demo = _notes(work), demo_id(work)
        missed = [
            card
            for card in visits_left(work, _cards(work))
            if card.state != OPEN and card.visit != demo and not _is_handed(notes.get(card.visit), card)
        ]
        return visit_lines(work, missed, {})


def _is_handed(note: Handed | None, card: VisitCard) -> bool:
    return note is not None and note.last >= card.last


def _cards(work: UnitOfWork) -> tuple[VisitCard, ...]:
    return work.visit_cards(limit=MOST)


def _notes(work: UnitOfWork) -> dict[str, Handed]:
    kept: dict[str, list[str]] = json.loads(work.setting(HANDED) or "{}")
    return {visit: Handed(*note) for visit, note in kept.items()}


def _keep(work: UnitOfWork, notes: dict[str, Handed]) -> None:
    """Keep the notes of the visits that were handed over last."""
    newest = sorted(notes.items(), key=lambda each: each[1].last)[-MOST:]
    work.set_setting(HANDED, json.dumps({visit: [note.last, note.at, note.way] for visit, note in newest}))
