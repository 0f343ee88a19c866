"""The pressure of the air at an altitude, on a standard day: what an absolute sensor reads open to the air.

Formulas
--------
1. Geopotential altitude from geometric: ``H = r Z / (r + Z)``, ``r = 6 356 766 m``. Leaving that out is 2 Pa wrong at
   1000 m and 13 Pa at 3000 m.
2. Temperature: ``T = 288.15 - 0.0065 H``.
3. Pressure: ``p = 101325 (T / 288.15)**(g0 M / (R L))``.

A real day differs by some 1 to 3 kPa with the weather (common practice).
"""

from __future__ import annotations

from steadyhead.published.source import Source, Table, Validity

SOURCE = Source(
    cite="U.S. Standard Atmosphere, 1976 (NOAA, NASA, USAF)",
    locator="table I, by geometric altitude, and the defining constants of its lowest layer",
    seen="republished",
    via="tabulations in public libraries and an open textbook; the constants from memory",
)

SEA_LEVEL_PA = 101325.0  #: [Pa]
SEA_LEVEL_K = 288.15  #: [K]
LAPSE_K_PER_M = 0.0065  #: [K/m] of geopotential altitude
EARTH_RADIUS_M = 6_356_766.0  #: [m]
GRAVITY_M_PER_S2 = 9.80665  #: [m/s2]
MOLAR_MASS_KG_PER_MOL = 0.0289644  #: [kg/mol]
GAS_CONSTANT_J_PER_MOL_K = 8.31432  #: [J/(mol K)], the value of 1976
EXPONENT = GRAVITY_M_PER_S2 * MOLAR_MASS_KG_PER_MOL / (GAS_CONSTANT_J_PER_MOL_K * LAPSE_K_PER_M)

#: The lowest layer; the published table begins at -5000 m (from memory), so that a polder and a dead sea are inside.
ALTITUDES = Validity(quantity="altitude", low=-5000.0, high=11000.0, unit="m")


def pressure_pa(altitude_m: float) -> float:
    """Return the absolute pressure of the air [Pa] at a geometric altitude.

    Parameters
    ----------
    altitude_m
        Above mean sea level [m], -5000 to 11000.

    Raises
    ------
    RangeOfValidityError
        The altitude is outside -5000..11000 m.

    Examples
    --------
    >>> round(pressure_pa(1000))
    89876
    """
    return float(SEA_LEVEL_PA * (temperature_k(altitude_m) / SEA_LEVEL_K) ** EXPONENT)


def temperature_k(altitude_m: float) -> float:
    """Return the temperature of the air [K] at a geometric altitude [m].

    Raises
    ------
    RangeOfValidityError
        The altitude is outside -5000..11000 m.

    Examples
    --------
    >>> round(temperature_k(3000), 3)
    268.659
    """
    ALTITUDES.require(altitude_m)
    geopotential_m = EARTH_RADIUS_M * altitude_m / (EARTH_RADIUS_M + altitude_m)
    return SEA_LEVEL_K - LAPSE_K_PER_M * geopotential_m


TABLE = Table(
    id="standard-atmosphere",
    title="The pressure of the air on a standard day",
    columns=("altitude [m]", "pressure [Pa]", "temperature [K]"),
    rows=tuple((z, round(pressure_pa(z)), round(temperature_k(z), 3)) for z in range(0, 4001, 500)),
    sources=(SOURCE,),
    valid=(ALTITUDES,),
    note="Computed by the published formulas, for geometric altitude. The weather moves it by 1 to 3 kPa.",
)
