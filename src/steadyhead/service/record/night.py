"""Use case: what a customer's card brings back from a night; kept as a reading and judged in plain words.

Rules
-----
1. Two pressures and two times of day are needed; a morning that is earlier in the day than the evening is the next day.
2. The fall is a reading of the visit, a `pressure-decay`; what else the card says stands with what was waited for.
3. Put right, the reading is corrected and keeps its history; the night stays one.
4. What it tells is worked out when it is looked at, from what is kept (`steadyhead.water.night`).
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from steadyhead.errors import NotFoundError, RecordError
from steadyhead.messages import message
from steadyhead.published import standard_atmosphere
from steadyhead.quantities import parse
from steadyhead.service.record.changing import changed
from steadyhead.service.record.follow_ups import of_visit
from steadyhead.service.record.given import Given
from steadyhead.service.record.tokens import Slot, slot
from steadyhead.service.record.views import VisitSeen
from steadyhead.service.record.whole import facts_of_visit, refuse_unread, said, told
from steadyhead.visit.fact_kinds import ANSWERS, SHUT
from steadyhead.visit.facts import Fact
from steadyhead.visit.from_facts import ToldVisit
from steadyhead.visit.heads import Entity
from steadyhead.visit.nearest import shown
from steadyhead.visit.pen import Pen
from steadyhead.visit.pending import NIGHT
from steadyhead.water.night import HOUSE_VALVE, UNKNOWN, YES, Night

Row = Mapping[str, Any]
#: Keys of the card that are not figures, and the words that each may be.
WORDS = {"shut": SHUT, "holds": ANSWERS, "pump_off": ANSWERS, "waited": ANSWERS}
TEXTS = ("meter_from", "meter_to", "tank", "charge")
DAY_MIN = 24 * 60
_CLOCK = re.compile(r"([01]?[0-9]|2[0-3])[:.hH]([0-5][0-9])")


@dataclass(frozen=True, slots=True, kw_only=True)
class Card:
    """What a customer's card says: texts with their units.

    Parameters
    ----------
    start, end
        Gauge pressures in the evening and in the morning.
    evening, morning
        Times of day.
    more
        ``meter_from``, ``meter_to``, ``tank``, ``charge`` (texts, empty where unknown), ``shut``, ``holds``,
        ``pump_off``, ``waited`` (words).
    """

    start: str
    end: str
    evening: str
    morning: str
    more: Row = field(default_factory=dict)


def keep_night(given: Given, visit: str, about: str, card: Card, *, token: str | None = None) -> None:
    """Keep what a night gave: a reading, and beside what was waited for the rest of the card.

    Parameters
    ----------
    given
        Store, ids, clock.
    visit, about
        The visit, and its night's test.
    card
        What the card says.
    token
        Id of the first fact that this makes; the same one again changes nothing.

    Raises
    ------
    NotFoundError
        There is no such visit, or no such night in it.
    InputError
        A figure cannot be read, a time is none, the meter counts back, or a word is unknown.
    """
    body = _checked(card)
    reading = {"measure": "pressure-decay", "from": card.start, "to": card.end, "over": f"{_minutes(card)} min",
               "arrangement": _arrangement(body), "drive": "off" if body["pump_off"] == YES else "auto"}  # fmt: skip
    with given.writing() as work:
        now = told(work, visit)
        waits = _night(now, about)
        place = slot(work, given.ids, facts_of_visit(work, visit), token)
        if place.already is not None:
            return
        pen = given.pen(work)
        new = _reading(now, waits, reading, pen, place)
        named = {**body, "reading": new[0].about}
        later = Slot(given.ids.new(new[-1].id))
        new += changed(waits, lambda before: said({**_but(before), **named}), pen, later)
        refuse_unread(work, visit, new)
        work.add(new)
        work.commit()


def _but(before: Row) -> dict[str, Any]:
    return {key: value for key, value in before.items() if key not in {*TEXTS, *WORDS}}


def _reading(now: ToldVisit, waits: Entity, row: Row, pen: Pen, place: Slot) -> list[Fact]:
    """Return the night's reading: a new one, or the one that it has with other figures."""
    earlier = now.entities.get(str(waits.body.get("reading")))
    if earlier is not None and earlier.kind == "reading":
        return changed(earlier, lambda before: {**before, **row}, pen, place)
    return [pen.fact("reading", dict(row), id_=place.id, visit=now.id, extra=place.extra)]


