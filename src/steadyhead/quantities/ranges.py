"""Two ends in one text: ``4..20 mA``, ``0-16 bar``, ``-15..160 psi``.

Rules
-----
1. Between the ends stands one of ``..`` ``...`` ``…`` ``to`` or a dash (U+2013, U+2014).
2. A hyphen will do between two numbers without signs; beside a sign it is refused, since it might be a minus. It has
   spaces on both sides or on neither.
3. The unit stands after the second number and holds for both, or after each.
4. The second end is above the first.
"""

from __future__ import annotations

from steadyhead.quantities.asking import Question, ask
from steadyhead.quantities.dimensions import DIMENSIONS
from steadyhead.quantities.numerals import MINUS, begins_number, read_numeral
from steadyhead.quantities.parsing import Quantity, quantity_of, read_quantity
from steadyhead.quantities.units import find_unit

_MARKS = ("...", "..", "…", "\u2013", "\u2014")
_WORD = "to"
_HYPHENS = frozenset({"-", "\u2010", "\u2011", MINUS})


def parse_range(text: str, dimension: str) -> tuple[float, float]:
    """Return both ends of a range, in the dimension's SI unit.

    Raises
    ------
    QuantityError
        The text is no such range; the message says what was got and what would do.

    Examples
    --------
    >>> parse_range("4..20 mA", "current")
    (0.004, 0.02)
    >>> parse_range("\u22121..9 bar", "pressure")
    (-100000.0, 900000.0)
    """
    low, high = parse_range_quantities(text, dimension)
    return low.value, high.value


def parse_range_or_one(text: str, dimension: str) -> tuple[float, float]:
    """Return both ends of a range, or one figure twice where the text is one figure.

    Raises
    ------
    QuantityError
        The text is neither.

    Examples
    --------
    >>> parse_range_or_one("5 V", "voltage")
    (5.0, 5.0)
    """
    question = ask(text, dimension)
    if _ends(question) is not None:
        return parse_range(text, dimension)
    value = read_quantity(question).value
    return value, value


def parse_range_quantities(text: str, dimension: str) -> tuple[Quantity, Quantity]:
    """Return both ends of a range, each with its unit and resolution.

    Raises
    ------
    QuantityError
        The text is no such range.

    Examples
    --------
    >>> parse_range_quantities("2.1..2.6 V", "voltage")[0]
    Quantity(value=2.1, unit='V', resolution=0.1)
    """
    question = ask(text, dimension, must_be=DIMENSIONS[dimension].range_must_be)
    ends = _ends(question)
    if ends is None:
        raise question.refusal(because="range-expected")
    last = read_quantity(question.part(ends[1]))
    first = _first_end(question.part(ends[0]), last)
    if not first.value < last.value:
        raise question.refusal(because="range-not-rising")
    return first, last


def _first_end(low: Question, last: Quantity) -> Quantity:
    """Return the first end, in the second's unit where it has none of its own."""
    if not begins_number(low.text):
        return read_quantity(low)
    numeral = read_numeral(low)
    unit = find_unit(last.unit, low.dimension.id)
    if numeral.end != len(low.text) or unit is None:
        return read_quantity(low)
    return quantity_of(low, numeral, unit)


def _ends(question: Question) -> tuple[str, str] | None:
    """Return the texts of both ends, or None where nothing stands between two."""
    for mark in _MARKS:
        before, found, after = question.text.partition(mark)
        if found and before:
            if after.startswith("."):
                raise question.refusal(because="number-unreadable")
            return before.strip(), after.strip()
    return _ends_at_word(question.text) or _ends_at_hyphen(question)


def _ends_at_word(text: str) -> tuple[str, str] | None:
    words = text.split()
    at = next((place for place, word in enumerate(words) if word.casefold() == _WORD), 0)
    return (" ".join(words[:at]), " ".join(words[at + 1 :])) if at else None


def _ends_at_hyphen(question: Question) -> tuple[str, str] | None:
    if not begins_number(question.text):
        return None
    numeral = read_numeral(question)
    rest = question.text[numeral.end :]
    at = next((place for place, sign in enumerate(rest) if sign in _HYPHENS), None)
    if at is None:
        return None
    before, after = question.text[: numeral.end + at], rest[at + 1 :]
    if numeral.signed or rest[at] == MINUS or not _balanced(before, after):
        raise question.refusal(because="range-hyphen-ambiguous", must_be=f"'{before.strip()}..{after.strip()}'")
    return before.strip(), after.strip()


def _balanced(before: str, after: str) -> bool:
    """Whether a hyphen has spaces on both sides or on neither, and no sign after it."""
    return before[-1:].isspace() == after[:1].isspace() and after.strip()[:1] not in {"-", "+", MINUS}
