"""SI floats as text that reads back as the very same float, in a unit that people use where there is one.

Rules
-----
1. The usual unit in which the text is shortest is taken, if it reads back identical (``100 psi``).
2. Otherwise the figure is written in full in a unit that is a power of ten from SI: exact by decimal arithmetic.
"""

from __future__ import annotations

from decimal import Decimal

from steadyhead.quantities import parse, spell

_DIGITS = 6  #: a figure longer than this is not what a person wrote

#: Usual units of each dimension, then the unit that is a power of ten from SI, and that power.
_UNITS: dict[str, tuple[tuple[str, ...], str, int]] = {
    "pressure": (("psi", "bar", "kPa"), "Pa", 0),
    "absolute-pressure": (("psia", "bara", "kPa abs"), "Pa abs", 0),
    "voltage": (("V",), "V", 0),
    "current": (("mA", "A"), "A", 0),
    "resistance": (("ohm", "kohm", "Mohm"), "ohm", 0),
    "percent": (("%",), "%", 2),
    "length": (("m", "ft"), "m", 0),
    "area": (("mm2", "AWG"), "mm2", 6),
    "flow": (("gpm", "L/min"), "m3/s", 0),
    "temperature": (("degC", "degF"), "degC", 0),
    "time": (("min", "s", "d"), "s", 0),
    "frequency": (("Hz",), "Hz", 0),
}


def exact(value: float, dimension: str) -> str:
    """Return text that reads back as `value` [SI unit of the dimension].

    >>> exact(0.012, "current"), exact(689475.7293168361, "pressure")
    ('12 mA', '100 psi')
    """
    usual, plain, power = _UNITS[dimension]
    texts = (spell(value, unit, digits=_DIGITS) for unit in usual)
    fitting = [text for text in texts if parse(text, dimension) == value]
    return min(fitting, key=len, default=f"{_shifted(value, power)} {plain}")


def exact_range(low: float, high: float, dimension: str) -> str:
    """Return a range that reads back as both ends [SI unit of the dimension].

    >>> exact_range(0.5, 4.5, "voltage")
    '0.5..4.5 V'
    """
    usual, plain, power = _UNITS[dimension]
    for unit in usual:
        first, last = (spell(end, unit, digits=_DIGITS) for end in (low, high))
        if parse(first, dimension) == low and parse(last, dimension) == high:
            return f"{first.removesuffix(unit).strip()}..{last}"
    return f"{_shifted(low, power)}..{_shifted(high, power)} {plain}"


def exact_tolerance(relative: float, absolute: float, count: float, dimension: str) -> str:
    """Return a meter's accuracy that reads back the same.

    >>> exact_tolerance(0.005, 0.02, 0.01, "voltage")
    '0.5 % + 2 x 0.01 V'
    """
    parts = [exact(relative, "percent")] if relative else []
    if count:
        parts.append(f"{_shifted(absolute / count, 0)} x {exact(count, dimension)}")
    elif absolute:
        parts.append(exact(absolute, dimension))
    return " + ".join(parts)


def _shifted(value: float, power: int) -> str:
    """Return `value * 10**power` without any rounding."""
    return format(Decimal(repr(value)).scaleb(power).normalize(), "g")
