"""What a healthy system would show to a check, at the pressure that stood when it was made.

Rules
-----
1. Only what hangs on the whole loop as it is used has a healthy band: volts, milliamps and the display, with everything
   connected. Other hook-ups are read to be told apart, not to be right.
2. The pressure is the last gauge reading's before the check, or the first one's after it; without one there is no band.
"""

from __future__ import annotations

from collections.abc import Iterable

from steadyhead.diagnosis.answer import Band
from steadyhead.diagnosis.expected import band
from steadyhead.diagnosis.observing import Pressure, Question, gauge_pressure, question_of
from steadyhead.diagnosis.system import System
from steadyhead.visit.record import Reading, Visit

#: Measures that have a healthy band, and the hook-up in which they have it.
HEALTHY = {
    "volts": "connected",
    "milliamps": "meter-in-signal",
    "displayed-pressure": "connected",
    "displayed-signal": "connected",
}


def healthy_band(visit: Visit, question: Question, number: int | None = None) -> Band | None:
    """Return what a healthy system would show, SI units; None where that has no meaning or no pressure is known.

    Parameters
    ----------
    visit
        The visit, with its gauge readings.
    question
        What is read.
    number
        Which reading it is; None for one that comes next.
    """
    if HEALTHY.get(question.measure) != question.arrangement or not _has_points(question):
        return None
    system = System(visit)
    at = _pressure(system, visit.readings, number)
    if at is None or (question.measure == "displayed-pressure" and visit.controller.scaled is None):
        return None
    return band(system, question, at)


def healthy_bands(visit: Visit) -> dict[int, Band]:
    """Return the healthy band of each reading that has one, by its number; each by the sensor that stood there then."""
    found = ((each.number, healthy_band(_then(visit, each), question_of(each), each.number)) for each in visit.readings)
    return {number: each for number, each in found if each is not None}


def _then(visit: Visit, reading: Reading) -> Visit:
    """Return a visit as it stood when a reading was taken."""
    before = visit.before
    return visit if before is None or reading.number > before.readings else before.visit


def _has_points(question: Question) -> bool:
    """Tell whether the leads are where a running loop can be judged: never at a lifted wire, at earth or a screen."""
    leads = [lead for lead in (question.red, question.black) if lead is not None]
    return all(lead.startswith(("controller.", "sensor.")) for lead in leads)


def _pressure(system: System, readings: Iterable[Reading], number: int | None) -> Pressure | None:
    gauges = [reading for reading in readings if reading.measure == "gauge-pressure"]
    before = [reading for reading in gauges if number is None or reading.number < number]
    chosen = before[-1] if before else next(iter(gauges), None)
    if chosen is None:
        return None
    at = gauge_pressure(system, chosen)
    return at if at.known == "gauge" else None
