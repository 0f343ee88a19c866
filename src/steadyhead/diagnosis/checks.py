"""Every check that can be asked for: where the leads go, how the loop stands, what it costs, what it needs.

Everything that affects which checks exist, and what they cost, lives in this file.

Rules
-----
1. A check is a question; it has minutes from where the technician stands, a drive state, and cautions.
2. Minutes: an arrangement is paid when it changes, and by the first meter reading of the visit, since covers come
   off; each reading costs one more. Leads that go from panel to sensor cost the walk, and a little back.
3. What has been read since the last action, or was declined, is not asked again; what nothing explains may be, once.
4. A source is used at three values only: the low end, the middle and the high end of the signal.
5. Ten minutes of MIN/MAX are offered where something is said, or was seen, to come and go.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass

from steadyhead.diagnosis.beside import own_is_left
from steadyhead.diagnosis.inspections import INSPECTIONS
from steadyhead.diagnosis.observing import Question, question_of
from steadyhead.diagnosis.system import System
from steadyhead.loop.vocabulary import ARRANGEMENTS, METER_MEASURES
from steadyhead.visit.record import Spread, Visit

SIGNAL, SUPPLY, COMMON = "controller.signal", "controller.supply", "controller.common"
#: The technician's own gauge, read beside the site's, and its name among the minutes of readings.
OWN_GAUGE, OWN = Question("gauge-pressure", whose="own"), "own-gauge"
#: Any reading that a meter makes, among the minutes of readings.
METER = "meter"
#: When a fault that comes and goes is met: only then is a meter left alone with it.
NOT_ALWAYS = frozenset(("sometimes", "night", "rain", "running"))
#: Measures and looks that take a multimeter.
NEEDS_METER = frozenset(("volts", "volts-ac", "ohms", "milliamps", "min-max"))


@dataclass(frozen=True, slots=True)
class Standing:
    """Where the technician stands: what is set up, nothing before the first meter reading, and at which end."""

    arrangement: str | None
    at_sensor: bool


def standing(visit: Visit) -> Standing:
    """Return where the last readings have left the technician."""
    arrangement, at_sensor = None, False
    for reading in visit.readings:
        if reading.measure in METER_MEASURES:
            arrangement = reading.arrangement
            at_sensor = leads_at_sensor(question_of(reading))
        elif reading.arrangement != "connected" and not ARRANGEMENTS[reading.arrangement].water_side:
            arrangement = reading.arrangement
    return Standing(arrangement, at_sensor)


def leads_at_sensor(question: Question) -> bool:
    """Tell whether a lead of the meter is held at the sensor."""
    return any(p is not None and p.startswith("sensor.") for p in (question.red, question.black))


def minutes(system: System, question: Question, here: Standing) -> float:
    """Return what a check costs from where the technician stands [min]."""
    return sum(spent for _, spent in charges(system, question, here))


def charges(system: System, question: Question, here: Standing) -> list[tuple[tuple[str, str], float]]:
    """Return what a check costs, part by part [min], each with the row of the estimates that it comes from."""
    measure, known = question.measure, system.estimates
    if measure == "inspection":
        item = question.item or ""
        return [(("inspections", item), known.inspections[item])]
    name = OWN if question.whose else measure if measure in known.readings else METER
    reading = (("readings", name), known.readings[name])
    if name != METER and question.arrangement == "connected":
        return [reading]
    found = [reading, *_walk(system, question, here)]
    if question.arrangement != here.arrangement:
        found.insert(0, (("arrangements", question.arrangement), known.arrangements[question.arrangement]))
    return found


def _walk(system: System, question: Question, here: Standing) -> list[tuple[tuple[str, str], float]]:
    """Return the way of the leads, none where they stay; a site's own walk is no estimate, so its row is empty."""
    if question.measure not in METER_MEASURES or leads_at_sensor(question) == here.at_sensor:
        return []
    if here.at_sensor:
        return [(("walk", "back"), system.estimates.walk["back"])]
    walk = system.visit.place.walk_s
    if walk is not None:
        return [(("", ""), 1.0 + 2.0 * walk / 60.0)]
    return [(("walk", "to-sensor"), system.estimates.walk["to-sensor"])]


def candidates(system: System, surprising: frozenset[int]) -> list[Question]:
    """Return every check that this system, these instruments and this visit allow."""
    taken = _taken(system.visit, surprising)
    return [q for q in _all(system) if q not in taken and _at_hand(system, q) and not _declined(system.visit, q)]


def acted_after(visit: Visit) -> int:
    """Return the reading after which something was done last, 0 where nothing was: older ones tell of another loop."""
    return max((action.after_reading for action in visit.actions), default=0)


