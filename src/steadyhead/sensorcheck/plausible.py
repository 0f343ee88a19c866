"""What no point of a sensor check can be: figures so far off the plate that a unit or a decimal sign slipped.

Rules
-----
1. A broken sensor may show anything that its supply can give; a figure `FAR` spans beyond its signal or its range is no
   reading of it but a slip, such as millivolts taken for volts.
2. A gauge cannot show what is not on its scale: a reading beyond it by more than `OFF_SCALE` is a slip, too.
3. A ratiometric sensor lives on what a controller gives it: more than `MOST_SUPPLY_V` is a slip. Too little is not, nor
   the panel's 24 V on a 5 V sensor: a fault can give it those.
4. A slip is refused where it is entered, with what it was compared with; nothing is put right by guessing.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from steadyhead.messages import Message, message
from steadyhead.visit.record import Interval, Sensor

FAR = 20.0  #: spans
OFF_SCALE = 0.01  #: of the gauge's span: a pointer that rests on its last mark is still on the scale
MOST_SUPPLY_V = 36.0  #: a panel's 24 V and half as much again (common practice)


def slips(sensor: Sensor, values: dict[str, Any], scale: Interval | None = None) -> Iterator[tuple[str, Message]]:
    """Yield the key of each value that cannot be, and why.

    Parameters
    ----------
    sensor
        The sensor's plate.
    values
        A point's values by their names in `steadyhead.sensorcheck.run.Point`; those that were not read are left out.
    scale
        Scale of a gauge without a certificate; None where nobody said it, or where its certificate rules.

    Examples
    --------
    >>> from steadyhead.visit.record import Interval, Signal
    >>> house = Sensor(signal=Signal(kind="voltage", low=0.5, high=4.5, wires=3), range=Interval(0.0, 7e5))
    >>> [key for key, _ in slips(house, {"reference_pa": 3e5, "signal": 2503.0})]
    ['signal']
    >>> [key for key, _ in slips(house, {"reference_pa": 9e5}, Interval(0.0, 7e5))]
    ['reference']
    """
    signal, range_ = sensor.signal, sensor.range
    far_signal, far_pressure = FAR * (signal.high - signal.low), FAR * range_.width
    if _beyond(values.get("signal"), signal.low - far_signal, signal.high + far_signal):
        if signal.kind == "current":
            yield "signal", message("signal-slipped-current", got=values["signal"], low=signal.low, high=signal.high)
        else:
            yield "signal", message("signal-slipped-volts", got=values["signal"], low=signal.low, high=signal.high)
    if signal.kind == "ratiometric" and _beyond(values.get("supply_v"), 0.0, MOST_SUPPLY_V):
        yield "supply", message("supply-slipped", got=values["supply_v"], most=MOST_SUPPLY_V)
    for name, key in (("reference_pa", "reference"), ("shown_pa", "shown")):
        if _beyond(values.get(name), range_.low - far_pressure, range_.high + far_pressure):
            yield key, message("pressure-slipped", got=values[name], low=range_.low, high=range_.high)
        elif name == "reference_pa" and scale is not None and off_scale(scale, values.get(name)):
            yield key, message("reference-off-scale", got=values[name], low=scale.low, high=scale.high)


def off_scale(scale: Interval, reading_pa: float | None) -> bool:
    """Return whether a gauge of this scale cannot show that; what was not read it can.

    Examples
    --------
    >>> from steadyhead.visit.record import Interval
    >>> off_scale(Interval(0.0, 7e5), 7.05e5), off_scale(Interval(0.0, 7e5), 7.1e5)
    (False, True)
    """
    beyond = OFF_SCALE * scale.width
    return _beyond(reading_pa, scale.low - beyond, scale.high + beyond)


def _beyond(value: float | None, low: float, high: float) -> bool:
    return value is not None and not low <= value <= high
