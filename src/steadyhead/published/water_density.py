"""How heavy water is: the density of air-free water at one atmosphere, by its temperature.

Formula
-------
``rho = 999.974950 [1 - (t - 3.983035)^2 (t + 301.797) / (522528.9 (t + 69.34881))]``, t in degrees Celsius.

A well's water differs by what is dissolved in it: some 0.1 kg/m3 for 100 mg/l (common practice).
"""

from __future__ import annotations

from steadyhead.published.source import Source, Table, Validity

SOURCE = Source(
    cite="Tanaka et al., Recommended table for the density of water, Metrologia 38 (2001) 301-309",
    locator="equation 1 and its constants",
    seen="republished",
    via="the formula in many public codes",
)

MOST_KG_PER_M3 = 999.974950  #: [kg/m3], the greatest density
AT_C = 3.983035  #: [°C], where it is greatest
A2_C, A3_C2, A4_C = 301.797, 522528.9, 69.34881  #: constants of the formula [°C, °C2, °C]
TEMPERATURES = Validity(quantity="temperature", low=0.0, high=40.0, unit="°C")


def density_kg_per_m3(temperature_c: float) -> float:
    """Return the density of water [kg/m3] at one atmosphere.

    Parameters
    ----------
    temperature_c
        Temperature of the water [°C], 0 to 40.

    Raises
    ------
    RangeOfValidityError
        The temperature is outside 0..40 °C.

    Examples
    --------
    >>> round(density_kg_per_m3(20.0), 4)
    998.2067
    """
    TEMPERATURES.require(temperature_c)
    off = (temperature_c - AT_C) ** 2 * (temperature_c + A2_C) / (A3_C2 * (temperature_c + A4_C))
    return MOST_KG_PER_M3 * (1.0 - off)


TABLE = Table(
    id="water-density",
    title="The density of water at one atmosphere",
    columns=("temperature [°C]", "density [kg/m3]"),
    rows=tuple((t, round(density_kg_per_m3(t), 4)) for t in range(0, 41, 5)),
    sources=(SOURCE,),
    valid=(TEMPERATURES,),
    note="Computed by the published formula, for air-free water of ordinary composition.",
)
