"""Likely slips: a figure ten or a thousand times off, or of the wrong sign, against everything that is still possible.

Rules
-----
1. A figure near any outcome of its check is never questioned, nor are no volts and all of the sensor power.
2. One that is far from all is questioned only where a common slip (the decimal sign, milli or kilo, the leads swapped)
   would bring it near one; the likeliest outcome's is asked about.
3. A figure that no loop of this kind can bring about is questioned in any case.
4. It is a question, not a refusal: the technician's word stands.
"""

from __future__ import annotations

from collections.abc import Sequence

from steadyhead.diagnosis.answer import NextCheck
from steadyhead.diagnosis.observing import Question
from steadyhead.diagnosis.outcomes import shown_unit
from steadyhead.diagnosis.system import System
from steadyhead.service.guide.state import Take
from steadyhead.visit.record import Figure, ReadingValue

#: What a slip multiplies a figure by, the commonest first (common practice).
SLIPS = (0.1, 10.0, 1e-3, 1e3, -1.0, 0.01, 100.0)
#: How far outside a band a figure may lie and be near it, as a part of the largest figure that is possible.
NEAR = 0.15
#: A gauge reads from full vacuum to somewhat past the sensor's range.
GAUGE_PAST = 1.3
#: In a band about zero every figure fits with some decimal sign: it tells nothing unless it is this part of the scale.
TELLING = 0.2

#: Volts that count as nothing, and how near to all of the sensor power they are all of it: parts of the sensor power.
NOTHING, ALL = 0.02, 0.06
#: How far a figure can lie at all: parts of the sensor power, of the display's and the signal's range; amperes.
VOLTS_PAST, DISPLAY_PAST, SIGNAL_PAST, MOST_AMPERES = 1.5, 4.0, 2.5, 0.06

_Band = tuple[float, float]


def meant_instead(take: Take, value: ReadingValue, system: System) -> str | None:
    """Return the figure that may have been meant instead, with its unit; None where nothing speaks for a slip."""
    check = take.check
    bands = _proof(take, system) or _bands(check, system)
    if not bands or not isinstance(value, Figure) or value.unit == "fraction" or value.value == 0.0:
        return None
    unit, factor = shown_unit(system, check.question)
    seen = value.value * factor
    largest = max(abs(end) for ends in bands for end in ends)
    if _near(seen, bands, NEAR * largest) or _everyday(check.question, value.value, system):
        return None
    telling = TELLING * _scale(check.question.measure, system) * factor
    wide = [ends for ends in bands if not ends[0] <= 0.0 <= ends[1] or max(-ends[0], ends[1]) > telling]
    found = [seen * slip for ends in wide for slip in SLIPS if _near(seen * slip, (ends,), 0.0)]
    return f"{found[0]:.6g} {unit}" if found else None


def _scale(measure: str, system: System) -> float:
    """Return what a measure runs over in this loop, SI units; 0 where it has no end."""
    return {
        "volts": system.supply_v,
        "milliamps": 0.02,
        "displayed-pressure": system.range.width,
        "displayed-signal": system.high - system.low,
        "gauge-pressure": system.range.width,
    }.get(measure, 0.0)


def _everyday(question: Question, volts: float, system: System) -> bool:
    """Tell whether a figure is one that a meter in this loop shows every day: nothing, or all of the sensor power."""
    if question.measure != "volts":
        return False
    part = abs(volts) / system.supply_v
    return part < NOTHING or abs(part - 1.0) < ALL


def beyond_all(take: Take, value: ReadingValue, system: System) -> bool:
    """Tell whether a figure lies where no loop of this kind can bring it, so that it is questioned even so."""
    if not isinstance(value, Figure) or value.unit == "fraction":
        return False
    range_ = system.range
    ends = {
        "volts": VOLTS_PAST * max(system.supply_v, abs(system.high) if system.unit == "V" else 0.0),
        "milliamps": MOST_AMPERES,
        "displayed-pressure": range_.high + DISPLAY_PAST * range_.width,
        "displayed-signal": SIGNAL_PAST * system.high,
        "gauge-pressure": GAUGE_PAST * range_.high,
    }
    end = ends.get(take.check.question.measure)
    return end is not None and abs(value.value) > end


def _near(seen: float, bands: Sequence[_Band], slack: float) -> bool:
    return any(low - slack <= seen <= high + slack for low, high in bands)


def _proof(take: Take, system: System) -> list[_Band]:
    """Return the band in which a reading must lie after a repair."""
    band = take.proof.band if take.proof else None
    _, factor = shown_unit(system, take.check.question) if band else ("", 1.0)
    return [(band.low * factor, band.high * factor)] if band else []


def _bands(check: NextCheck, system: System) -> list[_Band]:
    """Return the bands of all outcomes; none where one of them has no upper end that a slip could be told by."""
    if check.question.measure == "gauge-pressure":
        return [_gauge(system, check.question)]
    found = [(o.low, o.high) for o in check.outcomes if o.low is not None]
    return [(low, high) for low, high in found if high is not None] if all(h is not None for _, h in found) else []


def _gauge(system: System, question: Question) -> _Band:
    _, factor = shown_unit(system, question)
    return -105e3 * factor, GAUGE_PAST * system.range.high * factor
