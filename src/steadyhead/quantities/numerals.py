"""Reads one number by a strict grammar, so that nothing is guessed and nothing is dropped.

Rules
-----
1. A sign is ``-`` or the minus sign U+2212, or ``+``; it stands before the digits. A dash (U+2013, U+2014)
   is never one.
2. Digits are 0 to 9. The decimal sign is a full stop or a comma, with a digit after it; the digit before may be left
   out before a full stop (``.5``).
3. A comma with exactly three digits after it may be a thousands separator: refused as ambiguous, unless only a zero
   stands before it (``0,500``). No other separator of thousands is known.
4. ``½``, ``¼`` and ``¾`` stand alone or after whole digits, and are exact.
5. An exponent is ``e`` or ``E``, a sign or none, and one to four digits.
6. A number is kept as an integer and a power of ten, so that its conversion rounds once.
"""

from __future__ import annotations

from dataclasses import dataclass

from steadyhead.quantities.asking import Question, printable

MINUS = "\u2212"
_SIGNS = {"-": -1, MINUS: -1, "+": 1}
_DECIMAL_SIGNS = (".", ",")
_FRACTIONS = {"½": 50, "¼": 25, "¾": 75}  # hundredths
_DIGITS = frozenset("0123456789")
_THOUSANDS = 3
_LONGEST_EXPONENT = 4


@dataclass(frozen=True, slots=True)
class Numeral:
    """The number ``mantissa * 10**power`` and where it ends in its text; `exact` where no last digit was written."""

    mantissa: int
    power: int
    end: int
    exact: bool = False
    signed: bool = False


def digits_end(text: str, start: int) -> int:
    """Return where the run of digits that begins at ``start`` ends.

    >>> digits_end("62 psi", 0)
    2
    """
    end = start
    while end < len(text) and text[end] in _DIGITS:
        end += 1
    return end


def begins_number(text: str) -> bool:
    """Whether a text begins as a number does: with a sign, a digit, a decimal sign or a vulgar fraction.

    >>> begins_number("AWG 22")
    False
    """
    return text[:1] in _SIGNS or text[:1] in _DIGITS or text[:1] in _DECIMAL_SIGNS or text[:1] in _FRACTIONS


def read_numeral(question: Question, start: int = 0) -> Numeral:
    """Return the number that begins at ``start`` of the question's text.

    Raises
    ------
    QuantityError
        ``number-missing``, ``number-unreadable``, ``number-ambiguous`` or ``number-out-of-range``.
    """
    text = question.text
    sign = _SIGNS.get(text[start : start + 1], 0)
    first = start + (1 if sign else 0)
    whole_end = digits_end(text, first)
    unsigned = _with_fraction(text, first, whole_end) or _decimal(question, first, whole_end)
    return Numeral((sign or 1) * unsigned.mantissa, unsigned.power, unsigned.end, unsigned.exact, bool(sign))


def _with_fraction(text: str, first: int, whole_end: int) -> Numeral | None:
    at = whole_end + 1 if whole_end > first and text[whole_end : whole_end + 1] == " " else whole_end
    hundredths = _FRACTIONS.get(text[at : at + 1])
    if hundredths is None:
        return None
    return Numeral(100 * int(text[first:whole_end] or "0") + hundredths, -2, at + 1, exact=True)


def _decimal(question: Question, first: int, whole_end: int) -> Numeral:
    text = question.text
    end, places = whole_end, 0
    if text[whole_end : whole_end + 1] in _DECIMAL_SIGNS and not text.startswith("..", whole_end):
        end = digits_end(text, whole_end + 1)
        places = end - whole_end - 1
        _refuse_bad_decimals(question, first, whole_end, end)
    if end == first:
        raise question.refusal(because="number-missing")
    mantissa = int(text[first:whole_end] + text[whole_end + 1 : end] if places else text[first:whole_end])
    exponent, end = _exponent(question, end)
    return Numeral(mantissa, exponent - places, end)


def _refuse_bad_decimals(question: Question, first: int, point: int, end: int) -> None:
    """Refuse a decimal sign that lacks its digits, and what may be a thousands separator."""
    text = question.text
    if end == point + 1 or (point == first and text[point] == ","):
        raise question.refusal(because="number-missing" if point == first else "number-unreadable")
    follows = text[end : end + 1]
    if follows in _DECIMAL_SIGNS and not text.startswith("..", end):
        raise question.refusal(because="number-unreadable")
    whole = text[first:point]
    if text[point] == "," and end - point - 1 == _THOUSANDS and whole.strip("0"):
        before, after = text[:point], text[point + 1 :]
        readings = f"'{printable(before + after)}' or '{printable(before)}.{printable(after)}'"
        raise question.refusal(because="number-ambiguous", must_be=readings)


def _exponent(question: Question, start: int) -> tuple[int, int]:
    """Return the exponent that begins at ``start``, 0 where there is none, and where it ends."""
    text = question.text
    if text[start : start + 1] not in {"e", "E"}:
        return 0, start
    sign = _SIGNS.get(text[start + 1 : start + 2], 0)
    first = start + 1 + (1 if sign else 0)
    end = digits_end(text, first)
    if end == first:
        return 0, start
    if end - first > _LONGEST_EXPONENT:
        raise question.refusal(because="number-out-of-range")
    return (sign or 1) * int(text[first:end]), end


def converted(numeral: Numeral, factor: tuple[int, int], offset: tuple[int, int], question: Question) -> float:
    """Return ``numeral * factor + offset``, each a ratio of integers, rounded once.

    Raises
    ------
    QuantityError
        ``number-out-of-range`` where the result is no finite float, or a number that is not zero became zero.
    """
    up: int = 10 ** max(numeral.power, 0)
    down: int = 10 ** max(-numeral.power, 0)
    top = numeral.mantissa * up * factor[0] * offset[1] + offset[0] * down * factor[1]
    value = _quotient(top, down * factor[1] * offset[1], question)
    if top and not value:
        raise question.refusal(because="number-out-of-range")
    return value


def count_of(numeral: Numeral, factor: tuple[int, int], question: Question) -> float:
    """Return the size of one count of the number's last digit, 0 where it is exact or too small to be told from zero.

    Raises
    ------
    QuantityError
        ``number-out-of-range`` where it is no finite float.
    """
    if numeral.exact:
        return 0.0
    up: int = 10 ** max(numeral.power, 0)
    down: int = 10 ** max(-numeral.power, 0)
    return _quotient(up * factor[0], down * factor[1], question)


def _quotient(top: int, bottom: int, question: Question) -> float:
    try:
        return top / bottom
    except OverflowError:
        raise question.refusal(because="number-out-of-range") from None
