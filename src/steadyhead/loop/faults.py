"""Every fault of the sensing loop: what it does to a loop, how severe it can be, where it can be, what mends it.

Everything that affects which faults exist lives in this file; what each does stands in `fault_cable`, `fault_sensor`
and `fault_controller`.

Rules
-----
1. Scales of severity are wide and overlap: a narrow one would be false evidence.
2. Shares are those within a family (common practice, no source).
"""

from __future__ import annotations

from collections.abc import Callable

from steadyhead.loop import fault_cable as cable
from steadyhead.loop import fault_controller as controller
from steadyhead.loop import fault_sensor as sensor
from steadyhead.loop.fault_words import LEAK_PLACES, WIRING_PLACES, Change, Fault, Severity, place_word
from steadyhead.loop.parts import Wire

__all__ = ["FAULTS", "LEAK_PLACES", "WIRING_PLACES", "Fault", "Severity", "faults_of", "place_word"]

RESISTIVE = Severity(low=5.0, high=50e3, unit="ohm")
#: The same of the signal's wire: at a voltage input it shows once it comes near the input's own resistance,
#: in a current loop as soon as any other does.
RESISTIVE_SIGNAL = Severity(low=20.0, high=2e6, unit="ohm")
LEAKAGE = Severity(low=40.0, high=50e3, unit="ohm")
SHORT = Severity(low=0.1, high=40.0, unit="ohm")
SHIFT = Severity(low=-0.35, high=0.35, unit="parts of span", logarithmic=False)
#: A gauge that sticks, or whose snubber is plugged, is off by most of the pressure (common practice).
STUCK = Severity(low=-0.75, high=0.75, unit="parts of span", logarithmic=False)
PART = Severity(low=0.0, high=1.0, unit="parts of span", logarithmic=False)
#: Trapped water warmed by the sun climbs past the range.
TRAPPED = Severity(low=0.0, high=1.3, unit="parts of span", logarithmic=False)
#: By how much the pressure at another place of the pipe differs: half a range and more before a reducing valve (common
#: practice).
ELSEWHERE = Severity(low=0.0, high=0.7, unit="parts of span", logarithmic=False)
#: What is shut in: a pressure, or none, where the sensor was relieved or drained before (common practice, no source).
SHUT_IN = (("pressure", 0.6), ("relieved", 0.4))


_WIRES: tuple[tuple[Wire, tuple[int, ...]], ...] = (("supply", (2, 3)), ("signal", (2, 3)), ("common", (3,)))
_PAIRS: tuple[tuple[str, str], ...] = (
    ("supply", "common"), ("supply", "signal"), ("signal", "common"),
    ("supply", "earth"), ("signal", "earth"), ("common", "earth"),
)  # fmt: skip


def _in_one_wire(
    what: str, family: str, make: Callable[[Wire], Change], severity: Severity | None = None,
    of_signal: Severity | None = None,
) -> list[Fault]:
    """Return one fault for each wire that a cable can have; the signal's wire may have another scale of severity."""
    return [
        Fault(id=f"{what}-{wire}", remedy="repair-cable", family=family, share=1.0, change=make(wire),
              severity=of_signal if wire == "signal" else severity, places=WIRING_PLACES, wires=has)
        for wire, has in _WIRES
    ]  # fmt: skip


def _between_two(what: str, family: str, severity: Severity, *, wet: bool) -> list[Fault]:
    """Return one fault for each pair of wires, or wire and earth, between which a path can be."""
    return [
        Fault(id=f"{what}-{a}-{b}", remedy="repair-cable", family=family, share=0.3 if b == "earth" else 1.0,
              change=cable.between(a, b, wet=wet), severity=severity, places=LEAK_PLACES,
              wires=(3,) if a == "common" else (2, 3))
        for a, b in _PAIRS
    ]  # fmt: skip


def _miswired(id_: str, share: float, change: Change, wires: int = 3) -> Fault:
    """Return a mistake in the order of the wires."""
    return Fault(
        id=id_, remedy="correct-wiring", family="miswired", share=share, change=change, wires=(wires,)
    )


