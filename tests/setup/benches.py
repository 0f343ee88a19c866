"""Systems and sensors on a van, invented, to be changed by a test."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from steadyhead.setup.finding import Finding
from steadyhead.setup.van import Match
from steadyhead.visit.record import Controller, Fitting, Interval, Sensor, Signal, Visit
from steadyhead.visit.stock import StockSensor

PSI = 6894.757293168361  #: NIST SP 811, to all its digits
FIVE_VOLT = Signal(kind="ratiometric", low=0.5, high=4.5, wires=3)
ONE_TO_FIVE = Signal(kind="voltage", low=1.0, high=5.0, wires=3)
TEN_VOLT = Signal(kind="voltage", low=0.0, high=10.0, wires=3)
MILLIAMPS = Signal(kind="current", low=0.004, high=0.020, wires=2)
PINS = {"supply": "1", "signal": "2", "common": "3"}
APPROVED = ("nsf-61", "nsf-372")


def plate(signal: Signal = FIVE_VOLT, top_psi: float = 100.0, **more: Any) -> Sensor:  # noqa: ANN401
    """Return a plate: 0 to `top_psi`, 1 % of span, on 5 V or on 9 to 30 V."""
    supply = Interval(5.0, 5.0) if signal == FIVE_VOLT else Interval(9.0, 30.0)
    return Sensor(signal=signal, **{"range": Interval(0.0, top_psi * PSI), "accuracy": 0.01, "supply": supply, **more})


def system(signal: Signal = FIVE_VOLT, **more: Any) -> Visit:  # noqa: ANN401
    """Return a system of which everything is noted; `more` are fields of its controller or its fitting."""
    kinds: dict[Signal, dict[str, Any]] = {
        FIVE_VOLT: {"supply_v": 5.0, "supply_limits": Interval(4.75, 5.25), "low_fault": 0.2, "high_fault": 4.8,
                    "reference": "ratiometric", "input_resistance_ohm": 1e6},
        ONE_TO_FIVE: {"supply_v": 24.0, "low_fault": 0.5, "high_fault": 5.5, "reference": "fixed",
                      "input_resistance_ohm": 1e6},
        MILLIAMPS: {"supply_v": 24.0, "low_fault": 0.0036, "high_fault": 0.021, "input_resistance_ohm": 250.0},
    }  # fmt: skip
    fitting = {"thread": "1/4 NPT", "plug": "m12-a", "water": "drinking", "highest_pa": 90 * PSI, "settable": False}
    own = {name: more.pop(name) for name in list(more) if name in Fitting.__dataclass_fields__}
    sensor = more.pop("sensor", plate(signal))
    labels = {f"sensor.{core}": pin for core, pin in PINS.items() if signal.wires == 3 or core != "common"}
    controller = {"scaled": sensor.range, **kinds[signal], **more}
    return Visit(
        sensor=sensor, controller=Controller(**controller), fitting=Fitting(**{**fitting, **own}), labels=labels
    )


def on_van(sensor: Sensor | None = None, **more: Any) -> StockSensor:  # noqa: ANN401
    """Return a sensor on the van of which everything is noted, and which fits."""
    sensor = plate() if sensor is None else sensor
    pins = {core: pin for core, pin in PINS.items() if sensor.signal.wires == 3 or core != "common"}
    noted = {"thread": "1/4 NPT", "plug": "m12-a", "approval": APPROVED, "stands_pa": 300 * PSI, "pins": pins}
    return StockSensor(sensor=sensor, **{"name": "spare", **noted, **more})


def same(visit: Visit) -> StockSensor:
    """Return the very sensor that stands in a system of which everything is noted."""
    return replace(on_van(visit.sensor), thread=visit.fitting.thread, plug=visit.fitting.plug)


def about(match: Match, aspect: str) -> list[Finding]:
    """Return what a match says of one aspect."""
    return [each for each in match.findings if each.aspect == aspect]


def ids(match: Match, aspect: str) -> list[tuple[str, str]]:
    """Return grade and message of what a match says of one aspect."""
    return [(each.grade, each.why.id) for each in about(match, aspect)]
