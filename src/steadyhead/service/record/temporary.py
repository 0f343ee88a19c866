"""Use case: leave something temporary, safely and for a stated time.

Rules
-----
1. What, why, until when and who watches are all said, or nothing is kept: a tag without one of them is no tag.
2. While a protection that can hurt somebody or flood something is lost, somebody watches: it is never left alone.
3. The visit then stands as left temporary. Said again, the latest holds; the earlier ones stay in the record.
"""

from __future__ import annotations

from collections.abc import Mapping
from datetime import UTC, date, datetime
from zoneinfo import ZoneInfo

from steadyhead.errors import RecordError
from steadyhead.messages import message
from steadyhead.service.record.given import Given
from steadyhead.service.record.tokens import slot
from steadyhead.service.record.visits import end_visit
from steadyhead.service.record.whole import facts_of_visit, told
from steadyhead.visit.fact_kinds import PROTECTIONS, STATES
from steadyhead.visit.kinds import LONGEST_TEXT
from steadyhead.visit.nearest import shown

LEFT_TEMPORARY = STATES[3]
KEYS = ("what", "why", "until")
#: Who is said to watch where nobody has to.
NOBODY = "-"


def leave_temporary(
    given: Given, visit: str, left: Mapping[str, str], lost: tuple[str, ...] = (), *, token: str | None = None
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
    token
        Id of the fact that this makes; the same one again changes nothing.

    Raises
    ------
    NotFoundError
        There is no such visit.
    RecordError
        ``temporary-incomplete``, ``temporary-past``, ``temporary-unwatched``, ``text-too-long`` or ``word-unknown``.
    """
    body = _body(given, left, lost)
    with given.writing() as work:
        now = told(work, visit)
        place = slot(work, given.ids, facts_of_visit(work, visit), token)
        if place.already is not None:
            return place.already.about
        work.add([given.pen(work).fact("temporary", body, id_=place.id, visit=visit, extra=place.extra)])
        work.commit()
        stands = now.entities[visit].body.get("state")
    if stands != LEFT_TEMPORARY:
        end_visit(given, visit, LEFT_TEMPORARY)
    return place.id


def _body(given: Given, left: Mapping[str, str], lost: tuple[str, ...]) -> dict[str, object]:
    """Return the body of the fact, refused where something is lacking."""
    said = {key: " ".join(left.get(key, "").split()) for key in (*KEYS, "watch")}
    for key in KEYS:
        if not said[key]:
            raise RecordError(message("temporary-incomplete", lacks=key, must_be=_must_be(key)))
        if len(said[key]) > LONGEST_TEXT:
            raise RecordError(message("text-too-long", got=said[key][:40], length=len(said[key]), most=LONGEST_TEXT))
    _check_day(said["until"], _today(given))
    for each in lost:
        if each not in PROTECTIONS:
            raise RecordError(message("word-unknown", got=shown(each), must_be=PROTECTIONS, nearest=()))
    if lost and not said["watch"]:
        raise RecordError(message("temporary-unwatched", lost=lost))
    return {**said, "watch": said["watch"] or NOBODY, "lost": list(lost)}


def _must_be(key: str) -> str:
    return "a day such as 2026-05-07" if key == "until" else "a few words"


def _check_day(text: str, today: date) -> None:
    try:
        until = date.fromisoformat(text)
    except ValueError as error:
        raise RecordError(message("temporary-incomplete", lacks="until", must_be=_must_be("until"))) from error
    if until < today:
        raise RecordError(message("temporary-past", got=text, must_be=today.isoformat()))


def _today(given: Given) -> date:
    """Return the day on the wall here."""
    return datetime.fromtimestamp(given.clock() / 1000.0, UTC).astimezone(ZoneInfo(given.zone)).date()
