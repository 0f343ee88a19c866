"""SI floats to text that a person reads and `parse` reads again.

Rules
-----
1. Figures before the decimal sign are never rounded away: ``101325 Pa`` stays, whatever ``digits`` says.
2. Zeros at the end after the decimal sign are left out, unless asked for.
3. What is spelled is read again within one count of its last digit.
4. Very small and very large figures are written with an exponent.
"""

from __future__ import annotations

from math import isfinite

from steadyhead.errors import QuantityError
from steadyhead.messages import message
from steadyhead.quantities.units import Unit, unit_named

_SMALLEST, _LARGEST = 1e-6, 1e15  #: outside these a figure has an exponent
_THOUSAND = 1000.0

#: Units of engineering spelling, the largest first.
_LADDERS: dict[str, tuple[str, ...]] = {
    "resistance": ("Gohm", "Mohm", "kohm", "ohm", "mohm"),
    "voltage": ("V", "mV"),
    "current": ("A", "mA", "uA"),
    "length": ("m", "mm"),
    "time": ("h", "min", "s"),
}


def spell(value: float, unit: str, *, digits: int = 3, keep_zeros: bool = False) -> str:
    """Return an SI value as text in a unit.

    Parameters
    ----------
    value
        In the SI unit of the unit's dimension.
    unit
        Canonical symbol of a unit in `UNITS`, or ``AWG`` for an area: the nearest gauge, so that only
        a gauge's own area is read again.
    digits
        Figures that are kept, at least those before the decimal sign.
    keep_zeros
        Whether ``2.50 V`` keeps its zero.

    Raises
    ------
    QuantityError
        ``unit-unknown``, or ``number-out-of-range`` for a value that is not finite.
    RangeOfValidityError
        An area that is no wire gauge from 4/0 to 40, where ``AWG`` is asked for.

    Examples
    --------
    >>> spell(427474.9, "psi")
    '62 psi'
    >>> spell(2.5, "V", keep_zeros=True)
    '2.50 V'
    """
    if unit == "AWG":
        return _spell_gauge(value)
    figure = _in_unit(value, _known(unit))
    return f"{spell_figure(figure, digits=digits, keep_zeros=keep_zeros)} {unit}"


def spell_range(low: float, high: float, unit: str, *, digits: int = 3) -> str:
    """Return two SI values as a range in a unit.

    Raises
    ------
    QuantityError
        As `spell`.

    Examples
    --------
    >>> spell_range(0.004, 0.02, "mA")
    '4..20 mA'
    """
    known = _known(unit)
    first, last = (spell_figure(_in_unit(end, known), digits=digits) for end in (low, high))
    return f"{first}..{last} {unit}"


def spell_engineering(value: float, dimension: str, *, digits: int = 3) -> str:
    """Return an SI value in the unit of its dimension that needs fewest noughts.

    Parameters
    ----------
    value
        In the dimension's SI unit.
    dimension
        ``resistance``, ``voltage``, ``current``, ``length`` or ``time``.
    digits
        Figures that are kept.

    Raises
    ------
    QuantityError
        ``number-out-of-range`` for a value that is not finite.

    Examples
    --------
    >>> spell_engineering(0.012, "current")
    '12 mA'
    """
    ladder = _LADDERS[dimension]
    rounded = abs(float(f"{value:.{digits - 1}e}"))
    fitting = (unit for unit in ladder if rounded >= _known(unit).factor)
    smallest = ladder[-1] if value else dimension_base(dimension)
    return spell(value, next(fitting, smallest), digits=digits)


def dimension_base(dimension: str) -> str:
    """Return the ladder's unit whose factor is one: where nothing is nothing.

    >>> dimension_base("resistance")
    'ohm'
    """
    return next(unit for unit in _LADDERS[dimension] if _known(unit).factor == 1)


def spell_ohms(value: float, *, digits: int = 3) -> str:
    """Return a resistance as it is said: ``220 ohm``, ``4.7 kohm``, ``1 Mohm``.

    Raises
    ------
    QuantityError
        ``number-out-of-range`` for a value that is not finite.

    Examples
    --------
    >>> spell_ohms(4700), spell_ohms(999.9), spell_ohms(0.05)
    ('4.7 kohm', '1 kohm', '50 mohm')
    """
    return spell_engineering(value, "resistance", digits=digits)


def spell_figure(figure: float, *, digits: int = 3, keep_zeros: bool = False) -> str:
    """Return a figure alone, by the rules of this module.

    Raises
    ------
    QuantityError
        ``number-out-of-range`` for a figure that is not finite.

    Examples
    --------
    >>> spell_figure(14.6959), spell_figure(-0.0), spell_figure(2.5e-9)
    ('14.7', '0', '2.5e-09')
    """
    if not isfinite(figure):
        raise QuantityError(message("number-out-of-range", got=str(figure), must_be="a finite figure", dimension=None))
    if figure and not _SMALLEST <= abs(figure) < _LARGEST:
        mantissa, _, exponent = f"{figure:.{max(digits, 1) - 1}e}".partition("e")
        return f"{mantissa if keep_zeros else _stripped(mantissa)}e{exponent}"
    text = f"{figure:.{_places(figure, digits)}f}"
    plain = text if keep_zeros else _stripped(text)
    return plain.removeprefix("-") if not plain.strip("-0.") else plain


def _places(figure: float, digits: int) -> int:
    """Return how many figures stand after the decimal sign."""
    _, _, exponent = f"{figure:.{max(digits, 1) - 1}e}".partition("e")
    return max(0, max(digits, 1) - 1 - int(exponent))


def _stripped(text: str) -> str:
    return text.rstrip("0").rstrip(".") if "." in text else text


def _known(unit: str) -> Unit:
    found = unit_named(unit)
    if found is None:
        told = message("unit-unknown", got=unit, unit=unit, must_be="a unit of the table", nearest=(), dimension=None)
        raise QuantityError(told)
    return found


def _in_unit(value: float, known: Unit) -> float:
    return (value - known.offset) / known.factor


def _spell_gauge(area_m2: float) -> str:
    from steadyhead.published.conductor_awg import gauge_name, nearest_gauge  # noqa: PLC0415 - a table that few texts need

    number = nearest_gauge(area_m2)
    return f"{gauge_name(number)} AWG"
