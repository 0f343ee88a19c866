"""One unit of pressure on a paper: pressures that stand in a text, such as a limit or what was corrected, turned to it.

Rules
-----
1. A paper has one unit of pressure, its visit's `pressure_unit`: what was typed in another one is turned to it. Only
   what is printed on a sensor's plate or a gauge's dial, or set in the drive, has its own unit in brackets beside it.
2. No digit is lost that was typed, and no more than one is won.
3. A limit is turned to the safe side: down.
4. What is no pressure, and a pressure in the paper's own unit, stays as it was typed. A person's sentences are quoted,
   never turned.
"""

from __future__ import annotations

import re
from math import ceil, floor, log10

from steadyhead.documents.numbers import digits, in_unit
from steadyhead.quantities import parse_quantity
from steadyhead.quantities.units import find_unit, unit_named
from steadyhead.visit.measures import MEASURE

_NUMBER = r"[-+\N{MINUS SIGN}]?\d+(?:[.,]\d+)?"
#: A figure with its unit, or two of them as a range has them: ``4.3 bar``, ``0..160 psi``.
_FIGURE = re.compile(rf"(?:(?P<low>{_NUMBER})\s*\.\.\s*)?(?P<high>{_NUMBER})\s*(?P<unit>[^\W\d_][\w/²₂]*)")
#: Figures to which a limit is rounded down, as it was when it was worked out.
LIMITED = 3


def places_turned(resolution_pa: float, unit: str) -> int:
    """Return the digits after the decimal sign that keep a figure known to `resolution_pa` [Pa] in another unit.

    >>> places_turned(6894.76, "bar"), places_turned(1000.0, "psi"), places_turned(1e5, "kPa")
    (2, 1, 0)
    """
    known = unit_named(unit)
    count = resolution_pa / known.factor if known else resolution_pa
    return max(0, ceil(-log10(count) - 1e-9))


def own_unit(spelled: str, unit: str) -> str:
    """Return the unit that stands in brackets beside a figure of a plate, a dial or a setting; empty where none does.

    >>> own_unit("psi", "bar"), own_unit("psi", "psi"), own_unit("", "bar")
    ('psi', '', '')
    """
    return "" if spelled == unit else spelled


def pressures_turned(text: str, unit: str) -> str:
    """Return a text with its pressures in a unit.

    >>> pressures_turned("0..160 psi, grade B", "bar"), pressures_turned("over 4.3 bar", "psi")
    ('0..11.03 bar, grade B', 'over 62 psi')
    >>> pressures_turned("62 psi", "psi"), pressures_turned("3.1 V jumping", "bar")
    ('62 psi', '3.1 V jumping')
    """
    return _FIGURE.sub(lambda found: _turned(found, unit), text)


def _turned(found: re.Match[str], unit: str) -> str:
    """Return what stands for a figure in the paper's unit; itself where it is no pressure, or is in that unit."""
    known = find_unit(found["unit"], "pressure")
    if known is None or known.symbol == unit:
        return found[0]
    ends = [_end(f"{end} {known.symbol}", unit) for end in (found["low"], found["high"]) if end is not None]
    return f"{'..'.join(ends)} {unit}"


def _end(text: str, unit: str) -> str:
    read = parse_quantity(text, "pressure")
    if not read.value:
        return "0"
    return digits(in_unit(read.value, unit), places_turned(read.resolution, unit), ".")


def typed_turned(measure: str, text: str, unit: str) -> str:
    """Return what was typed for a measure, with its pressures in a unit; as it is where the measure has none."""
    known = MEASURE.get(measure)
    return pressures_turned(text, unit) if known and "pressure" in known.dimensions else text


def limit_turned(text: str, unit: str) -> str:
    """Return a limit in a unit, never above what it was; as it is where it is no pressure or is in that unit already.

    >>> limit_turned("4.1 bar", "psi"), limit_turned("48 Hz", "psi"), limit_turned("59.4 psi", "psi")
    ('59.4 psi', '48 Hz', '59.4 psi')
    """
    found = _FIGURE.fullmatch(text.strip())
    known = find_unit(found["unit"], "pressure") if found else None
    if known is None or known.symbol == unit:
        return text
    value = in_unit(parse_quantity(text, "pressure").value, unit)
    places = max(0, LIMITED - 1 - floor(log10(abs(value)))) if value else 0
    scale = 10.0**places
    return f"{digits(floor(value * scale + 1e-6) / scale, places, '.')} {unit}"
