"""What the faults of a sensor, of its port and of its place on the pipe do to a loop."""

from __future__ import annotations

from steadyhead.loop.draft import LoopDraft, SensorDraft
from steadyhead.loop.parts import Wire

#: Kinds of sensor whose signal is a current.
CURRENTS = frozenset(("loop", "current"))
#: The least that a broken current sensor still draws, and the most that it can send [A] (common practice).
DEAD_A, MOST_A = 0.05e-3, 30e-3
#: The usual outputs of a voltage sensor [V], and up to which severity each of those that it is not is meant.
OUTPUTS_V = ((0.0, 10.0), (0.0, 5.0), (1.0, 5.0), (0.5, 4.5))
KINDS_UP_TO = (0.7, 1.5, float("inf"))

def opened(draft: LoopDraft, severity: float, place: str) -> None:
    """Break the output, or the supply inside, with protection diodes left or not."""
    if place == "output":
        draft.sensor.open_output = True
        draft.sensor.diodes = False
    else:
        draft.sensor.open_supply = True
        draft.sensor.diodes = place == "supply-diodes"


def shorted(draft: LoopDraft, severity: float, place: str) -> None:
    """Short plus to minus inside; the severity is its resistance [ohm]."""
    draft.sensor.short_ohm = severity


def low(draft: LoopDraft, severity: float, place: str) -> None:
    """Hold the output below its range: at the severity's part of the way from nothing to its low end."""
    sensor = draft.sensor
    if sensor.kind in CURRENTS:
        sensor.stuck = DEAD_A + severity * (sensor.low - DEAD_A)
    else:
        sensor.stuck = severity * sensor.low


def high(draft: LoopDraft, severity: float, place: str) -> None:
    """Hold the output above its range: at the severity's part of the way to the most that electronics gives.

    A dead amplifier stands anywhere up to its own supply, or to the current at which nothing limits it any more, more
    often just above its range: the way goes by squares.
    """
    sensor = draft.sensor
    part = severity * abs(severity)
    if sensor.kind in CURRENTS:
        top = MOST_A
    elif sensor.kind == "voltage":
        top = max(draft.supply_v, sensor.high * 1.1)
    else:
        top, part = sensor.high * 1.1, severity
    sensor.stuck = sensor.high + part * (top - sensor.high)
    sensor.most = max(sensor.most, sensor.stuck)


def zero_shifted(draft: LoopDraft, severity: float, place: str) -> None:
    """Shift the output by the severity [parts of span]."""
    draft.sensor.shift += severity


def span_shifted(draft: LoopDraft, severity: float, place: str) -> None:
    """Multiply the slope by the severity."""
    draft.sensor.gain *= severity


def frozen(draft: LoopDraft, severity: float, place: str) -> None:
    """Hold the output at the severity's part of its span."""
    sensor = draft.sensor
    sensor.stuck = sensor.low + severity * (sensor.high - sensor.low)


def wrong_part(draft: LoopDraft, severity: float, place: str) -> None:
    """Make it another part: another range (the severity is its ratio to the right one), output or pinout."""
    sensor = draft.sensor
    if place == "kind":
        _other_kind(sensor, severity)
    elif place == "pinout" and "common" in draft.wires:
        _swap_pins(draft, severity)
    else:
        sensor.range_high = sensor.range_low + severity * (sensor.range_high - sensor.range_low)


def _other_kind(sensor: SensorDraft, severity: float) -> None:
    """Make it a sensor with another output of the same wires: a 0 to 10 V one for 0.5 to 4.5 V, and the like."""
    if sensor.kind in {"ratiometric", "voltage"}:
        others = [ends for ends in OUTPUTS_V if ends != (sensor.low, sensor.high)]
        sensor.kind = "voltage"
        sensor.low, sensor.high = next(ends for top, ends in zip(KINDS_UP_TO, others, strict=False) if severity < top)
        sensor.least, sensor.most = max(0.0, sensor.low - 0.5), sensor.high
    else:
        width = sensor.high - sensor.low
        sensor.low -= 0.25 * width
        sensor.least -= 0.25 * width


def _swap_pins(draft: LoopDraft, severity: float) -> None:
    """Let each of the plug's contacts meet another pin, as on a sensor with another pinout."""
    swapped: dict[Wire, Wire] = (
        {"supply": "supply", "signal": "common", "common": "signal"}
        if severity > 1.0
        else {"supply": "common", "signal": "signal", "common": "supply"}
    )
    draft.pinout = swapped


def port_blocked(draft: LoopDraft, severity: float, place: str) -> None:
    """Lock a pressure in behind a blocked port, which opening the sensor to the air doesn't free."""
    cock_shut(draft, severity, place)
    draft.vents = False


def cock_shut(draft: LoopDraft, severity: float, place: str) -> None:
    """Lock a pressure in behind a shut cock: some part of the range, or none at all, where it was relieved before."""
    draft.trapped_pa = 0.0 if place == "relieved" else draft.sensor.pressure_at(severity)


def beside(draft: LoopDraft, severity: float, place: str) -> None:
    """Let the sensor feel a lower or a higher pressure than the pipe's, by the severity [parts of span]."""
    more = severity if place == "higher" else -severity
    draft.beside_pa += more * (draft.sensor.range_high - draft.sensor.range_low)
