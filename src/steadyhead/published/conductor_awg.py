"""American wire gauge: how thick each gauge is, and what its copper resists.

Formulas
--------
1. Diameter: ``d = 0.005 in * 92**((36 - n) / 39)``; 0 is ``1/0``, -1 is ``2/0``, down to -3 for ``4/0``.
2. Resistivity of annealed copper at 20 degC: ``1/58 ohm mm2/m`` (100 % IACS).
3. Temperature: ``R(t) = R20 * (1 + 0.00393 * (t - 20))``.

A stranded wire of the same gauge resists some 2 % more (its strands are longer than the wire); that is ignored here.
"""

from __future__ import annotations

from math import log, pi, sqrt

from steadyhead.published.source import Source, Table, Validity

DIAMETER_SOURCE = Source(
    cite="ASTM B258, Standard specification for standard nominal diameters and cross-sectional areas of AWG sizes",
    locator="formula for the diameters",
    seen="republished",
    via="public wire tables for the diameters; the formula itself from memory",
)
COPPER_SOURCE = Source(
    cite="National Bureau of Standards, Handbook 100, Copper wire tables, 1966; IEC 60028",
    locator="section 1, annealed copper standard",
    seen="memory",
)

INCH_MM = 25.4  #: [mm], exact by definition
THINNEST_IN = 0.005  #: [in], gauge 36
RATIO = 92.0  #: diameter of 4/0 over that of 36
STEPS = 39  #: gauges between them
IACS_OHM_MM2_PER_M = 1 / 58  #: [ohm mm2/m] at 20 degC
ALPHA_PER_C = 0.00393  #: [1/degC] at 20 degC

GAUGES = Validity(quantity="wire-gauge", low=-3, high=40, unit="AWG")
#: Ours: the wires of this trade, where the straight line holds.
TEMPERATURES = Validity(quantity="conductor-temperature", low=-40.0, high=120.0, unit="degC")
_MM2 = 1e-6  # [m2]
_HALF_A_GAUGE = float(RATIO ** (1 / STEPS))  # ratio of two areas half a gauge apart


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
    GAUGES.require(gauge)
    return THINNEST_IN * INCH_MM * float(RATIO ** ((36 - gauge) / STEPS))


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
    TEMPERATURES.require(temperature_c)
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
    thinnest, thickest = area_m2(int(GAUGES.high)), area_m2(int(GAUGES.low))
    Validity(quantity="conductor-area", low=thinnest / _HALF_A_GAUGE, high=thickest * _HALF_A_GAUGE, unit="m2").require(
        area
    )
    gauge = round(36 - STEPS * log(sqrt(4 * area / pi / _MM2) / INCH_MM / THINNEST_IN, RATIO))
    return min(int(GAUGES.high), max(int(GAUGES.low), gauge))


def gauge_name(gauge: int) -> str:
    """Return a gauge as it is said, ``22`` or ``2/0``.

    >>> gauge_name(-1)
    '2/0'
    """
    return str(gauge) if gauge > 0 else f"{1 - gauge}/0"


TABLE = Table(
    id="conductor-awg",
    title="American wire gauge, solid annealed copper at 20 degC",
    columns=("gauge", "diameter [mm]", "area [mm2]", "resistance [ohm/km]"),
    rows=tuple(
        (
            gauge_name(n),
            float(f"{diameter_mm(n):.4g}"),
            float(f"{area_m2(n) / _MM2:.4g}"),
            float(f"{ohm_per_m(n) * 1e3:.4g}"),
        )
        for n in range(int(GAUGES.low), int(GAUGES.high) + 1)
    ),
    sources=(DIAMETER_SOURCE, COPPER_SOURCE),
    valid=(GAUGES, TEMPERATURES),
    note="Computed by the published formulas; a stranded wire resists some 2 % more.",
)
