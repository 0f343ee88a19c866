"""Use cases: keep a system's numbers while all is well, and hold a later visit's against them.

Rules
-----
1. Every number may stay unknown; one at least is kept. All are read before any is kept: a wrong one keeps nothing.
2. What the record has a measure for becomes a reading of the visit too, unless the visit's last such reading says it.
3. How far the instruments may have been off is worked out when a number is kept, and kept with it: what is on the van
   later changes no old number. Of a display, a flow and a level only the last digit is told.
4. The last numbers that were not taken to be compared are the system's youth. What is compared names them (`against`).
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from steadyhead.diagnosis.system import System
from steadyhead.errors import InputError, Problem, RecordError, VisitFileError
from steadyhead.messages import message
from steadyhead.quantities import Quantity, parse_quantity
from steadyhead.service.ports import UnitOfWork
from steadyhead.service.record.given import Given
from steadyhead.service.record.photos import visits_of
from steadyhead.service.record.readings import Kept, add_reading
from steadyhead.service.record.tokens import slot
from steadyhead.service.record.whole import entity, facts_of_visit, said, told
from steadyhead.visit.births import BirthNumber, is_number, numbers_of
from steadyhead.visit.exact import exact
from steadyhead.visit.from_facts import ToldVisit
from steadyhead.visit.record import Visit

KIND = "birth"
Row = Mapping[str, Any]
#: What an insulation tester may be off, of its reading (common practice).
INSULATION_TESTER = 0.05


@dataclass(frozen=True, slots=True, kw_only=True)
class Birth:
    """Numbers of a system as they were kept: `numbers` by their ids; `at` is UTC."""

    id: str
    visit: str
    at: str
    author: str
    against: str
    numbers: Mapping[str, Row]


def births_of(given: Given, system: str) -> tuple[Birth, ...]:
    """Return what was kept of a system's numbers, the last first; what was taken out is not among them."""
    with given.reading() as work:
        found = [each for visit in visits_of(work, system) for each in _births(work, visit)]
    return tuple(sorted(found, key=lambda each: each.id, reverse=True))


def youth_of(given: Given, system: str, *, but: str = "") -> Birth | None:
    """Return the numbers that a system is held against, without those of the visit `but`; None where there are none."""
    return next((each for each in births_of(given, system) if not each.against and each.visit != but), None)


def read_already(given: Given, visit: str) -> dict[str, str]:
    """Return the numbers that a visit has read already, as they were typed, each from its last such reading.

    Raises
    ------
    NotFoundError
        There is no such visit.
    """
    with given.reading() as work:
        now = told(work, visit)
    return {number: str(now.entities[id_].body["value"]) for number, id_ in _readings(now).items()}


def keep_birth(
    given: Given, visit: str, typed: Mapping[str, str], *, against: str = "", token: str | None = None
) -> str:
    """Keep numbers of a visit's system, and return the id of what was kept.

    Parameters
    ----------
    given
        Store, ids, clock.
    visit
        The visit.
    typed
        What was typed for each number; an empty one is unknown, a bare figure has the usual unit.
    against
        The numbers that these are held against; empty where these are to be the system's youth.
    token
        Id of the fact that this makes; the same one again changes nothing.

    Raises
    ------
    NotFoundError
        There is no such visit.
    RecordError
        No number was told.
    VisitFileError
        A number cannot be read; `problems` says which and why.
    """
    with given.reading() as work:
        now = told(work, visit)
        place = slot(work, given.ids, facts_of_visit(work, visit), token)
    if place.already is not None:
        return place.already.about
    figures = _figures(now.visit, typed)
    rows = [_row(given, visit, now, number, found) for number, found in figures]
    with given.writing() as work:
        place = slot(work, given.ids, facts_of_visit(work, visit), token)
        system = str(now.entities[visit].body.get("system", ""))
        body = said({"system": system, "against": against, "numbers": rows})
        work.add([given.pen(work).fact(KIND, body, id_=place.id, visit=visit, extra=place.extra)])
        work.commit()
        return place.id


