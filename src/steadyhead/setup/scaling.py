"""What is entered in the controller: signal, range, fault limits; worked out so that the display tells the truth.

Rules
-----
1. The range that is entered is the pressure at the two ends of the signal, as the display's own kind of pressure: an
   absolute or a sealed sensor on a gauge display is shifted by the air.
2. Where the menu keeps the ends of its signal, the same line is entered at those ends: the range is stretched.
3. A fault limit stays where it still lies outside the new signal, by `CLEAR` of its span. Else another is
   proposed: the bands of NE 43 for milliamps, also over a resistor; for volts half the live zero below, as much above.
"""

from __future__ import annotations

from dataclasses import dataclass

from steadyhead.messages import Message, message
from steadyhead.published.current_signal_bands import BANDS
from steadyhead.published.standard_atmosphere import SEA_LEVEL_PA, pressure_pa
from steadyhead.setup.finding import CHECK, FITS, WITH_WORK, Finding
from steadyhead.setup.signal_match import SAME, Way
from steadyhead.visit.record import Interval, Sensor, SignalKind, Visit

#: A fault limit is clear of a signal by at least this part of its span (common practice).
CLEAR = 0.01
_BAND = {band.name: band for band in BANDS}
#: Signal of a broken sensor [A], NE 43.
LOW_A, HIGH_A = _BAND["failure-low"].high_ma / 1000, _BAND["failure-high"].low_ma / 1000


@dataclass(frozen=True, slots=True, kw_only=True)
class Settings:
    """What is entered.

    Parameters
    ----------
    kind, low, high
        The signal at the two ends of `range` [V or A].
    range
        Pressures at those ends [Pa].
    was_low, was_high, stretched
        The ends that the input is set for now, and the range at those, where the menu keeps them [V or A, Pa]; None
        where nothing has to be stretched.
    low_fault, high_fault
        Fault limits [V or A]; None where nothing below the signal tells a broken wire.
    """

    kind: SignalKind
    low: float
    high: float
    range: Interval
    was_low: float | None = None
    was_high: float | None = None
    stretched: Interval | None = None
    low_fault: float | None = None
    high_fault: float | None = None


def air_here_pa(visit: Visit) -> float:
    """Return the pressure of the air at the site on a standard day [Pa]."""
    altitude = visit.site.altitude_m
    return SEA_LEVEL_PA if altitude is None else pressure_pa(altitude)


def shift_pa(visit: Visit, new: Sensor) -> float:
    """Return what is added to the pressures on a sensor's plate, so that the display shows its own kind [Pa].

    A sealed sensor was closed at sea level (common practice), so its zero is a little below the site's air.
    """
    air = air_here_pa(visit)
    above_vacuum = {"gauge": air, "sealed": SEA_LEVEL_PA, "absolute": 0.0}
    return above_vacuum[new.reference] - above_vacuum[visit.sensor.reference]


def settings(visit: Visit, new: Sensor, way: Way) -> tuple[Settings, tuple[Finding, ...]]:
    """Return what is entered for a new sensor, and what is to be said of it."""
    shift = shift_pa(visit, new)
    range_ = Interval(new.range.low + shift, new.range.high + shift)
    low_fault, high_fault, limits = _limits(visit, way)
    own = visit.sensor.signal
    keeps = way.id in {"ends", "resistor"}
    made = Settings(
        kind=way.kind, low=way.low, high=way.high, range=range_, low_fault=low_fault, high_fault=high_fault,
        was_low=own.low if keeps else None, was_high=own.high if keeps else None,
        stretched=Interval(_on_line(own.low, way, range_), _on_line(own.high, way, range_)) if keeps else None,
    )  # fmt: skip
    return made, (*_range_findings(visit, new, made, shift), *limits)


def _on_line(signal: float, way: Way, range_: Interval) -> float:
    """Return the pressure at a signal, on the line through both ends [Pa]."""
    return range_.low + (signal - way.low) / (way.high - way.low) * range_.width


def is_scaled_so(visit: Visit, made: Settings) -> bool:
    """Tell whether the range setting is right as it is; one that nobody read is taken as right for the old sensor."""
    scaled = visit.controller.scaled or visit.sensor.range
    near = SAME * made.range.width
    return abs(scaled.low - made.range.low) <= near and abs(scaled.high - made.range.high) <= near


def _range_findings(visit: Visit, new: Sensor, made: Settings, shift: float) -> tuple[Finding, ...]:
    told = {"low": made.range.low, "high": made.range.high}
    if made.stretched is not None:
        ends = {"kind": made.kind, "signal_low": made.low, "signal_high": made.high, "was_low": made.was_low}
        ends |= {"was_high": made.was_high, "at_low": made.stretched.low, "at_high": made.stretched.high}
        kept = Finding("range", WITH_WORK, message("van-range-stretched", **told, **ends))
    elif is_scaled_so(visit, made):
        kept = Finding("range", FITS, message("van-range-same", **told))
    else:
        kept = Finding("range", WITH_WORK, message("van-range-enter", **told))
    if new.reference == visit.sensor.reference:
        return (kept,)
    found = message("van-range-reference", reference=new.reference, was=visit.sensor.reference, shift=shift)
    return (kept, Finding("range", WITH_WORK, found))


def _limits(visit: Visit, way: Way) -> tuple[float | None, float | None, tuple[Finding, ...]]:
    """Return both fault limits, and whether they had to move."""
    own, span = visit.sensor.signal, way.high - way.low
    same_unit = (own.kind == "current") == (way.kind == "current")
    before = (visit.controller.low_fault, visit.controller.high_fault) if same_unit else (None, None)
    low_kept = before[0] is not None and before[0] <= way.low - CLEAR * span
    high_kept = before[1] is not None and before[1] >= way.high + CLEAR * span
    usual_low, usual_high = _usual(way)
    low = before[0] if low_kept else usual_low
    high = before[1] if high_kept else usual_high
    if low_kept and high_kept:
        return low, high, (Finding("limits", FITS, message("van-limits-stay", kind=way.kind, low=low, high=high)),)
    if before == (None, None) and same_unit:
        return low, high, (Finding("limits", CHECK, _told("van-limits-unknown", way, low, high)),)
    return low, high, (Finding("limits", WITH_WORK, _told("van-limits-move", way, low, high)),)


def _told(id_: str, way: Way, low: float | None, high: float | None) -> Message:
    if low is None:
        return message(f"{id_}-no-low", kind=way.kind, high=high)
    return message(id_, kind=way.kind, low=low, high=high)


def _usual(way: Way) -> tuple[float | None, float]:
    """Return the fault limits that are proposed for a signal."""
    if way.low <= 0.0:
        return None, way.high + (way.high - way.low) * 0.05
    if way.kind == "current" or way.resistor_ohm is not None:
        across = 1.0 if way.across_ohm is None else way.across_ohm
        return LOW_A * across, HIGH_A * across
    return way.low / 2, way.high + way.low / 2