def _taken(visit: Visit, surprising: frozenset[int]) -> set[Question]:
    before = acted_after(visit)
    asked = [(r.number, question_of(r)) for r in visit.readings if r.number > before]
    often = Counter(question for _, question in asked)
    return {question for number, question in asked if number not in surprising or often[question] > 1}


def _at_hand(system: System, question: Question) -> bool:
    have = system.visit.instruments.have
    needs = ARRANGEMENTS[question.arrangement].needs
    if question.arrangement == "vented" and system.visit.place.cock is False:
        return False
    if have is None:
        return not needs
    if question.whose and "gauge" not in have:
        return False
    if (question.measure in NEEDS_METER or question.item in NEEDS_METER) and "multimeter" not in have:
        return False
    if question.measure == "megohms" and "insulation-tester" not in have:
        return False
    return not needs or any(n in have for n in needs)


def _declined(visit: Visit, question: Question) -> bool:
    for d in visit.declined:
        same = d.measure == question.measure and (d.arrangement or "connected") == question.arrangement
        leads = d.red in (None, question.red) and d.black in (None, question.black)
        gauge = d.whose in (None, question.whose or "site")
        if same and leads and gauge and d.item == question.item and d.source in (None, question.source):
            return True
    return False


def _all(system: System) -> list[Question]:
    found = [Question("displayed-fault"), Question("displayed-pressure"), Question("displayed-signal")]
    if not any(r.measure == "gauge-pressure" for r in system.visit.readings):
        found.append(Question("gauge-pressure"))
    if own_is_left(system.visit):
        found.append(OWN_GAUGE)
    found += [Question("inspection", item=item) for item in INSPECTIONS if _sensible(system, item)]
    found += [Question("volts", "connected", red, black) for red, black in _volt_pairs(system.wires)]
    found.append(Question("volts-ac", "connected", SIGNAL, COMMON))
    for arrangement in ("sensor-unplugged", "sensor-leads-lifted", "all-lifted", "spare-at-plug"):
        found.append(Question("volts", arrangement, SUPPLY, COMMON))
        found.append(Question("volts", arrangement, SIGNAL, COMMON))
    found += _unplugged(system.wires)
    found.append(Question("volts", "supply-terminal-clear", SUPPLY, COMMON))
    for arrangement in ("spare-at-controller", "temporary-cable", "vented"):
        found.append(Question("volts", arrangement, SIGNAL, COMMON))
        found.append(Question("displayed-pressure", arrangement))
    found.append(Question("displayed-pressure", "spare-at-plug"))
    if system.unit == "A":
        found.append(Question("milliamps", "meter-in-signal"))
    found += [
        Question("displayed-pressure", "source-at-controller", source=value)
        for value in (system.low, 0.5 * (system.low + system.high), system.high)
    ]
    return found + _dead(system.wires)


def _sensible(system: System, item: str) -> bool:
    if item == "cock" and system.no_cock:
        return False
    if item == "gauge-zero":
        return any(r.measure == "gauge-pressure" for r in system.visit.readings)
    return item != "min-max" or _comes_and_goes(system.visit)


def _comes_and_goes(visit: Visit) -> bool:
    """Tell whether somebody said so, or a figure would not stand still."""
    jumped = any(isinstance(r.value, Spread) for r in visit.readings)
    return jumped or visit.complaint.when in NOT_ALWAYS


def _volt_pairs(wires: int) -> list[tuple[str, str]]:
    pairs = [(SUPPLY, COMMON), (SIGNAL, COMMON), ("sensor.supply", "sensor.signal")]
    if wires == 2:
        return [*pairs, (SUPPLY, SIGNAL)]
    return [*pairs, ("sensor.supply", "sensor.common"), ("sensor.signal", "sensor.common")]


def _unplugged(wires: int) -> list[Question]:
    pairs = [("sensor.supply", "sensor.signal")]
    if wires == 3:
        pairs += [("sensor.supply", "sensor.common"), ("sensor.signal", "sensor.common")]
    return [Question("volts", "sensor-unplugged", red, black) for red, black in pairs]


def _dead(wires: int) -> list[Question]:
    pairs = [("wire.supply", "wire.signal")]
    if wires == 3:
        pairs += [("wire.supply", "wire.common"), ("wire.signal", "wire.common")]
    earth = [("wire.supply", "earth"), ("wire.signal", "earth")]
    found = [Question("ohms", "dead-looped", red, black) for red, black in pairs]
    for measure in ("ohms", "megohms"):
        found += [Question(measure, "dead-both-free", red, black) for red, black in (*pairs, *earth)]
    return found