def within(visit: Visit, number: BirthNumber, figure: Quantity) -> float:
    """Return how far the instruments of a visit may be off at a number, half a last digit included, SI unit."""
    system, size = System(visit), abs(figure.value)
    measure = number.row.get("measure", number.id)
    off = 0.0
    if measure in {"gauge-pressure", "precharge"}:
        off = system.gauge_error(figure.value)
    elif measure in {"volts", "milliamps", "motor-ohms"}:
        tolerance = system.tolerance({"volts": "V", "milliamps": "A", "motor-ohms": "ohm"}[measure])
        off = tolerance.relative * size + tolerance.absolute
    elif measure == "motor-insulation":
        off = INSULATION_TESTER * size
    return off + figure.resolution / 2


def with_unit(text: str, number: BirthNumber, visit: Visit) -> str:
    """Return what was typed with the usual unit where it has none of its own."""
    return text if any(sign.isalpha() for sign in text) else f"{text} {number.unit or visit.pressure_unit}"


def _figures(visit: Visit, typed: Mapping[str, str]) -> list[tuple[BirthNumber, tuple[str, Quantity]]]:
    found, problems = [], []
    for number in numbers_of(visit.sensor.signal):
        text = " ".join(typed.get(number.id, "").split())
        if not text:
            continue
        try:
            whole = with_unit(text, number, visit)
            found.append((number, (whole, parse_quantity(whole, number.dimension))))
        except InputError as error:
            problems.append(Problem(error.message, number.id, None))
    if problems:
        raise VisitFileError(message("entry-refused", problems=len(problems)), tuple(problems))
    if not found:
        raise RecordError(message("birth-nothing"))
    return found


def _row(
    given: Given, visit: str, now: ToldVisit, number: BirthNumber, found: tuple[str, Quantity]
) -> dict[str, Any]:
    """Return a number as it is kept; its reading is kept first, where it is one."""
    text, figure = found
    row: dict[str, Any] = {"number": number.id, "value": text, **number.row}
    row["within"] = exact(within(now.visit, number, figure), number.dimension)
    if number.row:
        row["reading"] = _reading(given, visit, now, number, found)
    return row


def _reading(given: Given, visit: str, now: ToldVisit, number: BirthNumber, found: tuple[str, Quantity]) -> str:
    text, figure = found
    known = _readings(now).get(number.id)
    if known is not None and parse_quantity(str(now.entities[known].body["value"]), number.dimension) == figure:
        return known
    kept = add_reading(given, visit, {**number.row, "value": text}, confirmed=True)
    assert isinstance(kept, Kept)  # noqa: S101 - confirmed, and a figure
    return kept.id


def _readings(now: ToldVisit) -> dict[str, str]:
    """Return the last reading of a visit that is each number; one that is no plain figure is none."""
    found: dict[str, str] = {}
    for id_ in now.readings:
        body = now.entities[id_].body
        for number in numbers_of(now.visit.sensor.signal):
            if is_number(number, body) and _plain(str(body.get("value", "")), number):
                found[number.id] = id_
    return found


def _plain(text: str, number: BirthNumber) -> bool:
    try:
        parse_quantity(text, number.dimension)
    except InputError:
        return False
    return True


def _births(work: UnitOfWork, visit: str) -> Iterator[Birth]:
    facts = work.facts(visit=visit, kind=KIND)
    gone = work.purged({visit, *(fact.about for fact in facts), *(fact.id for fact in facts)})
    for about in dict.fromkeys(fact.about for fact in facts):
        if gone & {visit, about}:
            continue
        own = entity(work, about)
        rows = own.body.get("numbers")
        if own.body.get("withdrawn") or not isinstance(rows, (list, tuple)):
            continue
        numbers = {str(row["number"]): row for row in rows if isinstance(row, Mapping) and "number" in row}
        yield Birth(
            id=about, visit=visit, at=own.first.at, author=own.first.author,
            against=str(own.body.get("against", "")), numbers=numbers,
        )  # fmt: skip