def _checked(card: Card) -> dict[str, Any]:
    """Return the rest of the card as the fact's body has it.

    Raises
    ------
    InputError
        Something in it cannot be read.
    """
    if not card.start or not card.end:
        raise RecordError(message("night-no-gauge"))
    for text in (card.start, card.end):
        parse(text, "pressure")
    body = {key: str(card.more.get(key, "")) for key in TEXTS}
    for key in TEXTS:
        if body[key]:
            parse(body[key], "pressure" if key == "charge" else "volume")
    if body["meter_from"] and body["meter_to"]:
        drawn = parse(body["meter_to"], "volume") - parse(body["meter_from"], "volume")
        if drawn < 0.0:
            raise RecordError(message("night-meter-back", got=body["meter_from"], then=body["meter_to"]))
    words = {key: str(card.more.get(key) or (SHUT[0] if key == "shut" else UNKNOWN)) for key in WORDS}
    for key, word in words.items():
        if word not in WORDS[key]:
            raise RecordError(message("word-unknown", got=shown(word), must_be=WORDS[key], nearest=()))
    return {**body, **words, "evening": card.evening, "morning": card.morning}


def _minutes(card: Card) -> int:
    """Return the minutes from evening to morning.

    >>> _minutes(Card(start="", end="", evening="22:00", morning="6:15"))
    495
    """
    between = (clock_minutes(card.morning) - clock_minutes(card.evening)) % DAY_MIN
    return between or DAY_MIN


def clock_minutes(text: str) -> int:
    """Return a time of day in minutes.

    Raises
    ------
    RecordError
        It is none.
    """
    found = _CLOCK.fullmatch(text.strip())
    if found is None:
        raise RecordError(message("night-no-time", got=shown(text)))
    return int(found[1]) * 60 + int(found[2])


def _arrangement(body: Row) -> str:
    return "rest-isolated" if body["shut"] == HOUSE_VALVE else "rest-open"


def _night(now: ToldVisit, about: str) -> Entity:
    found = next((each for each in of_visit(now) if each.about == about and each.body.get("kind") == NIGHT), None)
    if found is None:
        raise NotFoundError(message("follow-up-not-here", got=about))
    return found


def night_kept(seen: VisitSeen) -> Row:
    """Return the body of a visit's night test, the last where there were more; empty where there was none."""
    nights = [each.body for each in seen.follow_ups if each.body.get("kind") == NIGHT]
    return nights[-1] if nights else {}


def night_of(seen: VisitSeen) -> Night | None:
    """Return what a visit's night gave; None while it has given nothing that counts.

    A text that this version cannot read is as good as unknown.
    """
    body = night_kept(seen)
    row = next((row for row in seen.rows if row.id == body.get("reading") and row.number is not None), None)
    if row is None or row.number is None:
        return None
    reading = seen.visit.readings[row.number - 1]
    if reading.from_pa is None or reading.to_pa is None or not reading.over_s:
        return None
    first, last = (_size(body.get(key), "volume") for key in ("meter_from", "meter_to"))
    altitude = seen.visit.site.altitude_m or 0.0
    return Night(
        start_pa=reading.from_pa,
        end_pa=reading.to_pa,
        over_s=reading.over_s,
        shut=str(body.get("shut", HOUSE_VALVE)),
        **{key: str(body.get(key, UNKNOWN)) for key in ("holds", "pump_off", "waited")},
        drawn_m3=None if first is None or last is None else max(0.0, last - first),
        tank_m3=_size(body.get("tank"), "volume"),
        precharge_pa=_size(body.get("charge"), "pressure"),
        air_pa=standard_atmosphere.pressure_pa(altitude),
    )


def _size(text: object, dimension: str) -> float | None:
    return parse(text, dimension) if isinstance(text, str) and text else None
