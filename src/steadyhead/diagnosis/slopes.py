"""How a cell's readings move with its latents.

Rules
-----
1. The size of a fault may carry a part of the loop into another region, so its slope is taken from a second solved loop.
2. Everything else moves the loop only a little: the changed part draws another current at the voltages as they are, and
   the solved circuit answers that with one substitution. This is the exact slope of the piece in which the circuit rests.
3. A latent that cannot move a stance has slopes of zero and costs nothing.
"""

from __future__ import annotations

from dataclasses import replace
from math import exp

from steadyhead.diagnosis.cells import Cell
from steadyhead.diagnosis.makes import DRIVE, INPUT, SOFTNESS, Latents
from steadyhead.diagnosis.observing import Look, Question, Stance, live_values, look
from steadyhead.diagnosis.system import System
from steadyhead.loop.elements import Element
from steadyhead.loop.solve import Operation
from steadyhead.loop.wiring import has_own_sensor, sensor_elements, supply_branch

#: Step of a slope, in standard deviations of the latent.
STEP = 0.4
#: Numbers of the supply and of the sensor's first element in a circuit.
_SUPPLY, _SENSOR = 0, 2

_Changes = list[tuple[int, tuple[float, ...]]]


def by_severity(
    system: System, cell: Cell, z: Latents, stance: Stance, questions: tuple[Question, ...], base: Look
) -> list[float] | None:
    """Return each question's value a step further in the fault's size; None where the fault has none."""
    if not cell.width:
        return None
    guess = base.operation.regions if base.operation is not None else None
    return look(system, cell, z._replace(severity=z.severity + STEP), stance, questions, guess).values


def moved_values(
    system: System, stance: Stance, questions: tuple[Question, ...], base: Look
) -> list[list[float] | None]:
    """Return, for each latent, each question's value a step further; None where it cannot move."""
    found: list[list[float] | None] = [None] * len(Latents._fields)
    operation = base.operation
    if operation is None:
        return found
    changes: dict[int, _Changes] = {2: _supply(base, operation, system.supply_spread * STEP), 5: []}
    softer = exp(SOFTNESS * STEP)
    changes[6] = _softness(base, operation, softer)
    if has_own_sensor(stance.arrangement):
        if stance.pressure.sd > 0.0 and stance.arrangement != "vented":
            changes[0] = _sensor(base, operation, base.pressure + stance.pressure.sd * STEP)
        changes[1] = _shifted(base, operation, system.accuracy / 1.8 * STEP)
        if system.unit == "V":
            changes[4] = _drive(base, operation, exp(DRIVE * STEP))
    for k, change in changes.items():
        moved = operation.moved(change) if k != 5 else _input(system, base, operation)
        found[k] = live_values(moved, base, questions)
    return found


def _difference(operation: Operation, number: int, new: Element) -> _Changes:
    """Return what a changed element draws more than the old one, at the voltages as they are."""
    at = operation.places[number]
    before = operation.elements[number].currents(at, operation.volts)
    after = new.currents(at, operation.volts)
    return [(number, tuple([b - a for a, b in zip(before, after, strict=True)]))]


def _supply(base: Look, operation: Operation, part: float) -> _Changes:
    supply = base.loop.supply
    return _changed_supply(base, operation, replace(supply, volts=supply.volts * (1.0 + part)))


def _softness(base: Look, operation: Operation, factor: float) -> _Changes:
    supply = base.loop.supply
    softer = replace(supply, source_ohm=supply.source_ohm * factor, limit_a=supply.limit_a / factor**0.7)
    return _changed_supply(base, operation, softer)


def _changed_supply(base: Look, operation: Operation, supply: object) -> _Changes:
    old = operation.elements[_SUPPLY]
    return _difference(operation, _SUPPLY, supply_branch(supply, old.nodes[1]))  # type: ignore[arg-type]


def _sensor(base: Look, operation: Operation, pressure: float) -> _Changes:
    built = base.draft.sensor.built(base.draft.felt(pressure))
    return _difference(operation, _SENSOR, sensor_elements(built)[0])


def _shifted(base: Look, operation: Operation, shift: float) -> _Changes:
    sensor = base.draft.sensor
    kept = sensor.shift
    sensor.shift = kept + shift
    built = sensor.built(base.draft.felt(base.pressure))
    sensor.shift = kept
    return _difference(operation, _SENSOR, sensor_elements(built)[0])


def _drive(base: Look, operation: Operation, factor: float) -> _Changes:
    stage = operation.elements[_SENSOR]
    stronger = replace(stage, source_a=stage.source_a * factor, sink_a=stage.sink_a * factor)  # type: ignore
    return _difference(operation, _SENSOR, stronger)


def _input(system: System, base: Look, operation: Operation) -> Operation:
    """Return where the circuit rests with another input resistance, which is no element but a conductance."""
    ohm = base.loop.input.ohm
    other = ohm * exp(input_spread(system) * STEP)
    amperes = operation.volt("controller.signal") * (1.0 / other - 1.0 / ohm)
    return operation.pushed("controller.signal", -amperes)


def input_spread(system: System) -> float:
    """Return how far the input's resistance may be from its middle, as the logarithm of a factor."""
    given = system.visit.controller.input_resistance_ohm is not None
    return INPUT[system.unit][0 if given else 1]
