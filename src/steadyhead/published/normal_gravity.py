"""How strongly a place pulls: gravity by latitude and altitude, for the weight of a column of water.

Formulas
--------
1. At sea level: ``g = 9.7803267715 (1 + 0.001931851353 sin^2 f) / sqrt(1 - 0.00669438002290 sin^2 f)``.
2. Above it: 3.086e-6 m/s2 less for each metre.

A real place is within 0.001 m/s2 of it (common practice): a hundredth of a percent of a head.
"""

from __future__ import annotations

import math

from steadyhead.published.source import Source, Table, Validity

SOURCE = Source(
    cite="Moritz, Geodetic Reference System 1980, Journal of Geodesy 74 (2000) 128",
    locator="normal gravity, closed formula of Somigliana, and the free-air gradient",
    seen="memory",
)

EQUATOR_M_PER_S2 = 9.7803267715  #: [m/s2]
SOMIGLIANA = 0.001931851353
ECCENTRICITY_SQUARED = 0.00669438002290
FREE_AIR_PER_S2 = 3.086e-6  #: [m/s2 for each metre]
LATITUDES = Validity(quantity="latitude", low=-90.0, high=90.0, unit="°")
ALTITUDES = Validity(quantity="altitude", low=-5000.0, high=11000.0, unit="m")


def gravity_m_per_s2(latitude_deg: float, altitude_m: float = 0.0) -> float:
    """Return normal gravity [m/s2] at a latitude and an altitude.

    Parameters
    ----------
    latitude_deg
        Latitude [°], -90 to 90.
    altitude_m
        Above sea level [m], -5000 to 11000.

    Raises
    ------
    RangeOfValidityError
        The latitude or the altitude is outside its range.

    Examples
    --------
    >>> round(gravity_m_per_s2(45.0), 6)
    9.806199
    """
    LATITUDES.require(latitude_deg)
    ALTITUDES.require(altitude_m)
    square = math.sin(math.radians(latitude_deg)) ** 2
    level = EQUATOR_M_PER_S2 * (1.0 + SOMIGLIANA * square) / math.sqrt(1.0 - ECCENTRICITY_SQUARED * square)
    return level - FREE_AIR_PER_S2 * altitude_m


TABLE = Table(
    id="normal-gravity",
    title="Normal gravity at sea level",
    columns=("latitude [°]", "gravity [m/s2]"),
    rows=tuple((latitude, round(gravity_m_per_s2(latitude), 5)) for latitude in range(0, 91, 15)),
    sources=(SOURCE,),
    valid=(LATITUDES, ALTITUDES),
    note="Computed by the published formula; 3.086e-6 m/s2 less for each metre above the sea.",
)
