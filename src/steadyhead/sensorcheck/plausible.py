"""What no point of a sensor check can be: figures so far off the plate that a unit or a decimal sign slipped.

Rules
-----
1. A broken sensor may show anything that its supply can give; a figure `FAR` spans beyond its signal or its range is no
   reading of it but a slip, such as millivolts taken for volts.
2. A slip is refused where it is entered, with what it was compared with; nothing is put right by guessing.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from steadyhead.messages import Message, message
from steadyhead.visit.record import Sensor

FAR = 20.0  #: spans


def slips(sensor: Sensor, values: dict[str, Any]) -> Iterator[tuple[str, Message]]:
    """Yield the key of each value that cannot be, and why.

    Parameters
    ----------
    sensor
        The sensor's plate.
    values
        A point's values by their names in `steadyhead.sensorcheck.run.Point`; those that were not read are left out.

    Examples
    --------
    >>> from steadyhead.visit.record import Interval, Signal
    >>> house = Sensor(signal=Signal(kind="voltage", low=0.5, high=4.5, wires=3), range=Interval(0.0, 7e5))
    >>> [key for key, _ in slips(house, {"reference_pa": 3e5, "signal": 2503.0})]
    ['signal']
    """
    signal, range_ = sensor.signal, sensor.range
    far_signal, far_pressure = FAR * (signal.high - signal.low), FAR * range_.width
    if _beyond(values.get("signal"), signal.low - far_signal, signal.high + far_signal):
        if signal.kind == "current":
            yield "signal", message("signal-slipped-current", got=values["signal"], low=signal.low, high=signal.high)
        else:
            yield "signal", message("signal-slipped-volts", got=values["signal"], low=signal.low, high=signal.high)
    for name, key in (("reference_pa", "reference"), ("shown_pa", "shown")):
        if _beyond(values.get(name), range_.low - far_pressure, range_.high + far_pressure):
            yield key, message("pressure-slipped", got=values[name], low=range_.low, high=range_.high)


def _beyond(value: float | None, low: float, high: float) -> bool:
    return value is not None and not low <= value <= high
