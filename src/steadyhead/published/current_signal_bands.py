"""What a 4..20 mA signal says about itself: measurement, or failure of the sensor, or neither.

Rules
-----
1. 3.8 to 20.5 mA is measurement information; outside 4..20 mA it lies beyond the sensor's range.
2. 3.6 mA and less, or 21 mA and more, is failure information.
3. The recommendation leaves two gaps, 3.6 to 3.8 and 20.5 to 21 mA, their ends not included: a current there is
   neither. It is named so; nothing is made of it.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from steadyhead.published.source import Source, Table, Validity

SOURCE = Source(
    cite="NAMUR recommendation NE 43, Standardization of the signal level for the failure information, 2003",
    locator="the signal levels",
    seen="republished",
    via="several public explainers that agree; the recommendation itself was not seen",
)

BandName = Literal[
    "failure-low", "undefined-low", "below-range", "in-range", "above-range", "undefined-high", "failure-high"
]


@dataclass(frozen=True, slots=True)
class Band:
    """A stretch of current [mA]: its `name`, its ends, and whether each end belongs to it."""

    name: BandName
    low_ma: float
    high_ma: float
    with_low: bool
    with_high: bool

    def holds(self, current_ma: float) -> bool:
        """Whether a current [mA] lies in this band."""
        above = self.low_ma < current_ma or (self.with_low and current_ma == self.low_ma)
        below = current_ma < self.high_ma or (self.with_high and current_ma == self.high_ma)
        return above and below


#: [mA]; a loop with its polarity reversed, or clamped, still has a band
CURRENTS = Validity(quantity="signal-current", low=-100.0, high=100.0, unit="mA")

BANDS = (
    Band("failure-low", CURRENTS.low, 3.6, True, True),
    Band("undefined-low", 3.6, 3.8, False, False),
    Band("below-range", 3.8, 4.0, True, False),
    Band("in-range", 4.0, 20.0, True, True),
    Band("above-range", 20.0, 20.5, False, True),
    Band("undefined-high", 20.5, 21.0, False, False),
    Band("failure-high", 21.0, CURRENTS.high, True, True),
)
_ZERO_MA, _SPAN_MA = 4.0, 16.0
_FINEST = 9  # decimals of a milliampere: amperes to milliamperes must not move a limit by a rounding error


def band(current_a: float) -> BandName:
    """Return the name of the band that a current [A] lies in.

    Raises
    ------
    RangeOfValidityError
        The current is outside -0.1..0.1 A, or no number.

    Examples
    --------
    >>> band(0.012), band(0.0036), band(0.0037)
    ('in-range', 'failure-low', 'undefined-low')
    """
    current_ma = round(current_a * 1e3, _FINEST)
    CURRENTS.require(current_ma)
    return next(band.name for band in BANDS if band.holds(current_ma))


def fraction_of_range(current_a: float) -> float:
    """Return where a current [A] lies on the sensor's range: 0 at 4 mA, 1 at 20 mA.

    Raises
    ------
    RangeOfValidityError
        The current is outside -0.1..0.1 A, or no number.

    Examples
    --------
    >>> fraction_of_range(0.012)
    0.5
    """
    CURRENTS.require(current_a * 1e3)
    return (current_a * 1e3 - _ZERO_MA) / _SPAN_MA


TABLE = Table(
    id="current-signal-bands",
    title="What a 4..20 mA signal says about itself",
    columns=("band", "from [mA]", "to [mA]"),
    rows=tuple((b.name, b.low_ma, b.high_ma) for b in BANDS),
    sources=(SOURCE,),
    valid=(CURRENTS,),
    note="The two gaps belong neither to measurement nor to failure. 4 and 20 mA are the ends of the range.",
)
