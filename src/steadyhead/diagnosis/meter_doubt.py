"""Whether one wrong meter would explain all that was read: then no part is bought before somebody has proved the meter.

A meter with a flat battery, a blown fuse or a lead in the wrong jack agrees with itself: every volt that it shows is
off by one factor, and a healthy loop looks like a board that gives too little.

Rules
-----
1. Only a part that costs money is doubted, and only where nobody has proved the meter by a look (`meter-check`).
2. The meter is wrong in one of its functions (volts, milliamps, ohms) by one factor, nothing and the double included,
   or by one and the same amount; or in all of them by one factor.
3. What no meter made (display, fault shown, looks) must be as of a healthy loop, and so must what the other functions
   show. One reading that contradicts this takes the doubt away: a display that is wrong too, sensor power that is
   right.
4. The healthy loop is that of the make that suits the readings best, with its own unknowns, as for every suspect.
5. The doubt is taken away by the display, where nobody has read it yet, else by proving the meter. Both are planned as
   if the meter were wrong in at least one such visit in twenty-five: the estimate of the odds may be far below that,
   and nobody can tell from the readings.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from math import exp, sqrt

from steadyhead.diagnosis.belief import grouped
from steadyhead.diagnosis.cells import BY_ID, Cell, Part, single
from steadyhead.diagnosis.checks import Standing, minutes
from steadyhead.diagnosis.doubt import slope, uncompared
from steadyhead.diagnosis.evidence import Line, evidence
from steadyhead.diagnosis.inspections import chance
from steadyhead.diagnosis.lines import Group, Looks, lines
from steadyhead.diagnosis.makes import COMMON, Latents
from steadyhead.diagnosis.observing import Observation, Question
from steadyhead.diagnosis.planning import Plan
from steadyhead.diagnosis.prices import in_vain
from steadyhead.diagnosis.priors import costs_money
from steadyhead.diagnosis.system import System
from steadyhead.errors import CircuitError
from steadyhead.loop.vocabulary import METER_MEASURES
from steadyhead.visit.record import Visit, Word

#: The functions of a meter, by the measures that they make.
FUNCTIONS = {
    "volts": "volts", "volts-ac": "volts", "milliamps": "milliamps", "ohms": "ohms", "megohms": "ohms",
}  # fmt: skip
#: A healthy loop explains a figure that is no further off than this, in deviations from what the others say of it.
EXPLAINED = 3.0
#: And a word that it makes likelier than this.
LIKELY = 0.1
#: Deviation of a wrong meter's factor from one, and of its offset in parts of what the measure usually shows.
WIDE, OFFSET = 1.0, 1.0
#: Share of such visits in which the meter is wrong, at least, where it is planned how to prove it.
AT_LEAST = 0.04

#: What a line moves by where the meter is wrong by one deviation.
_Bend = Callable[[Line], float]


def doubtful(system: System, seen: Sequence[Observation], remedy: str) -> bool:
    """Tell whether a remedy costs money, and one wrong meter that nobody proved would explain all readings.

    Parameters
    ----------
    system
        The visit's system.
    seen
        Its readings that count, as evidence.
    remedy
        What is about to be called proved.
    """
    return costs_money(remedy) and not proved_by_a_look(system.visit) and one_meter_explains(system, seen)


def proved_by_a_look(visit: Visit) -> bool:
    """Tell whether somebody proved the meter on this visit, at any time: it is the same meter after a repair."""
    return any(
        r.measure == "inspection" and r.item == "meter-check" and isinstance(r.value, Word) and r.value.word == "right"
        for r in visit.readings
    )


def one_meter_explains(system: System, seen: Sequence[Observation]) -> bool:
    """Tell whether a healthy loop, read by a meter that is wrong in one way, would have shown all of this."""
    used = {FUNCTIONS[o.question.measure] for o in seen if o.question.measure in FUNCTIONS}
    healthy = [single(Part("none", place, 0.0, 0.0), 1.0, make) for place, _ in BY_ID["none"].places for make in COMMON]
    if not used or not _looks_healthy(healthy[0], seen):
        return False
    groups = grouped(seen)
    for cell in healthy:
        drawn = _drawn(system, cell, groups)
        if drawn is not None and any(_explained(drawn, bend) for bend in _bends(used)):
            return True
    return False


def _looks_healthy(cell: Cell, seen: Iterable[Observation]) -> bool:
    looks = [(o.question.item, o.word) for o in seen if o.question.measure == "inspection" and o.question.item]
    return all(item == "meter-check" or chance(cell, item, word) > LIKELY for item, word in looks)


def _drawn(system: System, cell: Cell, groups: Sequence[Group]) -> list[Line] | None:
    """Return what a healthy loop predicts of all readings, None where it has no answer."""
    at = Latents()
    try:
        return [line for group in groups for line in lines(system, cell, at, group, Looks({}, {}))]
    except CircuitError:
        return None


def _bends(used: Iterable[str]) -> list[_Bend]:
    """Return how a meter may be wrong: one function by a factor or an amount, or all of them by a factor."""
    ways: list[_Bend] = [lambda line: _factor(line) if line.observation.question.measure in METER_MEASURES else 0.0]
    for function in sorted(used):
        ways += [_only(function, _factor), _only(function, _amount)]
    return ways


def _only(function: str, bend: _Bend) -> _Bend:
    return lambda line: bend(line) if FUNCTIONS.get(line.observation.question.measure) == function else 0.0


def _factor(line: Line) -> float:
    """Return what a factor of two adds to a figure, on the scale on which it is compared."""
    measure = line.observation.question.measure
    value = uncompared(measure, line.observation.value - line.residual)
    return WIDE * value * slope(measure, value)


def _amount(line: Line) -> float:
    return OFFSET * line.span


def _explained(drawn: Sequence[Line], bend: _Bend) -> bool:
    """Tell whether every reading is what a healthy loop shows on a meter that is wrong in this way."""
    words = [line for line in drawn if line.word is not None]
    if any(exp(line.word or 0.0) < LIKELY for line in words):
        return False
    figures = [line._replace(slopes=(*line.slopes, bend(line))) for line in drawn if line.word is None]
    beyond = [line for line in figures if line.observation.side]
    if any(not _past(line) for line in beyond):
        return False
    return all(off < EXPLAINED for _, off in evidence(figures, Latents()).misfits)


def _past(line: Line) -> bool:
    """Tell whether a healthy loop shows a figure past the same end of the scale."""
    sign = -1.0 if line.observation.side == "above" else 1.0
    wide = sqrt(line.variance + sum(s * s for s in line.slopes))
    return sign * line.residual > -EXPLAINED * wide


def proofs(system: System, wanted: Sequence[Question], here: Standing, remedy: str) -> list[Plan]:
    """Return the check that would take the doubt away, as far as it can be made: the display, else the meter.

    Parameters
    ----------
    system
        The visit's system.
    wanted
        Every check that can be made.
    here
        Where the technician stands.
    remedy
        What would be done in vain if the meter is wrong.
    """
    for question in (Question("displayed-pressure"), Question("inspection", item="meter-check")):
        if question in wanted:
            spent = minutes(system, question, here)
            return [Plan(question, spent, AT_LEAST * in_vain(remedy, system.estimates) - spent, ())]
    return []