FAULTS: tuple[Fault, ...] = (
    Fault(id="none", remedy="none", family="nothing", share=1.0, change=controller.nothing),
    Fault(id="cable-cut", remedy="repair-cable", family="all-cores", share=1.0, change=cable.cut, places=WIRING_PLACES),
    *_in_one_wire("open", "wires-open", cable.opened),
    *_in_one_wire("resistive", "joints", cable.resistive, RESISTIVE, RESISTIVE_SIGNAL),
    *_in_one_wire("intermittent", "loose", cable.opened),
    *_between_two("leakage", "damp", LEAKAGE, wet=True),
    *_between_two("short", "shorts", SHORT, wet=False),
    _miswired("swapped-supply-common", 1.0, cable.lands(supply="common", signal="signal", common="supply")),
    _miswired("swapped-supply-signal", 1.0, cable.lands(supply="signal", signal="supply", common="common")),
    _miswired("swapped-common-signal", 1.0, cable.lands(supply="supply", signal="common", common="signal")),
    _miswired("rotated-left", 0.4, cable.lands(supply="signal", signal="common", common="supply")),
    _miswired("rotated-right", 0.4, cable.lands(supply="common", signal="supply", common="signal")),
    _miswired("reversed", 1.0, cable.lands(supply="signal", signal="supply", common="common"), wires=2),
    Fault(id="noise-pickup", remedy="reroute-cable", family="noise", share=1.0, change=cable.noise,
          severity=Severity(low=0.01, high=0.25, unit="parts of span")),
    Fault(id="shield-looped", remedy="correct-wiring", family="noise", share=0.25, change=cable.screen_looped,
          severity=Severity(low=0.01, high=0.15, unit="parts of span")),
    Fault(id="sensor-open", remedy="replace-sensor", family="sensor", share=6.0, change=sensor.opened,
          places=(("output", 0.4), ("supply", 0.4), ("supply-diodes", 0.2))),
    Fault(id="sensor-shorted", remedy="replace-sensor", family="sensor", share=3.0, change=sensor.shorted,
          severity=Severity(low=0.5, high=400.0, unit="ohm")),
    Fault(id="sensor-low", remedy="replace-sensor", family="sensor", share=6.0, change=sensor.low, severity=PART),
    Fault(id="sensor-high", remedy="replace-sensor", family="sensor", share=5.0, change=sensor.high, severity=PART),
    Fault(id="sensor-zero-shift", remedy="replace-sensor", family="sensor", share=4.0, change=sensor.zero_shifted,
          severity=SHIFT),
    Fault(id="sensor-span-shift", remedy="replace-sensor", family="sensor", share=2.0, change=sensor.span_shifted,
          severity=Severity(low=0.5, high=1.6, unit="of its slope")),
    Fault(id="sensor-frozen", remedy="replace-sensor", family="sensor", share=3.0, change=sensor.frozen, severity=PART),
    Fault(id="sensor-wet-vent", remedy="replace-sensor", family="sensor", share=2.0, change=sensor.zero_shifted,
          severity=Severity(low=-0.15, high=0.15, unit="parts of span", logarithmic=False)),
    Fault(id="sensor-wrong-part", remedy="replace-sensor", family="wrong-part", share=1.0, change=sensor.wrong_part,
          severity=Severity(low=0.3, high=3.5, unit="of the right range"),
          places=(("range", 0.6), ("kind", 0.2), ("pinout", 0.2))),
    Fault(id="port-blocked", remedy="clear-port", family="port", share=1.0, change=sensor.port_blocked,
          severity=TRAPPED, places=SHUT_IN),
    Fault(id="sensor-cock-shut", remedy="open-cock", family="port", share=1.2, change=sensor.cock_shut,
          severity=TRAPPED, places=SHUT_IN),
    Fault(id="tap-wrong-side", remedy="move-tap", family="port", share=0.6, change=sensor.beside,
          severity=ELSEWHERE, places=(("lower", 0.5), ("higher", 0.5))),
    Fault(id="controller-supply-dead", remedy="replace-board", family="board-supply", share=3.0,
          change=controller.supply_fraction,
          severity=Severity(low=1e-3, high=0.1, unit="of its volts"),
          places=(("stiff", 0.4), ("faint", 0.4), ("apart", 0.2))),
    Fault(id="controller-supply-low", remedy="replace-board", family="board-supply", share=1.5,
          change=controller.supply_fraction,
          severity=Severity(low=0.15, high=0.88, unit="of its volts", logarithmic=False),
          places=(("", 0.7), ("apart", 0.3))),
    Fault(id="controller-supply-weak", remedy="replace-board", family="board-supply", share=1.5,
          change=controller.supply_weak,
          severity=Severity(low=1.0, high=100.0, unit="times as soft"), places=(("limit", 0.5), ("resistance", 0.5))),
    Fault(id="other-load", remedy="remove-load", family="other-load", share=1.0, change=controller.other_load,
          severity=Severity(low=1.0, high=800.0, unit="ohm")),
    Fault(id="controller-input-dead", remedy="replace-board", family="board-input", share=3.0,
          change=controller.input_dead,
          severity=Severity(low=controller.DEAD_INPUT_OHM[0], high=controller.DEAD_INPUT_OHM[1], unit="ohm"),
          places=(("converter", 0.2), ("stuck", 0.2), ("shorted", 0.29), ("open", 0.19), ("cut-off", 0.07),
                  ("to-supply", 0.05))),
    Fault(id="controller-input-shifted", remedy="replace-board", family="board-input", share=1.0,
          change=controller.input_shifted,
          severity=Severity(low=-0.4, high=0.4, unit="parts of span", logarithmic=False),
          places=(("offset", 0.5), ("gain", 0.5))),
    Fault(id="setting-range", remedy="correct-setting", family="setting", share=2.0, change=controller.range_set,
          severity=Severity(low=0.4, high=3.2, unit="of the sensor's range")),
    Fault(id="setting-signal-kind", remedy="correct-setting", family="setting", share=1.2, change=controller.kind_set,
          severity=PART, places=(("parameter", 0.6), ("switch", 0.4))),
    Fault(id="setting-unit", remedy="correct-setting", family="setting", share=0.5, change=controller.unit_set,
          places=controller.UNITS),
    Fault(id="setting-input", remedy="correct-setting", family="setting", share=0.8, change=controller.input_set,
          severity=PART, places=(("nothing", 0.5), ("elsewhere", 0.5))),
    Fault(id="setting-offset", remedy="correct-setting", family="setting", share=0.8, change=controller.offset_set,
          severity=SHIFT),
    Fault(id="setting-simulated", remedy="correct-setting", family="setting", share=0.3,
          change=controller.simulated_set,
          severity=PART),
    Fault(id="vacuum", remedy="clear-vacuum", family="vacuum", share=1.0, change=controller.nothing),
    Fault(id="site-gauge-wrong", remedy="replace-gauge", family="gauge", share=1.0, change=controller.gauge_wrong,
          severity=STUCK),
    Fault(id="own-gauge-wrong", remedy="replace-gauge", family="gauge", share=0.1, change=controller.own_gauge_wrong,
          severity=SHIFT),
    Fault(id="meter-wrong", remedy="mend-meter", family="meter", share=1.0, change=controller.meter_wrong,
          severity=Severity(low=controller.FACTOR[0], high=controller.FACTOR[1], unit="of the right figure"),
          places=(("fuse", 0.42), ("battery", 0.25), ("dead", 0.18), ("loading", 0.15))),
)  # fmt: skip


def faults_of(wires: int, kind: str) -> tuple[Fault, ...]:
    """Return the faults that a loop with this many wires and this kind of sensor can have."""
    return tuple(f for f in FAULTS if wires in f.wires and kind in f.kinds)
