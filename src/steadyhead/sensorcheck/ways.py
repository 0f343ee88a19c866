"""How a pressure is brought about, and what can hurt somebody or flood something on the way.

Everything that affects the cautions of a sensor check lives in this file.

Rules
-----
1. Local codes and a licensed person come before all else; then what can kill, then what can flood, then hygiene.
2. A caution stands before the first step that needs it. One that holds all along stands before the first point.
3. Whatever hides the pipe's pressure from the drive (a sensor vented, isolated, on a hand pump) stops the drive first.
"""

from __future__ import annotations

from steadyhead.messages import Message, message
from steadyhead.sensorcheck.run import PressureFrom
from steadyhead.visit.record import Sensor


def cautions_before(sensor: Sensor, pressure_from: PressureFrom) -> tuple[Message, ...]:
    """Return what to heed before the first point.

    Parameters
    ----------
    sensor
        The sensor: a current signal is read with the meter in the loop, or over the input.
    pressure_from
        What makes the pressure.
    """
    found = [message("local-codes-first"), message("fire-pump-refused"), message("mains-beside-terminals")]
    if pressure_from == "system":
        found += [message("starts-by-itself"), message("watch-while-raised")]
    else:
        found += [message("stop-the-drive"), message("water-is-off"), message("relieve-pressure")]
    if sensor.signal.kind == "current":
        found.append(message("milliamp-jack-and-back"))
    if pressure_from != "system":
        found.append(message("keep-water-clean"))
    return tuple(found)


def way_to(pressure_pa: float, before_pa: float | None, pressure_from: PressureFrom) -> Message:
    """Return how to come to a pressure from the one before; None: from whatever stands there.

    Parameters
    ----------
    pressure_pa, before_pa
        Where to, and from where [Pa gauge].
    pressure_from
        What makes the pressure.
    """
    if pressure_from == "static":
        return message("reach-static", pressure=pressure_pa)
    if before_pa is not None and pressure_pa == before_pa:
        return message("reach-again", pressure=pressure_pa)
    rising = before_pa is not None and pressure_pa > before_pa
    if pressure_pa <= 0.0:
        return message("reach-vented" if pressure_from == "hand-pump" else "reach-drained", pressure=pressure_pa)
    if pressure_from == "hand-pump":
        return message("reach-pumped-up" if rising or before_pa is None else "reach-let-down", pressure=pressure_pa)
    return message("reach-by-setpoint" if rising else "reach-by-draw", pressure=pressure_pa)


def cautions_of_step(pressure_pa: float, before_pa: float | None, pressure_from: PressureFrom) -> tuple[Message, ...]:
    """Return what to heed that is new with a step: relieving a running system, raising it again afterwards.

    Parameters
    ----------
    pressure_pa, before_pa
        Where to, and from where [Pa gauge].
    pressure_from
        What makes the pressure.
    """
    if pressure_from != "system":
        return ()
    if pressure_pa <= 0.0 and before_pa != pressure_pa:
        return (message("stop-the-drive"), message("water-is-off"), message("relieve-pressure"))
    if before_pa is not None and before_pa <= 0.0 < pressure_pa:
        return (message("starts-by-itself"),)
    return ()
