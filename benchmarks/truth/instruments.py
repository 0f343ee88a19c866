"""From what is there to what is written down: meter loading, ranges, counts, gains, needles, spreads, slips.

Rules
-----
1. A meter's gain is fixed for a visit; its counts and the last digit are new with every reading.
2. A slip (leads swapped, wrong range, misread) strikes figures of meter, gauge and display alike, never words.
3. The ohmmeter is its open-circuit voltage behind a resistor of its range: it ranges up until the reading fits.
"""

from __future__ import annotations

import math
import random
from collections.abc import Callable

from benchmarks.truth.case import PSI_PER_BAR, Case, Gauge

COUNTS = 6000
OHM_RANGES = (600.0, 6e3, 6e4, 6e5, 6e6, 6e7)
OHM_TEST_A = (5e-4, 1e-4, 1e-5, 1e-6, 2e-7, 5e-8)
INSULATION_TOP_OHM = 2e9
INSULATION_LEAST_OHM = 1e4
#: An insulation tester's nominal volts, and the currents that it drives, from its nominal milliampere down, until the
#: circuit stands below them (IEC 61557-2 asks for 1 mA; from memory).
INSULATION_V = 500.0
INSULATION_A = (1e-3, 1e-6, 1e-8)
Answer = str


def digit(value: float, lowest: float) -> float:
    """Return one count of the range that shows `value`, from the count of the lowest range.

    >>> digit(5.9, 0.001), digit(6.5, 0.001)
    (0.001, 0.01)
    """
    step = lowest
    while abs(value) >= COUNTS * step * 0.99999 and step < 1e9:
        step *= 10
    return step


def shown(value: float, gain: float, counts: float, lowest: float, rng: random.Random) -> tuple[float, float]:
    """Return a meter's figure and its last digit: gain, some counts of error, rounding."""
    step = digit(value * gain, lowest)
    read = value * gain + rng.uniform(-0.8, 0.8) * counts * step
    return round(read / step) * step, step


def decimals(step: float) -> int:
    """Return how many decimals a last digit asks for.

    >>> decimals(0.01), decimals(1.0), decimals(0.5)
    (2, 0, 1)
    """
    return max(0, math.ceil(-math.log10(step) - 1e-9))


def figure(value: float, step: float, unit: str) -> Answer:
    """Return a figure as it is written down.

    >>> figure(2.5, 0.01, "V")
    '2.50 V'
    """
    text = f"{value:.{decimals(step)}f}"
    return f"{0.0:.{decimals(step)}f} {unit}" if float(text) == 0 else f"{text} {unit}"


def span_text(low: float, high: float, step: float, unit: str) -> Answer:
    """Return a spread, or one figure where both ends read alike.

    >>> span_text(2.6, 2.1, 0.01, "V"), span_text(2.1, 2.1, 0.01, "V")
    ('2.10..2.60 V jumping', '2.10 V')
    """
    low, high = sorted((low, high))
    if high - low < 2 * step:
        return figure(low, step, unit)
    places = decimals(step)
    return f"{low:.{places}f}..{high:.{places}f} {unit} jumping"


def slip(value: float, rng: random.Random, chance: float) -> tuple[float, bool]:
    """Return the figure, or what a slip makes of it, and whether one was made."""
    if rng.random() >= chance:
        return value, False
    kind = rng.choice(("leads", "range", "misread", "misread"))
    factor = {"leads": -1.0, "range": rng.choice((0.1, 10.0)), "misread": rng.choice((0.7, 0.8, 1.2, 1.3))}[kind]
    return value * factor, True


def ohms_text(ohm: float, case: Case, rng: random.Random) -> Answer:
    """Return what the ohmmeter shows for a resistance that it has found."""
    limit = case.meter.ohms_limit
    _, counts, lowest = case.meter.ohms
    if ohm * case.meter.ohms_gain >= limit:
        return "OL"
    read, step = shown(ohm, case.meter.ohms_gain, counts, lowest, rng)
    scale, unit = next(
        (s, u) for s, u in ((1.0, "ohm"), (1e3, "kohm"), (1e6, "Mohm")) if abs(read) < 1000 * s or s == 1e6
    )
    return figure(read / scale, step / scale, unit)


def ohmmeter(volts_at: Callable[[float], float], case: Case) -> float:
    """Return the resistance that an autoranging ohmmeter finds, infinite above its last range [ohm].

    `volts_at` tells the volts between its leads when its open-circuit volts stand behind a range's resistor [ohm];
    it divides those volts by the current that its resistor tells, so a wet cell between the leads fools it.
    """
    behind = case.meter.open_volts
    for top, amps in zip(OHM_RANGES, OHM_TEST_A, strict=True):
        volts = volts_at(behind / amps)
        current = (behind - volts) * amps / behind
        if current > 0 and volts / current < top:
            return max(volts / current, 0.0)
    return math.inf


def megohms_text(ohm: float, rng: random.Random) -> Answer:
    """Return what an insulation tester shows."""
    ohm = max(ohm * rng.uniform(0.93, 1.07), INSULATION_LEAST_OHM)
    if ohm >= INSULATION_TOP_OHM:
        return "OL"
    step = max(1e4, 10.0 ** (math.floor(math.log10(ohm)) - 2))
    return figure(round(ohm / step) * step / 1e6, step / 1e6, "Mohm")


def pressure_text(psi: float, case: Case, step_psi: float) -> Answer:
    """Return a pressure in the site's unit."""
    if case.unit == "psi":
        return figure(round(psi / step_psi) * step_psi, step_psi, "psi")
    step = 0.05 if step_psi >= 0.5 else 0.01
    return figure(round(psi / PSI_PER_BAR / step) * step, step, "bar")


def needle_psi(gauge: Gauge, psi: float, rng: random.Random) -> float:
    """Return where a gauge's needle is read [psi], before its stops."""
    true = psi if gauge.stuck is None else gauge.stuck
    return true + gauge.bias_psi + gauge.zero_psi + rng.uniform(-0.4, 0.4) * gauge.division


def needle_text(gauge: Gauge, needle: float, case: Case) -> Answer:
    """Return what is written down of a needle: a figure, on its stop pin, or pegged."""
    if needle > gauge.high * 1.02:
        return "pegged"
    if gauge.low == 0 and needle < -0.3 * gauge.division:
        return f"0 {case.unit} on its stop pin"
    return pressure_text(needle, case, 0.5 * gauge.division)
