"""How far a figure may be off, and the scale on which it is compared.

Rules
-----
1. The uncertainty belongs to the measure, never to the suspect: what the instrument may be off, half a count, and an
   allowance for what the model leaves out, larger where devices are least alike.
2. Ohms are compared by the area hyperbolic sine of their value, so that an ohm counts near zero and a ratio above; past
   `INSULATED_OHM` one insulation is as good as another.
"""

from __future__ import annotations

from math import asinh, erf, sinh, sqrt

from steadyhead.diagnosis.system import System

#: An instrument's stated bound is taken for this many standard deviations.
BOUND_IN_SD = 1.8
#: What the model leaves out of a display beyond its range, and of volts between nothing and the sensor's full power:
#: parts of the distance.
OUTSIDE, VOLTS_OFF = 0.15, 0.015
#: Above this a resistance is insulation, and how good it is tells nothing of a fault [ohm].
INSULATED_OHM = 5e6
#: Below this an insulation tester, made for megohms and fooled by a wet joint's own volts, only says "less" [ohm].
LEAST_INSULATION_OHM = 1e5


def percent_to_signal(system: System, fraction: float) -> float:
    """Return the signal [V or A] of a display that shows percent of the signal's span."""
    return system.low + fraction * (system.high - system.low)


def end_of_scale(system: System, measure: str, side: str) -> float:
    """Return the figure past which an instrument shows no more, SI units."""
    top = {
        "ohms": INSULATED_OHM,
        "megohms": INSULATED_OHM,
        "displayed-pressure": system.range.high + 0.02 * system.range.width,
        "displayed-signal": system.high * 1.02,
        "milliamps": 0.4,
    }.get(measure, 600.0)
    if side == "above":
        return top
    return system.range.low if measure == "displayed-pressure" else 0.0


def compared(measure: str, value: float) -> float:
    """Return a value on the scale on which it is compared."""
    return asinh(min(value, INSULATED_OHM) / 2.0) if measure in {"ohms", "megohms"} else value


def uncompared(measure: str, value: float) -> float:
    """Return the SI value of a figure on the scale on which it is compared."""
    if measure in {"ohms", "megohms"}:
        return 2.0 * sinh(min(value, 60.0))
    return value


def slope(measure: str, value: float) -> float:
    """Return how fast the compared scale runs at a value."""
    return 1.0 / sqrt(value * value + 4.0) if measure in {"ohms", "megohms"} else 1.0


def spread(system: System, measure: str, value: float, resolution: float) -> float:
    """Return the standard deviation of a reading, on the scale on which it is compared."""
    if measure in {"displayed-pressure", "displayed-signal"}:
        own, model = 0.005 * _display_scale(system, measure) + OUTSIDE * _outside(system, measure, value), 0.0
    elif measure == "gauge-pressure":
        own, model = sqrt(2.0) * system.gauge_error(value) / BOUND_IN_SD, 0.01 * system.range.width
    elif measure in {"ohms", "megohms"}:
        own = _bound(system, "ohm", value)
        model = 0.6 + (0.03 if measure == "ohms" else 0.3) * abs(value)
    elif measure == "milliamps":
        own, model = _bound(system, "A", value), 3e-5 + 2.5e-3 * abs(value)
    else:
        own, model = _bound(system, "V", value), _volts_left_out(system, measure, abs(value))
    return sqrt(own**2 + model**2 + resolution**2 / 12.0) * slope(measure, value)


def _bound(system: System, unit: str, value: float) -> float:
    tolerance = system.tolerance(unit)
    return (tolerance.relative * abs(value) + tolerance.absolute) / BOUND_IN_SD


def _volts_left_out(system: System, measure: str, size: float) -> float:
    if measure == "volts-ac":
        return 0.05 + 0.5 * size
    between = min(abs(size - system.supply_v), size, 0.25 * system.supply_v)
    return 2.5e-3 * size + 2.8e-3 * system.supply_v + VOLTS_OFF * between + 2e-3


def _display_scale(system: System, measure: str) -> float:
    return system.high - system.low if measure == "displayed-signal" else (system.scaled or system.range).width


def signal_outside(system: System, red: str | None, value: float) -> float:
    """Return how far a signal terminal's volts lie outside the signal's range, where devices are least alike."""
    if system.unit != "V" or red is None or not red.endswith(".signal"):
        return 0.0
    return max(system.low - value, value - system.high, 0.0)


def _outside(system: System, measure: str, value: float) -> float:
    """Return how far a display lies outside the range that it is made for, where devices are least alike."""
    if measure == "displayed-signal":
        return max(system.low - value, value - system.high, 0.0)
    scaled = system.scaled or system.range
    return max(scaled.low - value, value - scaled.high, 0.0)


def shown_chances(system: System, signal: float) -> dict[str, float]:
    """Return the chance of each fault word that a signal can make the controller show.

    Where nobody knows the limits, they lie about the usual ones, and a controller may keep silent.
    """
    blur = (0.006 if system.limits_given else 0.05) * (system.high - system.low) * sqrt(2.0)
    loud = 0.97 if system.limits_given else 0.85
    low = loud * 0.5 * (1.0 - erf((signal - system.low_fault) / blur))
    high = loud * 0.5 * (1.0 + erf((signal - system.high_fault) / blur))
    return {"low-signal": low, "high-signal": high, "none": 1.0 - low - high}
