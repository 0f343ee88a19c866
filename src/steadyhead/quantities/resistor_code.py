"""Resistances as they stand on drawings: ``4k7`` is 4.7 kohm, ``2R2`` is 2.2 ohm.

The multiplier's letter stands where the decimal sign would (the code of IEC 60062, from memory). A text that is not of
the form digits, letter, digits is left to the ordinary grammar.
"""

from __future__ import annotations

from steadyhead.quantities.asking import Question
from steadyhead.quantities.numerals import Numeral, converted, count_of, digits_end
from steadyhead.quantities.units import find_unit


def read_resistor_code(question: Question) -> tuple[float, str, float] | None:
    """Return value [ohm], unit and resolution [ohm] of a text like ``4k7``, or None where it has not that form."""
    text = question.text
    split = digits_end(text, 0)
    end = digits_end(text, split + 1)
    if not 0 < split < len(text) or end != len(text) or end == split + 1 or text[split] not in "RkKMG":
        return None
    unit = find_unit(text[split], "resistance")
    if unit is None:
        return None
    numeral = Numeral(int(text[:split] + text[split + 1 :]), split + 1 - len(text), end)
    factor = (unit.numerator, unit.denominator)
    return converted(numeral, factor, (0, 1), question), unit.symbol, count_of(numeral, factor, question)
