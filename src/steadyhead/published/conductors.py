"""What one conductor of any kind resists: the one question that a cable asks.

An area that is a wire gauge's own is taken for that gauge (solid copper, ASTM B258); any other is taken for a flexible
metric conductor (IEC 60228 class 5), which is what control cable is made of (common practice).
"""

from __future__ import annotations

from steadyhead.errors import RangeOfValidityError
from steadyhead.published import conductor_awg, conductor_iec60228

_SAME = 1e-6  #: of the area: no metric size lies as near to a gauge
_MM2 = 1e-6  # [m2]


def conductor_ohm_per_m(area_m2: float, temperature_c: float = 20.0) -> float:
    """Return the dc resistance of one copper conductor [ohm/m].

    Parameters
    ----------
    area_m2
        Nominal area [m2]: that of any gauge from 4/0 to 40, or 0.05e-6 to 50e-6.
    temperature_c
        Of the conductor [degC], -40 to 120.

    Raises
    ------
    RangeOfValidityError
        Area or temperature outside its range.

    Examples
    --------
    >>> round(conductor_ohm_per_m(0.5e-6) * 1000, 6)
    39.0
    >>> round(conductor_ohm_per_m(conductor_awg.area_m2(18)) * 1000, 2)
    20.95
    """
    gauge = _gauge_of(area_m2)
    if gauge is not None:
        return conductor_awg.ohm_per_m(gauge, temperature_c)
    return conductor_iec60228.ohm_per_m(area_m2 / _MM2, temperature_c)


def _gauge_of(area_m2: float) -> int | None:
    """Return the gauge whose own area this is, or None."""
    try:
        gauge = conductor_awg.nearest_gauge(area_m2)
    except RangeOfValidityError:
        return None
    return gauge if abs(conductor_awg.area_m2(gauge) / area_m2 - 1) < _SAME else None
