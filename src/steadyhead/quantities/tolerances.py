"""How far an instrument may be off, as its leaflet says it: ``0.5 % + 2 x 0.01 V``.

Rules
-----
1. A tolerance is a part of the reading in percent, or a fixed part, or both joined by ``+``.
2. The fixed part is a quantity (``0.02 V``) or a number of counts of a stated size (``2 x 0.01 V``,
   ``2 counts of 0.01 V``). Counts without their size are refused: nobody can say what they are worth.
3. ``±`` or ``+/-`` before it, and brackets around it, are passed over.
4. No part is negative, and not all are zero.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from steadyhead.quantities.asking import Question, ask
from steadyhead.quantities.dimensions import DIMENSIONS
from steadyhead.quantities.numerals import Numeral, begins_number, converted, read_numeral
from steadyhead.quantities.parsing import read_quantity, without_plus_minus
from steadyhead.quantities.units import find_unit, levelled

_TIMES = ("x", "X", "×", "*")
_COUNT_WORDS = ("counts", "count", "digits", "digit", "dgts", "dgt", "lsd")
_OF_READING = ("ofreading", "ofrdg", "ofrdg.", "rdg", "rdg.", "reading", "ofvalue")
_UNITY = (1, 1)
_NOTHING = (0, 1)


@dataclass(frozen=True, slots=True)
class Tolerance:
    """A meter's accuracy.

    Parameters
    ----------
    relative
        Fraction of the reading.
    absolute
        Fixed part, in the dimension's SI unit; for counts, all of them together.
    count
        Size of one count in SI, 0 where no counts were given.
    """

    relative: float = 0.0
    absolute: float = 0.0
    count: float = 0.0


def parse_tolerance(text: str, dimension: str) -> Tolerance:
    """Return a tolerance of readings of one dimension.

    Raises
    ------
    QuantityError
        The text is no such tolerance: ``tolerance-unreadable``, ``tolerance-counts-need-size``,
        ``tolerance-not-positive``, or whatever is wrong with one of its parts.

    Examples
    --------
    >>> parse_tolerance("0.5 % + 2 x 0.01 V", "voltage")
    Tolerance(relative=0.005, absolute=0.02, count=0.01)
    >>> parse_tolerance("±1 %", "current")
    Tolerance(relative=0.01, absolute=0.0, count=0.0)
    """
    question = ask(text, dimension, must_be=f"a tolerance such as '0.5 %' or '0.5 % + {_example(dimension)}'")
    total = Tolerance()
    for part in _parts(_unwrapped(question.text)):
        total = _joined(question, total, _part(question.part(part)))
    if not (total.relative or total.absolute):
        raise question.refusal(because="tolerance-not-positive")
    return total


def _example(dimension: str) -> str:
    """Return counts with their size, in the unit of the dimension's first example."""
    return f"2 x 0.01 {DIMENSIONS[dimension].examples[0].split()[-1]}"


def _unwrapped(text: str) -> str:
    inner = without_plus_minus(text)
    return inner[1:-1].strip() if inner.startswith("(") and inner.endswith(")") else inner


def _parts(text: str) -> list[str]:
    """Return what stands between the plus signs; one inside an exponent (``1e+3``) does not part."""
    parts, start = [], 0
    for at, sign in enumerate(text):
        if sign == "+" and at > start and not _in_exponent(text, at):
            parts.append(text[start:at].strip())
            start = at + 1
    return [*parts, text[start:].strip()]


def _in_exponent(text: str, at: int) -> bool:
    return text[at - 1] in "eE" and text[at - 2 : at - 1].isdigit()


def _part(question: Question) -> Tolerance:
    """Return one part alone as a tolerance."""
    if not begins_number(question.text):
        raise question.refusal(because="tolerance-unreadable")
    numeral = read_numeral(question)
    if numeral.mantissa < 0:
        raise question.refusal(because="tolerance-not-positive")
    rest = question.text[numeral.end :].strip()
    if _is_percent(rest):
        return Tolerance(relative=converted(numeral, (1, 100), _NOTHING, question))
    size = _size_of_count(question, rest)
    if size is not None:
        return _counts(question, numeral, size)
    return Tolerance(absolute=read_quantity(question).value)


def _is_percent(rest: str) -> bool:
    key = levelled(rest).casefold()
    for ending in _OF_READING:
        key = key.removesuffix(ending)
    return find_unit(key, "percent") is not None


def _size_of_count(question: Question, rest: str) -> str | None:
    """Return the text of one count's size, or None where no counts are spoken of."""
    word = next((word for word in _COUNT_WORDS if rest.casefold().startswith(word)), "")
    after = rest[len(word) :].strip()
    for joint in (*_TIMES, "of"):
        if after.startswith(joint) and begins_number(after[len(joint) :].strip()):
            return after[len(joint) :].strip() if word or joint != "of" else None
    if word:
        example = _example(question.dimension.id)
        raise question.refusal(because="tolerance-counts-need-size", must_be=f"counts of a size such as '{example}'")
    return None


def _counts(question: Question, number: Numeral, size: str) -> Tolerance:
    one = read_quantity(question.part(size)).value
    if one <= 0:
        raise question.refusal(because="tolerance-not-positive")
    return Tolerance(absolute=one * converted(number, _UNITY, _NOTHING, question), count=one)


def _joined(question: Question, one: Tolerance, other: Tolerance) -> Tolerance:
    """Return both parts together; two of one kind are refused."""
    if (one.relative and other.relative) or (one.absolute and other.absolute):
        raise question.refusal(because="tolerance-unreadable")
    if other.relative or not other.absolute:
        return replace(one, relative=one.relative + other.relative)
    return replace(one, absolute=other.absolute, count=other.count)
