"""How bands and readings are written on a screen: rounded for an eye, in the unit that the instrument shows."""

from __future__ import annotations

from steadyhead.diagnosis.answer import Band, Outcome
from steadyhead.words import Speaker

#: Figures after the decimal sign below ten, and from ten on, by unit; resistances keep two figures instead.
PLACES = {"V": (2, 1), "mA": (2, 1), "psi": (1, 0), "bar": (2, 1), "kPa": (0, 0)}
OTHER = (2, 1)
#: Instrument's unit of an SI unit, and how many of it make one.
SHOWN = {"V": (1.0, "V"), "A": (1e3, "mA")}
OHMS = ("ohm", "Mohm")


def figure(value: float, unit: str) -> str:
    """Return one figure without its unit.

    >>> figure(1.4849, "V"), figure(-0.001, "V"), figure(48.2, "psi"), figure(34512.0, "ohm")
    ('1.48', '0', '48', '35000')
    """
    if unit in OHMS:
        rounded = float(f"{value:.2g}")
        return f"{rounded:.0f}" if rounded >= 10 else f"{rounded:g}"
    small, large = PLACES.get(unit, OTHER)
    text = f"{value:.{small if abs(value) < 10 else large}f}"
    text = text.rstrip("0").rstrip(".") if "." in text else text
    return "0" if text in {"-0", ""} else text


def band(ends: tuple[float | None, float | None], unit: str, speaker: Speaker) -> str:
    """Return a band as it is said; without an upper end it is past the instrument's scale.

    >>> said = [band(ends, unit, Speaker()) for ends, unit in (((0.0, 0.03), "V"), ((48.1, 48.3), "psi"))]
    >>> [*said, band((52e6, None), "ohm", Speaker())]
    ['0 to 0.03 V', '48 psi', 'above 52 Mohm (OL)']
    """
    low, high = ends
    unit, factor = _fitting(max(abs(low or 0.0), abs(high or 0.0)), unit)
    first = figure((low or 0.0) * factor, unit).replace(".", speaker.decimal)
    if high is None:
        return speaker.tell("band-above", low=first, unit=unit)
    last = figure(high * factor, unit).replace(".", speaker.decimal)
    return f"{first} {unit}" if first == last else speaker.tell("band", low=first, high=last, unit=unit)


def band_said(found: Band, speaker: Speaker) -> str:
    """Return what a healthy system shows at a point, in the unit of the instrument."""
    factor, unit = SHOWN[found.unit]
    return band((found.low * factor, found.high * factor), unit, speaker)


def _fitting(largest: float, unit: str) -> tuple[str, float]:
    """Return the unit of resistance that needs fewest noughts, and its factor."""
    if unit != "ohm" or largest < 1e3:
        return unit, 1.0
    return ("kohm", 1e-3) if largest < 1e6 else ("Mohm", 1e-6)


def same(one: Outcome, other: Outcome) -> bool:
    """Tell whether two outcomes could not be told apart by eye: they share three quarters of the wider one."""
    if one.value is not None or other.value is not None:
        return one.value == other.value
    if one.high is None or other.high is None:
        return one.high == other.high
    low, high = max(one.low or 0.0, other.low or 0.0), min(one.high, other.high)
    widths = (one.high - (one.low or 0.0), other.high - (other.low or 0.0))
    return high - low > 0.75 * max(widths)
