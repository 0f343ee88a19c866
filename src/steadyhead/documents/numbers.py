"""How a figure stands on a paper: its digits, its unit, its SI unit beside it, and what aligns it with its column.

Rules
-----
1. Digits after the decimal sign are as many as the paper says, noughts at the end too: they tell how well it is known.
2. SI stands beside a unit that is none, with as many digits as are worth the same; beside a plate's figure the plate's
   own unit in its place, as it is printed, where the paper has chosen another.
3. Figures of a column stand by their decimal sign: the shorter ones are filled up with signs that take room and are
   not seen (`Digits.pad`).
4. The minus is a minus sign, not a hyphen.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from math import isfinite, log10
from typing import Literal

from steadyhead.documents.paper import Shown
from steadyhead.errors import QuantityError
from steadyhead.messages import message
from steadyhead.quantities.units import Unit, unit_named

DecimalSign = Literal[".", ","]
MINUS = "\N{MINUS SIGN}"

#: The unit of the SI that stands beside one that is none.
SI_BESIDE = {
    **dict.fromkeys(
        ("psi", "bar", "mbar", "inHg", "mmHg", "inH2O", "mmH2O", "ftH2O", "mH2O", "kgf/cm2", "atm"), "kPa"
    ),
    "psia": "kPa abs", "bara": "kPa abs",
    **dict.fromkeys(("ft", "in"), "m"),
    "degF": "degC",
    **dict.fromkeys(("gpm", "imp gpm"), "L/s"),
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class Digits:
    """A figure's digits; `pad` is how many digits it lacks after the decimal sign, -1 for none and no sign either."""

    text: str
    pad: int = 0


def digits(value: float, places: int, decimal: DecimalSign, *, signed: bool = False) -> str:
    """Return a figure's digits.

    Raises
    ------
    QuantityError
        ``number-out-of-range``: it is not finite.

    Examples
    --------
    >>> digits(48.0, 1, "."), digits(-0.04, 1, ","), digits(0.25, 2, ",", signed=True), digits(-3.5, 1, ".")
    ('48.0', '0,0', '+0,25', '−3.5')
    """
    if not isfinite(value):
        raise QuantityError(message("number-out-of-range", got=str(value), must_be="a finite figure", dimension=None))
    text = f"{value:.{places}f}"
    nothing = not text.strip("-0.")
    sign = MINUS if text.startswith("-") and not nothing else "+" if signed and not nothing else ""
    return sign + text.removeprefix("-").replace(".", decimal)


def in_unit(value: float, unit: str) -> float:
    """Return an SI value in a unit; one without a unit is itself.

    >>> round(in_unit(330948.3, "psi"), 3), in_unit(0.012, "mA"), in_unit(3.0, "")
    (48.0, 12.0, 3.0)
    """
    if not unit:
        return value
    known = _known(unit)
    return (value - known.offset) / known.factor


def number(shown: Shown, decimal: DecimalSign) -> str:
    """Return the digits of a figure that is shown."""
    return digits(in_unit(shown.figure.value, shown.unit), shown.places, decimal, signed=shown.signed)


def beside(shown: Shown, decimal: DecimalSign) -> tuple[str, str] | None:
    """Return the same figure in the unit of its plate, else in SI, digits and unit; None where it stands in SI already.

    Examples
    --------
    >>> from steadyhead.figures import given
    >>> read = given("gauge-pressure", 330948.3, "pressure", "reading 1")
    >>> beside(Shown(figure=read, unit="psi", places=1), ".")
    ('331', 'kPa')
    >>> beside(Shown(figure=read, unit="bar", places=2, own="psi"), ".")
    ('48', 'psi')
    """
    if shown.own:
        value = in_unit(shown.figure.value, shown.own)
        return digits(value, fewest_places(value), decimal, signed=shown.signed), shown.own
    si = SI_BESIDE.get(shown.unit)
    if si is None:
        return None
    worth = round(log10(_known(shown.unit).factor / _known(si).factor))
    places = max(0, shown.places - worth)
    return digits(in_unit(shown.figure.value, si), places, decimal, signed=shown.signed), si


def fewest_places(value: float, most: int = 4) -> int:
    """Return the fewest digits after the decimal sign that tell a figure that somebody printed or set.

    >>> fewest_places(0.2), fewest_places(100000.0), fewest_places(47.99999)
    (1, 0, 0)
    """
    return len(f"{value:.{most}f}".rstrip("0").partition(".")[2])


def pads(places: Iterable[int | None]) -> list[int]:
    """Return what fills up each figure of a column, given its digits after the decimal sign; 0 for what is no figure.

    A figure without a decimal sign beside ones with it lacks the sign too: that is told by a negative count.

    >>> pads([2, 0, None, 1])
    [0, -2, 0, 1]
    """
    every = list(places)
    most = max((each for each in every if each is not None), default=0)
    return [0 if each is None else (most - each if each else -most) for each in every]


def _known(unit: str) -> Unit:
    found = unit_named(unit)
    if found is None:
        told = message("unit-unknown", got=unit, unit=unit, must_be="a unit of the table", nearest=(), dimension=None)
        raise QuantityError(told)
    return found
