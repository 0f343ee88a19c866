"""Use cases: the first minute at a visit, before anything is reset; and how it ended.

Rules
-----
1. The first minute is offered on a visit that is open until somebody takes it or passes over it, or goes to work
   without it: a reading that is not its own, or a repair. Then it is never offered again, and can still be opened.
2. What it keeps are the facts that any page keeps (readings, the complaint, photos, notes), each when it is entered,
   marked as found. So whoever breaks off loses nothing, and nothing has to be taken over.
3. How it ended is a fact of its own: two devices that both end it agree on everything.
"""

from __future__ import annotations

from steadyhead.errors import UnknownWordError
from steadyhead.messages import message
from steadyhead.service.record.given import Given
from steadyhead.service.record.tokens import slot
from steadyhead.service.record.views import VisitSeen
from steadyhead.service.record.whole import facts_of_visit
from steadyhead.visit.fact_kinds import AS_FOUND, FIRST_MINUTES, OPEN
from steadyhead.visit.nearest import nearest_first, shown

KIND = "first-minute"


def first_minute_offered(seen: VisitSeen) -> bool:
    """Tell whether a visit still offers its first minute."""
    at_work = any(row.body.get("stage") != AS_FOUND and not row.withdrawn for row in seen.rows) or seen.actions
    return seen.state == OPEN and not seen.first_minute and not at_work


def end_first_minute(given: Given, visit: str, state: str, *, token: str | None = None) -> None:
    """Keep that the first minute was taken, or passed over.

    Raises
    ------
    NotFoundError
        There is no such visit.
    UnknownWordError
        It ended in no such way.
    """
    if state not in FIRST_MINUTES:
        allowed, nearest = nearest_first(state, FIRST_MINUTES)
        raise UnknownWordError(message("word-unknown", got=shown(state), must_be=allowed, nearest=nearest))
    with given.writing() as work:
        place = slot(work, given.ids, facts_of_visit(work, visit), token)
        if place.already is None:
            work.add([given.pen(work).fact(KIND, {"state": state}, id_=place.id, visit=visit, extra=place.extra)])
            work.commit()
