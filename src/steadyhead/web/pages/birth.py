"""Birth readings: the form that takes them when all is well, and a later visit's two minutes of then and now.

Rules
-----
1. A visit to a system that has birth readings of another visit asks for then and now; else, or where the address says
   ``take``, it takes them.
2. What the visit has read already stands in the fields. Nothing of a refused form is lost.
3. A difference is told with what the instruments tell apart and what usually makes it; no verdict beyond that.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from starlette.requests import Request
from starlette.responses import Response

from steadyhead.diagnosis.cautions import cautions
from steadyhead.diagnosis.observing import Question
from steadyhead.diagnosis.system import System
from steadyhead.errors import InputError, RefusedFileError
from steadyhead.quantities import parse, parse_quantity, spell
from steadyhead.service.record.births import Birth, births_of, keep_birth, read_already, youth_of
from steadyhead.service.record.pages import system_page
from steadyhead.service.record.views import VisitSeen
from steadyhead.visit.births import NUMBERS, BirthNumber, moved, numbers_of
from steadyhead.visit.record import Signal
from steadyhead.web.forms import Form, read_form
from steadyhead.web.pages.shared import Shop, go_to, local_day, says
from steadyhead.words import Speaker
from steadyhead.words.saying import sentence

#: Checks whose cautions stand above the form: volts at the terminals, the transducer vented.
HEEDED = (
    Question("volts", "connected", "controller.supply", "controller.common"),
    Question("displayed-pressure", "vented"),
)


async def ask(shop: Shop, request: Request) -> Response:
    """Show the form, and what was held against what."""
    seen = shop.visit(request)
    take = bool(request.query_params.get("take"))
    return shop.page(request, "birth.html", shop.speaker_for(seen), _values(shop, seen, None, take=take))


async def keep(shop: Shop, request: Request) -> Response:
    """Keep the numbers."""
    seen, form = shop.visit(request), await read_form(request)
    typed = {number: form.text(number) for number in NUMBERS}
    take = bool(form.text("take"))
    then = None if take else youth_of(shop.given, seen.system_id, but=seen.id)
    try:
        keep_birth(shop.given, seen.id, typed, against=then.id if then else "", token=form.fact())
    except InputError as error:
        speaker = shop.speaker_for(seen)
        problems = _problems(error, speaker)
        values = {**_values(shop, seen, form, take=take), "problems": problems}
        return shop.refused(request, "birth.html", speaker, values)
    return go_to(f"/visits/{seen.id}/birth" if then else f"/systems/{seen.system_id}/birth")


async def of_system(shop: Shop, request: Request) -> Response:
    """Show the birth readings of a system."""
    seen = system_page(shop.given, str(request.path_params["system"]))
    speaker, youth = shop.speaker, youth_of(shop.given, seen.id)
    visit = next((each.id for each in seen.visits), "")
    values = {
        "system": seen,
        "title": seen.name or speaker.tell("web-nameless"),
        "taken": _taken(youth, shop) if youth else "",
        "rows": _rows(youth, speaker) if youth else [],
        "visit": visit,
        "compare": youth is not None and youth.visit != visit,
    }
    return shop.page(request, "births.html", speaker, values)


def _taken(birth: Birth, shop: Shop) -> str:
    at = local_day(birth.at, shop.given.zone, shop.speaker)
    by = {"at": at, "author": birth.author} if birth.author else {"at": at}
    return shop.speaker.tell("birth-of-by" if birth.author else "birth-of", **by)


def _rows(birth: Birth, speaker: Speaker) -> list[tuple[str, str]]:
    known = ((id_, birth.numbers[id_]) for id_ in NUMBERS if id_ in birth.numbers)
    return [(sentence(speaker.name("birth-number", id_)), speaker.printable(str(row["value"]))) for id_, row in known]


def _problems(error: InputError, speaker: Speaker) -> list[dict[str, str]]:
    if isinstance(error, RefusedFileError):
        return [
            {
                "key": sentence(speaker.name("birth-number", each.key)) if each.key in NUMBERS else each.key,
                "says": speaker.say(each.message),
            }
            for each in error.problems
        ]
    return [{"key": "", "says": says(error, speaker)}]


def _values(shop: Shop, seen: VisitSeen, form: Form | None, *, take: bool) -> dict[str, Any]:
    speaker = shop.speaker_for(seen)
    then = None if take else youth_of(shop.given, seen.system_id, but=seen.id)
    kept = births_of(shop.given, seen.system_id)
    now = next((each for each in kept if then and each.visit == seen.id and each.against == then.id), None)
    already: Mapping[str, str] = read_already(shop.given, seen.id)
    if now:
        already = {**already, **{id_: str(row["value"]) for id_, row in now.numbers.items()}}
    signal = seen.visit.sensor.signal
    return {
        "seen": seen,
        "title": shop.name_of(seen),
        "take": then is None,
        "taken": _taken(then, shop) if then else "",
        "cares": list(
            dict.fromkeys(speaker.say(each) for asked in HEEDED for each in cautions(System(seen.visit), asked))
        ),
        "fields": [
            {
                "name": number.id,
                "says": sentence(speaker.name("birth-number", number.id)),
                "then": _then(then, number, speaker),
                "value": form.text(number.id) if form else already.get(number.id, ""),
                "unit": number.unit or seen.visit.pressure_unit,
                "motor": not number.row,
            }
            for number in numbers_of(signal)
        ],
        "told": _told(then, now, signal, speaker) if then and now else [],
        "problems": (),
    }


def _then(then: Birth | None, number: BirthNumber, speaker: Speaker) -> str:
    known = then.numbers.get(number.id) if then else None
    return speaker.tell("birth-was", value=speaker.printable(str(known["value"]))) if known else ""


def _told(then: Birth, now: Birth, signal: Signal, speaker: Speaker) -> list[dict[str, str]]:
    """Return each number that was read both times, with its difference in words."""
    pairs = (
        (number, then.numbers[number.id], now.numbers[number.id])
        for number in numbers_of(signal)
        if number.id in then.numbers and number.id in now.numbers
    )
    return [
        {"name": sentence(speaker.name("birth-number", number.id)), **told}
        for number, before, after in pairs
        if (told := compared(number, before, after, speaker))
    ]


def compared(
    number: BirthNumber, then: Mapping[str, Any], now: Mapping[str, Any], speaker: Speaker
) -> dict[str, str] | None:
    """Return a number then and now in words; None where they are not of one kind: another signal was fitted since."""
    try:
        was, is_ = (parse_quantity(str(row["value"]), number.dimension) for row in (then, now))
        off = [parse(str(row["within"]), number.dimension) for row in (then, now)]
    except (InputError, KeyError):
        return None
    found = moved((was.value, off[0]), (is_.value, off[1]))
    told = {
        "then": str(then["value"]),
        "now": str(now["value"]),
        "within": spell(found.within, was.unit, digits=2),
    }
    if not found.moved:
        return {"says": speaker.tell("birth-same", **told), "moves": ""}
    return {
        "says": speaker.tell("birth-moved", by=spell(found.difference, was.unit, digits=2), **told),
        "moves": speaker.tell("birth-usually", number=number.id),
    }
