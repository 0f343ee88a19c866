"""Use case: leave something temporary, safely and for a stated time.

Rules
-----
1. What, why, until when and who watches are all said, or nothing is kept: a tag without one of them is no tag. All that
   is lacking is named at once.
2. While a protection that can hurt somebody or flood something is lost, somebody watches: it is never left alone.
3. The visit then stands as left temporary, or made safe where that is the way. Said again, the latest holds; the
   earlier ones stay in the record.
4. A way that was worked out (`steadyhead.service.tonight`) is worked out again from its answers: one that may not be
   done is refused, its limits are kept with it, and what it takes from protection counts as lost, said or not.
"""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date

from steadyhead.errors import RecordError
from steadyhead.messages import message
from steadyhead.service.record.given import Given, today_of
from steadyhead.service.record.tokens import slot
from steadyhead.service.record.visits import end_visit
from steadyhead.service.record.whole import facts_of_visit, told
from steadyhead.service.tonight import Chosen, kept_of, way_of
from steadyhead.visit.fact_kinds import PROTECTIONS, STATES
from steadyhead.visit.kinds import LONGEST_TEXT
from steadyhead.visit.nearest import shown
from steadyhead.water.tonight import MADE_SAFE

LEFT_TEMPORARY, LEFT_OFF = STATES[3], STATES[4]
KEYS = ("what", "why", "until")
#: Who is said to watch where nobody has to.
NOBODY = "-"
NOT_WATCHING = frozenset({"", NOBODY})


def leave_temporary(
    given: Given,
    visit: str,
    left: Mapping[str, str],
    lost: tuple[str, ...] = (),
    *,
    chosen: Chosen | None = None,
    token: str | None = None,
) -> str:
    """Keep what was left temporary, and return its id; the visit stands as left temporary.

    Parameters
    ----------
    given
        Store, ids, clock.
    visit
        The visit.
    left
        ``what``, ``why``, ``until`` (a day such as ``2026-05-07``) and ``watch``: who watches.
    lost
        What protects no longer: words of `steadyhead.visit.fact_kinds.PROTECTIONS`.
    chosen
        The way that was worked out, with its answers; its limits are kept.
    token
        Id of the fact that this makes; the same one again changes nothing.

    Raises
    ------
    NotFoundError
        There is no such visit.
    AnswersError
        The answers of the chosen way cannot be used.
    RecordError
        ``tonight-not-so``, ``tonight-fire-pump``, ``temporary-incomplete``, ``temporary-no-day``, ``temporary-past``,
        ``temporary-unwatched``, ``text-too-long`` or ``word-unknown``.
    """
    way = None if chosen is None else way_of(chosen)
    body = _body(given, left, tuple(dict.fromkeys((*lost, *(way.lost if way else ())))))
    state = LEFT_OFF if way and way.mode == MADE_SAFE else LEFT_TEMPORARY
    with given.writing() as work:
        now = told(work, visit)
        if chosen and way:
            body |= kept_of(chosen, way, now.visit.pressure_unit)
        place = slot(work, given.ids, facts_of_visit(work, visit), token)
        if place.already is not None:
            return place.already.about
        work.add([given.pen(work).fact("temporary", body, id_=place.id, visit=visit, extra=place.extra)])
        work.commit()
        stands = now.entities[visit].body.get("state")
    if stands != state:
        end_visit(given, visit, state)
    return place.id


def _body(given: Given, left: Mapping[str, str], lost: tuple[str, ...]) -> dict[str, object]:
    """Return the body of the fact, refused where something is lacking."""
    said = {key: " ".join(left.get(key, "").split()) for key in (*KEYS, "watch")}
    lacks = tuple(key for key in KEYS if not said[key])
    if lacks:
        raise RecordError(
            message("temporary-incomplete", lacks=(*lacks, *(("watch",) if _unwatched(said, lost) else ())))
        )
    for text in said.values():
        if len(text) > LONGEST_TEXT:
            raise RecordError(message("text-too-long", got=text[:40], length=len(text), most=LONGEST_TEXT))
    _check_day(said["until"], today_of(given))
    for each in lost:
        if each not in PROTECTIONS:
            raise RecordError(message("word-unknown", got=shown(each), must_be=PROTECTIONS, nearest=()))
    if _unwatched(said, lost):
        raise RecordError(message("temporary-unwatched", lost=lost))
    return {**said, "watch": said["watch"] or NOBODY, "lost": list(lost)}


def _unwatched(said: Mapping[str, str], lost: tuple[str, ...]) -> bool:
    return bool(lost) and said["watch"].casefold() in NOT_WATCHING


def _check_day(text: str, today: date) -> None:
    try:
        until = date.fromisoformat(text)
    except ValueError as error:
        raise RecordError(message("temporary-no-day", got=shown(text))) from error
    if until < today:
        raise RecordError(message("temporary-past", got=text, must_be=today.isoformat()))
