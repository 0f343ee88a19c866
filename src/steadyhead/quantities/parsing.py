"""Text with a unit to a float in SI units: one figure at a time.

Rules
-----
1. A figure is a number and a unit. A bare number is refused with the unit that was expected.
2. The number is read by `numerals`, the unit by `units`; an area may also be a wire gauge, a resistance also ``4k7``.
3. The last digit written tells the resolution: ``1.20 V`` has 0.01 V. Gauges of wire and vulgar fractions are exact.
4. Below absolute zero there is nothing: an absolute pressure or a temperature there is refused.
5. Nothing but `QuantityError` is raised, whatever the text.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from steadyhead.errors import QuantityError
from steadyhead.quantities.asking import Question, ask, printable
from steadyhead.quantities.dimensions import DIMENSIONS
from steadyhead.quantities.numerals import Numeral, converted, count_of, digits_end, read_numeral
from steadyhead.quantities.resistor_code import read_resistor_code
from steadyhead.quantities.units import Unit, dimensions_of, find_unit, levelled, spellings_in
from steadyhead.quantities.wire_gauge import read_wire_gauge

_PRESSURES = {"pressure": "pressure-must-be-gauge", "absolute-pressure": "pressure-must-be-absolute"}
_WATER_COLUMN = {"m": "mH2O", "ft": "ftH2O"}


@dataclass(frozen=True, slots=True)
class Quantity:
    """One figure: `value` in SI units, canonical `unit` as written, `resolution` in SI units (0 where exact)."""

    value: float
    unit: str
    resolution: float = 0.0


def parse(text: str, dimension: str) -> float:
    """Return the figure that a text spells, in the dimension's SI unit.

    Parameters
    ----------
    text
        What a person wrote, with its unit.
    dimension
        An id of `DIMENSIONS`.

    Returns
    -------
    float
        In `DIMENSIONS[dimension].si`. Temperatures are in degrees Celsius.

    Raises
    ------
    QuantityError
        The text is no such quantity; the message says what was got and what would do.

    Examples
    --------
    >>> parse("4.3 bar", "pressure")
    430000.0
    >>> parse("1,5 mA", "current")
    0.0015
    >>> parse("5", "voltage")  # doctest: +ELLIPSIS
    Traceback (most recent call last):
    steadyhead.errors.QuantityError: unit-missing (..., must_be="a voltage such as '24 V' or '15 mV'")
    """
    return parse_quantity(text, dimension).value


def parse_quantity(text: str, dimension: str) -> Quantity:
    """Return the figure that a text spells with its unit and its resolution.

    Raises
    ------
    QuantityError
        The text is no such quantity.

    Examples
    --------
    >>> parse_quantity("1.20 V", "voltage")
    Quantity(value=1.2, unit='V', resolution=0.01)
    """
    return read_quantity(ask(text, dimension))


def parse_percent(text: str) -> float:
    """Return the fraction that a percentage spells; a leading ``±`` or ``+/-`` is passed over.

    Raises
    ------
    QuantityError
        The text is no percentage.

    Examples
    --------
    >>> parse_percent("±0.5 %")
    0.005
    """
    question = ask(text, "percent")
    return read_quantity(question.part(without_plus_minus(question.text))).value


def without_plus_minus(text: str) -> str:
    """Return a text without the ``±`` or ``+/-`` that it begins with; a sign after it stays and is refused later.

    >>> without_plus_minus("+/- 1 %")
    '1 %'
    """
    for mark in ("±", "+/-", "+/\u2212", "+-"):
        if text.startswith(mark):
            return text[len(mark) :].strip()
    return text


_SPECIAL: dict[str, Callable[[Question], tuple[float, str, float] | None]] = {
    "area": read_wire_gauge,
    "resistance": read_resistor_code,
}


def read_quantity(question: Question) -> Quantity:
    """Return the figure that a question's whole text spells.

    Raises
    ------
    QuantityError
        The text is no such quantity.
    """
    special = _SPECIAL.get(question.dimension.id)
    found = special(question) if special else None
    if found is not None:
        return Quantity(*found)
    numeral = read_numeral(question)
    return quantity_of(question, numeral, unit_of(question, question.text[numeral.end :]))


def quantity_of(question: Question, numeral: Numeral, unit: Unit) -> Quantity:
    """Return a number in a unit as a quantity.

    Raises
    ------
    QuantityError
        ``number-out-of-range`` or ``below-absolute-zero``.
    """
    factor = (unit.numerator, unit.denominator)
    value = converted(numeral, factor, (unit.offset_numerator, unit.offset_denominator), question)
    lowest = question.dimension.lowest
    if lowest is not None and value < lowest:
        raise question.refusal(because="below-absolute-zero")
    return Quantity(value, unit.symbol, count_of(numeral, factor, question))


def unit_of(question: Question, text: str) -> Unit:
    """Return the unit that a text spells in the question's dimension.

    Raises
    ------
    QuantityError
        ``unit-missing``, ``number-unreadable``, ``unit-unknown``, ``unit-of-another-kind``,
        ``pressure-must-be-gauge`` or ``pressure-must-be-absolute``.
    """
    unit = find_unit(text, question.dimension.id)
    if unit is not None:
        return unit
    raise _refused_unit(question, levelled(text), printable(text.strip()))


def _refused_unit(question: Question, key: str, shown: str) -> QuantityError:
    if not key:
        return question.refusal(because="unit-missing")
    if key[0] in "/.,+-*^\u2212" or digits_end(key, 0) > 0:
        return question.refusal(because="number-unreadable")
    others = dimensions_of(key)
    pressure = _PRESSURES.get(question.dimension.id)
    if pressure and set(others) & set(_PRESSURES):
        return question.refusal(because=pressure, unit=shown)
    if others:
        column = _WATER_COLUMN.get(key) if pressure else None
        nearest = (column,) if column else ()
        is_a = DIMENSIONS[others[0]].article
        return question.refusal(because="unit-of-another-kind", unit=shown, is_a=is_a, nearest=nearest)
    return question.refusal(because="unit-unknown", unit=shown, nearest=_nearest_spellings(key, question.dimension.id))


def _nearest_spellings(key: str, dimension: str) -> tuple[str, ...]:
    """Return up to three accepted spellings that look like ``key``, compared without regard to capitals."""
    from difflib import get_close_matches  # noqa: PLC0415 - 3 ms of import, needed only to refuse

    by_folded: dict[str, str] = {}
    for spelling in spellings_in(dimension):
        by_folded.setdefault(levelled(spelling).casefold(), spelling)
    return tuple(by_folded[name] for name in get_close_matches(key.casefold(), list(by_folded)))
