"""Whether the sensor's supply is right for it: the volts at its pins, worked out, against what it is made for.

Rules
-----
1. A three-wire sensor sees the supply. A plate that names one voltage takes a tenth more or less (common practice).
2. A two-wire sensor sees the supply less what its own current takes in the input's resistor, or in a conversion
   resistor, and in both conductors: at the top of its signal, from the supply's least volts. At no current it sees the
   most.
3. A supply of which nobody noted limits is taken at its nominal volts. A sensor whose supply nobody noted: look.
"""

from __future__ import annotations

from steadyhead.messages import Message, message
from steadyhead.published.conductors import conductor_ohm_per_m
from steadyhead.setup.finding import CHECK, FITS, NO, Finding
from steadyhead.setup.signal_match import Way
from steadyhead.visit.record import Interval, Sensor, Visit

#: How far a supply may be from the one voltage on a plate [fraction] (common practice).
AROUND = 0.1
#: A current input's resistor where nobody noted it [ohm] (common practice).
USUAL_BURDEN_OHM = 250.0


def supply_here(visit: Visit) -> Interval | None:
    """Return the volts that the controller gives, None where nobody knows."""
    controller, plate = visit.controller, visit.sensor.supply
    if controller.loop_power == "outside":
        return None
    if controller.supply_limits is not None:
        return controller.supply_limits
    if controller.supply_v is not None:
        return Interval(controller.supply_v, controller.supply_v)
    return plate if plate is not None and plate.low == plate.high else None


def wanted(new: Sensor) -> Interval | None:
    """Return the volts that a sensor is made for; around a single voltage, a tenth more or less."""
    plate = new.supply
    if plate is None or plate.low < plate.high:
        return plate
    return Interval(plate.low * (1 - AROUND), plate.high * (1 + AROUND))


def drop_v(visit: Visit, new: Sensor, way: Way) -> float:
    """Return what a two-wire sensor's own current takes on its way, at the top of its signal [V]."""
    if new.signal.kind != "current" or new.signal.wires != 2:
        return 0.0
    load = way.resistor_ohm
    if load is None:
        own = visit.sensor.signal.kind == "current"
        known = visit.controller.input_resistance_ohm if own else None
        load = USUAL_BURDEN_OHM if known is None else known
    return new.signal.high * (load + _both_conductors_ohm(visit))


def _both_conductors_ohm(visit: Visit) -> float:
    cable = visit.cable
    if cable.length_m is None or cable.conductor_m2 is None:
        return 0.0
    at = 20.0 if cable.temperature_c is None else cable.temperature_c
    return 2 * cable.length_m * conductor_ohm_per_m(cable.conductor_m2, at)


def supply_finding(visit: Visit, new: Sensor, way: Way) -> Finding:
    """Return whether the supply is right for a sensor."""
    needs, here = wanted(new), supply_here(visit)
    if needs is None:
        return Finding("supply", CHECK, message("van-supply-not-noted"))
    if here is None:
        return Finding("supply", CHECK, message("van-supply-here-unknown", low=needs.low, high=needs.high))
    drop = drop_v(visit, new, way)
    told = {"low": needs.low, "high": needs.high, "least": here.low, "most": here.high, "drop": drop}
    left = {"low": needs.low, "drop": drop, "needs": needs.low + drop, "least": here.low, "left": here.low - drop}
    if here.low > needs.high:
        return Finding("supply", NO, message("van-supply-too-much", **told))
    if here.high - drop < needs.low:
        return Finding("supply", NO, _too_little(drop, told, left))
    if here.high > needs.high or here.low - drop < needs.low:
        return Finding("supply", CHECK, message("van-supply-edge", **told, needs=needs.low + drop))
    return Finding("supply", FITS, _right(drop, told, left))


def _right(drop: float, told: dict[str, float], left: dict[str, float]) -> Message:
    if drop:
        return message("van-supply-right-drop", **left)
    return message("van-supply-right-one" if told["least"] == told["most"] else "van-supply-right", **told)


def _too_little(drop: float, told: dict[str, float], left: dict[str, float]) -> Message:
    return message("van-supply-too-little-drop", **left) if drop else message("van-supply-too-little", **told)
