"""What a check was made with, from the values of its tables: a file's and the record's alike.

Rules
-----
1. A reference is a gauge with what else is known of it; its certificate stands beside it.
2. The meter's accuracy is that of the signal's own measure; of a current signal its volts are those of the supply.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from steadyhead.sensorcheck.run import Certificate, Reference, SignalMeter
from steadyhead.visit.keys import GAUGE
from steadyhead.visit.record import Gauge

_GAUGE = frozenset(key.attribute for key in GAUGE.keys)
Values = Mapping[str, Any]


def reference_of(values: Values, certificate: Certificate | None) -> Reference:
    """Return the reference that a table's values say.

    Parameters
    ----------
    values
        Its values under their names in the run, without its certificate.
    certificate
        Its certificate, where it has one.
    """
    gauge = Gauge(**{name: value for name, value in values.items() if name in _GAUGE})
    rest = {name: value for name, value in values.items() if name not in _GAUGE}
    return Reference(gauge=gauge, certificate=certificate, **rest)


def meter_of(values: Values, certificate: Certificate | None, *, current: bool) -> SignalMeter:
    """Return the meter that a table's values say.

    Parameters
    ----------
    values
        Its values under their names in the run, without its certificate.
    certificate
        Its certificate, where it has one.
    current
        Whether the sensor's signal is a current.
    """
    volts, milliamps = values.get("volts"), values.get("milliamps")
    rest = {name: value for name, value in values.items() if name not in {"volts", "milliamps"}}
    return SignalMeter(
        signal=milliamps if current else volts, supply=volts if current else None, certificate=certificate, **rest
    )
