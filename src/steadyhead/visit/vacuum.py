"""How far below zero a pressure can be, so that a slip of the pen is told from a vacuum.

Rules
-----
1. Nothing is below absolute zero: minus the pressure of the air, which the altitude and the weather set.
2. A gauge may read below that by its own error at the lower end of its scale, and no further.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from steadyhead.published.standard_atmosphere import pressure_pa
from steadyhead.visit.grades import allowed_error
from steadyhead.visit.record import Beyond, Figure, Interval, Spread

DEEPEST_SCALE_PA = -105_000.0  #: "-15 psi" and "-76 cmHg" are printed on scales; common practice
WEATHER_PA = 3_000.0  #: how far a high may lift the air's pressure; common practice
UNKNOWN_GAUGE_PA = 20_700.0  #: 3 % of a 0..100 psi scale, where nobody told the gauge; common practice


def deepest_pa(site: Mapping[str, Any], gauge: Mapping[str, Any]) -> float:
    """Return the lowest figure that the gauge can show at this site [Pa, gauge].

    Parameters
    ----------
    site, gauge
        Values of the tables ``[site]`` and ``[instruments] gauge``; what is missing takes a stated default.

    Examples
    --------
    >>> round(deepest_pa({}, {}))
    -125025
    """
    altitude = site.get("altitude")
    air = pressure_pa(altitude if isinstance(altitude, float) else 0.0)
    return -(air + WEATHER_PA + _error_pa(gauge))


def _error_pa(gauge: Mapping[str, Any]) -> float:
    scale, accuracy, grade = (gauge.get(key) for key in ("range", "accuracy", "grade"))
    if not isinstance(scale, Interval):
        return UNKNOWN_GAUGE_PA
    if isinstance(accuracy, float):
        return accuracy * scale.width
    return allowed_error(grade if isinstance(grade, str) else "B", 0.0) * scale.width


def lowest_of(value: object) -> float | None:
    """Return the lowest figure that a pressure may be, or None where it has none.

    >>> lowest_of(Spread(-2.0, 3.0, "Pa"))
    -2.0
    """
    if isinstance(value, Figure):
        return value.value
    if isinstance(value, Spread):
        return value.low
    if isinstance(value, Beyond):
        return value.limit
    return value if isinstance(value, float) else None
