"""Writes `steadyhead/quantities/factors.py`: each unit's exact factor to SI, as the library pint knows it.

Rules
-----
1. pint is asked at build time only: importing it takes a third of a second and it must never read a person's text.
2. It computes in exact fractions, so that a factor is a ratio of integers and a conversion rounds once.
3. The file that it writes is committed; a test writes it again and compares.

Run it as ``python -m builders.unit_factors`` with ``src`` on the path.
"""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import pint

TARGET = Path(__file__).resolve().parents[1] / "src" / "steadyhead" / "quantities" / "factors.py"

#: The unit inside the program, and pint's expression for each canonical unit, by dimension.
EXPRESSIONS: dict[str, tuple[str, dict[str, str]]] = {
    "pressure": (
        "pascal",
        {
            "psi": "psi",
            "bar": "bar",
            "mbar": "millibar",
            "Pa": "pascal",
            "hPa": "hectopascal",
            "kPa": "kilopascal",
            "MPa": "megapascal",
            "inHg": "inch_Hg",
            "mmHg": "millimeter_Hg",
            "inH2O": "foot_H2O * inch / foot",
            "mmH2O": "foot_H2O * millimeter / foot",
            "ftH2O": "foot_H2O",
            "mH2O": "foot_H2O * meter / foot",
            "kgf/cm2": "kilogram_force / centimeter**2",
            "atm": "standard_atmosphere",
        },
    ),
    "head": ("meter", {"m": "meter", "ft": "foot"}),
    "voltage": ("volt", {"V": "volt", "mV": "millivolt", "kV": "kilovolt"}),
    "current": ("ampere", {"A": "ampere", "mA": "milliampere", "uA": "microampere"}),
    "resistance": (
        "ohm",
        {"ohm": "ohm", "mohm": "milliohm", "kohm": "kiloohm", "Mohm": "megaohm", "Gohm": "gigaohm"},
    ),
    "percent": ("dimensionless", {"%": "percent"}),
    "length": (
        "meter",
        {"m": "meter", "mm": "millimeter", "cm": "centimeter", "km": "kilometer", "ft": "foot", "in": "inch"},
    ),
    "area": ("meter**2", {"mm2": "millimeter**2"}),
    "volume": (
        "meter**3",
        {
            "gal": "gallon",
            "imp gal": "imperial_gallon",
            "L": "liter",
            "m3": "meter**3",
            "ft3": "foot**3",
        },
    ),
    "flow": (
        "meter**3 / second",
        {
            "gpm": "gallon / minute",
            "imp gpm": "imperial_gallon / minute",
            "L/min": "liter / minute",
            "L/s": "liter / second",
            "L/h": "liter / hour",
            "m3/h": "meter**3 / hour",
            "m3/s": "meter**3 / second",
        },
    ),
    "temperature": ("degC", {"degC": "degC", "degF": "degF", "K": "kelvin"}),
    "time": ("second", {"s": "second", "ms": "millisecond", "min": "minute", "h": "hour", "d": "day"}),
    "frequency": ("hertz", {"Hz": "hertz", "kHz": "kilohertz"}),
}

HEADER = '''"""Exact factor of each unit to the SI unit of its dimension.

Generated from the library pint by ``builders/unit_factors.py``; do not edit. A row is numerator and denominator of the
factor, then numerator and denominator of what is added after it. Water and mercury columns are the conventional ones.
"""

from __future__ import annotations

EXACT_FACTORS: dict[str, dict[str, tuple[int, int, int, int]]] = {
'''


def exact_factor(registry: pint.UnitRegistry[Fraction], expression: str, si: str) -> tuple[int, int, int, int]:
    """Return a unit's factor and offset to an SI unit as four integers."""
    zero, one = (registry.Quantity(Fraction(n), registry.Unit(expression)).to(si).magnitude for n in (0, 1))
    offset, factor = Fraction(zero), Fraction(one) - Fraction(zero)
    return factor.numerator, factor.denominator, offset.numerator, offset.denominator


def _block(dimension: str, rows: dict[str, tuple[int, int, int, int]]) -> str:
    lines = [f'        "{symbol}": {row},' for symbol, row in rows.items()]
    return "\n".join((f'    "{dimension}": {{', *lines, "    },"))


def factors_source() -> str:
    """Return the whole text of the module ``steadyhead.quantities.factors``."""
    registry: pint.UnitRegistry[Fraction] = pint.UnitRegistry(non_int_type=Fraction)
    tables = {
        dimension: {symbol: exact_factor(registry, expression, si) for symbol, expression in rows.items()}
        for dimension, (si, rows) in EXPRESSIONS.items()
    }
    tables["absolute-pressure"] = tables["pressure"]
    return HEADER + "\n".join(_block(name, rows) for name, rows in tables.items()) + "\n}\n"


def main() -> None:
    """Write the module."""
    TARGET.write_text(factors_source(), encoding="utf-8", newline="\n")


if __name__ == "__main__":
    main()
