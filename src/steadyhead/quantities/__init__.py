"""Text with units to SI floats and back.

Rules
-----
1. Every quantity in a file or from a keyboard is text with its unit; a bare number is refused with what was expected.
2. Inside the program a quantity is a float in its dimension's SI unit (`DIMENSIONS`); pressure is gauge unless the
   dimension says absolute; temperature is in degrees Celsius.
3. Nothing is guessed: what could be read in two ways is refused, and the refusal names both.
4. Nothing but `QuantityError` is raised, whatever the text; a text above 100 characters is refused unread.

Refusals
--------
Each message has ``got`` (the text), ``must_be`` (what would do) and ``dimension`` (an id of `DIMENSIONS`), and:

============================  ==========================================================================
``quantity-empty``            no text
``quantity-too-long``         ``most``: characters that are read
``number-missing``            no number where one must stand
``number-unreadable``         signs or digits that make no number
``number-ambiguous``          a thousands separator or a decimal sign? ``must_be`` has both readings
``number-out-of-range``       not finite, or too small to be told from zero
``unit-missing``              a bare number
``unit-unknown``              ``unit``: what stands there; ``nearest``: spellings that look like it
``unit-of-another-kind``      ``unit``; ``is_a``: what it is a unit of; ``nearest``
``pressure-must-be-gauge``    ``unit``: one that says absolute
``pressure-must-be-absolute`` ``unit``: one that says gauge
``below-absolute-zero``       a temperature or an absolute pressure that cannot be
``wire-gauge-unknown``        a gauge that is no whole number, or not in the table
``range-expected``            nothing stands between two ends
``range-hyphen-ambiguous``    a hyphen beside a sign, or with a space on one side only
``range-not-rising``          the second end is not above the first
``tolerance-unreadable``      a part that is neither percent nor quantity nor counts, or two of one kind
``tolerance-counts-need-size`` counts without the size of one
``tolerance-not-positive``    a part below zero, or all of them zero
============================  ==========================================================================
"""

from steadyhead.quantities.dimensions import DIMENSIONS, Dimension
from steadyhead.quantities.parsing import Quantity, parse, parse_percent, parse_quantity
from steadyhead.quantities.ranges import parse_range, parse_range_or_one, parse_range_quantities
from steadyhead.quantities.spelling import spell, spell_engineering, spell_figure, spell_ohms, spell_range
from steadyhead.quantities.tolerances import Tolerance, parse_tolerance
from steadyhead.quantities.units import UNITS, Unit, spellings_in

__all__ = [
    "DIMENSIONS",
    "UNITS",
    "Dimension",
    "Quantity",
    "Tolerance",
    "Unit",
    "parse",
    "parse_percent",
    "parse_quantity",
    "parse_range",
    "parse_range_or_one",
    "parse_range_quantities",
    "parse_tolerance",
    "spell",
    "spell_engineering",
    "spell_figure",
    "spell_ohms",
    "spell_range",
    "spellings_in",
]
