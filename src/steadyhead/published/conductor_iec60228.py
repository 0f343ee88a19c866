"""Metric conductors: what a stranded or flexible copper wire of so many square millimetres may resist.

Rules
-----
1. The figures are the greatest resistance that a conductor of the class may have at 20 degC; a real one lies a few
   percent below.
2. Between two rows, and below the first, resistance is resistivity over area; the resistivity (the product of a row's
   resistance and its area) is drawn on a straight line from row to row, and is that of the first row below it.
3. Temperature: ``R(t) = R20 * (1 + 0.004 * (t - 20))``, the standard's own ``k_t``. Its alpha is 0.004, not the
   0.00393 of `steadyhead.published.conductor_awg`: the two are never mixed.
"""

from __future__ import annotations

from bisect import bisect_left
from typing import Literal

from steadyhead.published.source import Source, Table, Validity

SOURCE = Source(
    cite="IEC 60228:2004, Conductors of insulated cables",
    locator="tables 2 (class 2) and 3 (class 5), plain annealed copper; temperature factors k_t in an annex",
    seen="republished",
    via="three public tables of cable trades that agree in every figure",
)

ConductorClass = Literal["class 2", "class 5"]

#: Area [mm2], greatest resistance at 20 degC [ohm/km] of class 2 (stranded) and of class 5 (flexible), plain copper.
ROWS = (
    (0.5, 36.0, 39.0),
    (0.75, 24.5, 26.0),
    (1.0, 18.1, 19.5),
    (1.5, 12.1, 13.3),
    (2.5, 7.41, 7.98),
    (4.0, 4.61, 4.95),
    (6.0, 3.08, 3.30),
    (10.0, 1.83, 1.91),
    (16.0, 1.15, 1.21),
    (25.0, 0.727, 0.780),
    (35.0, 0.524, 0.554),
    (50.0, 0.387, 0.386),
)
ALPHA_PER_C = 0.004  #: [1/degC] at 20 degC, the standard's own rounded figure

#: The standard begins at 0.5 mm2; below, and between rows, by resistivity (rule 2).
AREAS = Validity(quantity="conductor-area", low=0.05, high=50.0, unit="mm2")
#: Ours: the wires of this trade, where the straight line holds.
TEMPERATURES = Validity(quantity="conductor-temperature", low=-40.0, high=120.0, unit="degC")

_COLUMN = {"class 2": 1, "class 5": 2}
_ROW_AREAS = tuple(row[0] for row in ROWS)
_PER_KM = 1e-3


def ohm_per_m(area_mm2: float, temperature_c: float = 20.0, *, conductor: ConductorClass = "class 5") -> float:
    """Return the greatest dc resistance of one plain copper conductor [ohm/m].

    Parameters
    ----------
    area_mm2
        Nominal area [mm2], 0.05 to 50.
    temperature_c
        Of the conductor [degC], -40 to 120.
    conductor
        ``class 2`` (stranded) or ``class 5`` (flexible).

    Raises
    ------
    RangeOfValidityError
        Area or temperature outside its range.

    Examples
    --------
    >>> round(ohm_per_m(0.5, conductor="class 2") * 1000, 6)
    36.0
    """
    AREAS.require(area_mm2)
    return _resistivity(area_mm2, _COLUMN[conductor]) / area_mm2 * _PER_KM * temperature_factor(temperature_c)


def temperature_factor(temperature_c: float) -> float:
    """Return resistance at a temperature [degC] over that at 20 degC: one over the standard's ``k_t``.

    Raises
    ------
    RangeOfValidityError
        The temperature is outside -40..120 degC.

    Examples
    --------
    >>> round(1 / temperature_factor(10), 3)
    1.042
    """
    TEMPERATURES.require(temperature_c)
    return 1 + ALPHA_PER_C * (temperature_c - 20)


def _resistivity(area_mm2: float, column: int) -> float:
    """Return resistance times area [ohm mm2/km], from row to row on a straight line."""
    above = bisect_left(_ROW_AREAS, area_mm2)
    right = ROWS[above]
    if above == 0:
        return right[column] * right[0]
    left = ROWS[above - 1]
    share = (area_mm2 - left[0]) / (right[0] - left[0])
    return (1 - share) * left[column] * left[0] + share * right[column] * right[0]


TABLE = Table(
    id="conductor-iec60228",
    title="Metric copper conductors, greatest resistance at 20 degC",
    columns=("area [mm2]", "class 2 [ohm/km]", "class 5 [ohm/km]"),
    rows=ROWS,
    sources=(SOURCE,),
    valid=(AREAS, TEMPERATURES),
    note="Plain annealed copper. Below 0.5 mm2 and between rows by resistivity.",
)
