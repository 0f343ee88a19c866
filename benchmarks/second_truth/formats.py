"""Readings as a technician writes them: rounded to the instrument's digits, with its errors, jumping or OL."""

from __future__ import annotations

import math
import re
from collections.abc import Callable, Sequence

from benchmarks.second_truth.case import Case
from benchmarks.second_truth.makes import MeterMake
from benchmarks.second_truth.streams import Stream

_NUMBER = re.compile(r"[-+]?\d+(?:\.\d+)?(?:[eE][-+]?\d+)?")


def number(text: str) -> float:
    """Return the figure of a short text with a unit, such as ``2.5 V``."""
    found = _NUMBER.search(text.replace("\N{MINUS SIGN}", "-"))
    if found is None:
        message = f"no figure in {text!r}"
        raise ValueError(message)
    return float(found.group())


def _plain(value: float, decimals: int) -> str:
    text = f"{value:.{decimals}f}"
    return text[1:] if text.startswith("-") and float(text) == 0 else text


STILL = {"V": 0.012, "mA": 0.04}  #: what the eye takes for standing still, beside two last digits


def spread(values: Sequence[float], decimals: int, unit: str) -> str:
    """Return one figure, or the two ends of what visibly jumps."""
    low, high = min(values), max(values)
    if high - low > 2.5 * 10**-decimals + STILL.get(unit, 0.0):
        return f"{_plain(low, decimals)}..{_plain(high, decimals)} {unit} jumping"
    return f"{_plain(sum(values) / len(values), decimals)} {unit}"


def _digit(value: float, lowest: float, full_counts: int) -> float:
    digit = lowest
    while abs(value) >= full_counts * digit:
        digit *= 10
    return digit


def _read(value: float, error: float, digit: float, counts: int, rng: Stream) -> float:
    return value * (1 + error) + rng.uniform(-0.6, 0.6) * counts * digit


def _figures(
    values: Sequence[float], error: float, lowest: float, meter: MeterMake, rng: Stream
) -> tuple[list[float], int]:
    digit = _digit(max(values, key=abs), lowest, meter.full_counts)
    counts = rng.random() * meter.counts
    shown = [_read(value, error, digit, int(counts), rng) for value in values]
    return shown, max(0, round(-math.log10(digit)))


def meter_volts(values: Sequence[float], meter: MeterMake, factor: float, rng: Stream) -> str:
    """Return a reading of DC volts."""
    shown, decimals = _figures([value * factor for value in values], meter.volts_error, meter.volts_digit, meter, rng)
    return spread(shown, decimals, "V")


def meter_milliamps(values: Sequence[float], meter: MeterMake, factor: float, rng: Stream) -> str:
    """Return a reading of DC milliamps."""
    shown, decimals = _figures([value * factor for value in values], meter.amps_error, meter.amps_digit, meter, rng)
    return spread(shown, decimals, "mA")


def meter_ohms(ratio: Callable[[float], float], meter: MeterMake, rng: Stream) -> str:
    """Return a reading of ohms: the lowest range that holds it, each with its own reference resistor."""
    full = meter.full_counts * meter.ohms_digit
    while full <= meter.top_ohm * 1.01:
        ohm = ratio(full)
        if ohm < full:
            return _ohms_text(max(ohm, 0.0) * (1 + meter.ohms_error), full / meter.full_counts, meter, rng)
        full *= 10
    return "OL"


def _ohms_text(ohm: float, digit: float, meter: MeterMake, rng: Stream) -> str:
    ohm = max(ohm + rng.uniform(-0.5, 0.5) * meter.counts * digit, 0.0)
    for unit, size in (("Mohm", 1e6), ("kohm", 1e3)):
        if ohm >= size:
            return f"{_plain(ohm / size, max(0, round(math.log10(size / digit))))} {unit}"
    return f"{_plain(ohm, max(0, round(-math.log10(digit))))} ohm"


def insulation(ohm: float, rng: Stream) -> str:
    """Return a reading of an insulation tester that ends at 2 Gohm."""
    ohm *= 1 + rng.bounded(0.03)
    if ohm > 2e9:
        return "OL"
    return f"{ohm / 1e6:.3g} Mohm" if ohm < 1e9 else f"{ohm / 1e6:.0f} Mohm"


def gauge(case: Case, whose: str, rng: Stream, *, vented: bool) -> str:
    """Return a dial's reading: its own error, its height, and its stop pin."""
    system, fault = case.system, case.fault
    span = system.gauge_top - system.gauge_bottom
    per_metre = 1.4223 if system.unit == "psi" else 0.09807
    true = case.true_pressure() - (0 if vented else system.gauge_height_m * per_metre)
    value = true + system.gauge_errors[whose] * span
    if fault.id == f"{whose}-gauge-wrong":
        value = {
            "zero": value + fault.get("zero") * span,
            "span": true * fault.get("span"),
            "stuck": fault.get("at") * system.gauge_top,
        }[fault.variant]
    step = system.gauge_top / 100
    value += rng.uniform(-0.3, 0.3) * step
    if system.gauge_bottom == 0 and value <= 0.25 * step:
        return f"0 {system.unit} on its stop pin"
    return f"{_plain(min(value, system.gauge_top), 0 if step >= 1 else 1 if step > 0.1 else 2)} {system.unit}"
