"""When water boils: its saturation pressure by temperature, and the temperature by pressure.

Formulas
--------
1. Both are roots of one quadratic in ``b = (p / 1 MPa)^(1/4)`` and ``v = T + n9 / (T - n10)``:
   ``b^2 v^2 + n1 b^2 v + n2 b^2 + n3 b v^2 + n4 b v + n5 b + n6 v^2 + n7 v + n8 = 0``.
2. Both ways round they agree to the last digits: the equation is solved exactly for either.
"""

from __future__ import annotations

import math

from steadyhead.published.source import Source, Table, Validity

SOURCE = Source(
    cite="IAPWS R7-97(2012), Industrial Formulation 1997 for the Thermodynamic Properties of Water and Steam",
    locator="region 4: table 34, equations 30 and 31; check values in tables 35 and 36",
    seen="republished",
    via="the tests and the constants of a public library",
)

#: n1 to n10 of table 34, as printed.
ROWS = (
    (1, 0.11670521452767e4),
    (2, -0.72421316703206e6),
    (3, -0.17073846940092e2),
    (4, 0.12020824702470e5),
    (5, -0.32325550322333e7),
    (6, 0.14915108613530e2),
    (7, -0.48232657361591e4),
    (8, 0.40511340542057e6),
    (9, -0.23855557567849),
    (10, 0.65017534844798e3),
)
_N = (0.0, *(n for _, n in ROWS))
TEMPERATURES = Validity(quantity="temperature", low=273.15, high=647.096, unit="K")
PRESSURES = Validity(quantity="pressure", low=611.212, high=22.064e6, unit="Pa")


def saturation_pressure_pa(temperature_k: float) -> float:
    """Return the absolute pressure [Pa] at which water of this temperature boils.

    Parameters
    ----------
    temperature_k
        Temperature [K], 273.15 to 647.096.

    Raises
    ------
    RangeOfValidityError
        The temperature is outside 273.15..647.096 K.

    Examples
    --------
    >>> round(saturation_pressure_pa(300.0), 3)
    3536.589
    """
    TEMPERATURES.require(temperature_k)
    v = temperature_k + _N[9] / (temperature_k - _N[10])
    a = v * v + _N[1] * v + _N[2]
    b = _N[3] * v * v + _N[4] * v + _N[5]
    c = _N[6] * v * v + _N[7] * v + _N[8]
    return float(1e6 * (2.0 * c / (-b + math.sqrt(b * b - 4.0 * a * c))) ** 4)


def saturation_temperature_k(pressure_pa: float) -> float:
    """Return the temperature [K] at which water boils under this absolute pressure.

    Parameters
    ----------
    pressure_pa
        Absolute pressure [Pa], 611.212 to 22.064e6.

    Raises
    ------
    RangeOfValidityError
        The pressure is outside 611.212..22.064e6 Pa.

    Examples
    --------
    >>> round(saturation_temperature_k(0.1e6), 6)
    372.755919
    """
    PRESSURES.require(pressure_pa)
    beta = (pressure_pa / 1e6) ** 0.25
    e = beta * beta + _N[3] * beta + _N[6]
    f = _N[1] * beta * beta + _N[4] * beta + _N[7]
    g = _N[2] * beta * beta + _N[5] * beta + _N[8]
    d = 2.0 * g / (-f - math.sqrt(f * f - 4.0 * e * g))
    total = _N[10] + d
    return float(0.5 * (total - math.sqrt(total * total - 4.0 * (_N[9] + _N[10] * d))))


TABLE = Table(
    id="water-saturation",
    title="The saturation pressure of water: coefficients",
    columns=("i", "n_i"),
    rows=ROWS,
    sources=(SOURCE,),
    valid=(TEMPERATURES, PRESSURES),
)
