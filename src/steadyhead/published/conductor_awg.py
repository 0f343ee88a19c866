"""American wire gauge: how thick each gauge is, and what its copper resists.

Formulas
--------
1. Diameter: ``d = 0.005 in * 92**((36 - n) / 39)``; 0 is ``1/0``, -1 is ``2/0``, down to -3 for ``4/0``.
2. Resistivity of annealed copper at 20 degC: ``1/58 ohm mm2/m`` (100 % IACS).
3. Temperature: ``R(t) = R20 * (1 + 0.00393 * (t - 20))``.
"""

from __future__ import annotations

from math import log, pi, sqrt

from steadyhead.errors import RangeOfValidityError
from steadyhead.messages import message
from steadyhead.published.source import Source

TITLE = "American wire gauge, solid annealed copper"
DIAMETER_SOURCE = Source(
    cite="ASTM B258, Standard specification for standard nominal diameters and cross-sectional areas of AWG sizes",
    locator="formula for the diameters",
    seen="republished",
    via="public wire tables; the formula itself from memory",
)
COPPER_SOURCE = Source(
    cite="National Bureau of Standards, Handbook 100, Copper wire tables, 1966; IEC 60028",
    locator="section 1, annealed copper standard",
    seen="memory",
)
SOURCES = (DIAMETER_SOURCE, COPPER_SOURCE)

INCH_MM = 25.4  #: [mm], exact by definition
SMALLEST_DIAMETER_IN = 0.005  #: [in], gauge 36
RATIO = 92.0  #: diameter of 4/0 over that of 36
STEPS = 39  #: gauges between them
RANGE_OF_GAUGES = (-3, 40)
IACS_OHM_MM2_PER_M = 1 / 58  #: [ohm mm2/m] at 20 degC
ALPHA_PER_C = 0.00393  #: [1/degC] at 20 degC
RANGE_OF_TEMPERATURE_C = (-40.0, 120.0)  #: [degC]; ours: wires of this trade, where the straight line holds
_MM2 = 1e-6
_HALF_A_GAUGE = float(RATIO ** (1 / STEPS))  #: ratio of areas half a gauge apart


def diameter_mm(gauge: int) -> float:
    """Return the nominal diameter of a solid wire [mm].

    Parameters
    ----------
    gauge
        Number of the gauge, -3 (4/0) to 40.

    Raises
    ------
    RangeOfValidityError
        The gauge is outside -3..40.

    Examples
    --------
    >>> round(diameter_mm(22), 4)
    0.6438
    """
    low, high = RANGE_OF_GAUGES
    if not low <= gauge <= high:
        raise RangeOfValidityError(message("wire-gauge-outside", got=gauge, low=low, high=high))
    return SMALLEST_DIAMETER_IN * INCH_MM * float(RATIO ** ((36 - gauge) / STEPS))


def area_m2(gauge: int) -> float:
    """Return the nominal area of a solid wire [m2].

    Raises
    ------
    RangeOfValidityError
        The gauge is outside -3..40.

    Examples
    --------
    >>> round(area_m2(22) * 1e6, 4)
    0.3255
    """
    return pi / 4 * diameter_mm(gauge) ** 2 * _MM2


def ohm_per_m(gauge: int, temperature_c: float = 20.0) -> float:
    """Return the dc resistance of one solid annealed copper wire [ohm/m].

    Parameters
    ----------
    gauge
        Number of the gauge, -3 (4/0) to 40.
    temperature_c
        Of the conductor [degC], -40 to 120.

    Raises
    ------
    RangeOfValidityError
        Gauge or temperature outside its range.

    Examples
    --------
    >>> round(ohm_per_m(18) * 1000, 2)
    20.95
    """
    return IACS_OHM_MM2_PER_M * _MM2 / area_m2(gauge) * temperature_factor(temperature_c)


def temperature_factor(temperature_c: float) -> float:
    """Return resistance at a temperature [degC] over that at 20 degC.

    Raises
    ------
    RangeOfValidityError
        The temperature is outside -40..120 degC.

    Examples
    --------
    >>> round(temperature_factor(75), 5)
    1.21615
    """
    low, high = RANGE_OF_TEMPERATURE_C
    if not low <= temperature_c <= high:
        raise RangeOfValidityError(message("conductor-temperature-outside", got=temperature_c, low=low, high=high))
    return 1 + ALPHA_PER_C * (temperature_c - 20)


def nearest_gauge(area: float) -> int:
    """Return the gauge whose area is nearest to an area [m2], as a ratio.

    Raises
    ------
    RangeOfValidityError
        The area is more than half a gauge outside those of -3..40.

    Examples
    --------
    >>> nearest_gauge(0.326e-6)
    22
    """
    low, high = RANGE_OF_GAUGES
    least, most = area_m2(high) / _HALF_A_GAUGE, area_m2(low) * _HALF_A_GAUGE
    if not least <= area <= most:
        raise RangeOfValidityError(message("conductor-area-outside", got=area, low=least, high=most))
    diameter_in = sqrt(4 * area / pi / _MM2) / INCH_MM
    return min(high, max(low, round(36 - STEPS * log(diameter_in / SMALLEST_DIAMETER_IN, RATIO))))
