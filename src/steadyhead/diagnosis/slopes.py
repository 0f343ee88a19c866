"""How a cell's readings move with its latents.

Rules
-----
1. The size of a fault may carry a part of the loop into another region, so its slope is taken from a second solved
   loop; so is the input's where a voltmeter loads it, and a wet joint's battery where nothing else drives the wires.
2. Everything else moves the loop only a little: the changed part draws another current at the voltages as they are,
   and the solved circuit answers that with one substitution: the exact slope of the piece in which it rests.
3. A latent that cannot move a stance has slopes of zero and costs nothing.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from math import exp, isfinite

from steadyhead.diagnosis.cells import Cell
from steadyhead.diagnosis.looking import Look, live_values, look
from steadyhead.diagnosis.makes import CLAMP, DRAW, DRIVE, INPUT, LIMIT, PULL, SOFTNESS, Latents
from steadyhead.diagnosis.observing import Question, Stance
from steadyhead.diagnosis.system import System
from steadyhead.loop.elements import Element
from steadyhead.loop.parts import Supply, VoltageSensor
from steadyhead.loop.solve import Operation
from steadyhead.loop.wiring import clamp_branch, has_own_sensor, powers_sensor, sensor_elements, supply_branch

#: Step of a slope, in standard deviations of the latent.
STEP = 0.4
#: Numbers of the supply, the input's clamp and the sensor's first element in a circuit.
_SUPPLY, _CLAMP, _SENSOR = 0, 1, 2

#: Region of a supply at its limit, and of a clamp that does nothing.
_LIMITED, _UNCLAMPED = 0, 1
#: A meter that takes more than this part of a voltage away makes the input's resistance count twice.
LOADED = 0.997
#: A run of less copper drops nothing that a meter at the terminals would see [ohm].
SHORT_RUN_OHM = 1.0

#: For each latent, each question's value a step further.
Moved = list[list[float] | None]
NOTHING_KNOWN: Mapping[str, list[float]] = {}

_Changes = list[tuple[int, tuple[float, ...]]]


@dataclass(frozen=True, slots=True)
class Spot:
    """One cell at one point of its latents, in one stance, with the questions asked there."""

    system: System
    cell: Cell
    z: Latents
    stance: Stance
    questions: tuple[Question, ...]

    def look(self) -> Look:
        """Return the look at this point."""
        return look(self.system, self.cell, self.z, self.stance, self.questions)

    def further(self, name: str, base: Look) -> list[float]:
        """Return each question's value a step further in one latent, by a second solved loop."""
        z = self.z._replace(**{name: getattr(self.z, name) + STEP})
        return look(self.system, self.cell, z, self.stance, self.questions, guess=base.regions).values

    def by_size(self, base: Look) -> dict[str, list[float]]:
        """Return each question's value a step further in each size of the cell's faults."""
        return {name: self.further(name, base) for name in self.cell.sizes}

    def moved(self, base: Look, known: Mapping[str, list[float]] = NOTHING_KNOWN) -> Moved:
        """Return, for each latent, each question's value a step further than `base`.

        The faults' sizes, and the input where a meter loads it, are looked at again, where they are not `known`; the
        solved loop answers the rest. What cannot move has None.
        """
        found = moved_values(self.system, self.stance, self.questions, base)
        for name in self._again(base):
            found[Latents._fields.index(name)] = known[name] if name in known else self.further(name, base)
        return found

    def _again(self, base: Look) -> list[str]:
        again = list(self.cell.sizes)
        if any(loading < LOADED for loading in base.loading):
            again += ["input", "pull"] if isfinite(base.loop.input.pull_ohm) else ["input"]
        if not self.system.run_known and (base.operation is None or self.system.run_ohm > SHORT_RUN_OHM):
            again.append("run")
        if self.system.unit == "V" and powers_sensor(self.stance.arrangement) and not at_ease(base):
            again.append("starved")
        if self.cell.damp and self.stance.arrangement != "connected":
            again.append("battery")
        return again


def at_ease(base: Look) -> bool:
    """Tell whether supply, input and sensor's output work as in a healthy loop: none at a limit, starved or clamped."""
    operation = base.operation
    if operation is None:
        return False
    pairs = zip(operation.elements[: _SENSOR + 1], operation.regions, strict=False)
    return all(element.start == region for element, region in pairs)


def moved_values(system: System, stance: Stance, questions: tuple[Question, ...], base: Look) -> Moved:
    """Return, for each latent, each question's value a step further; None where it cannot move."""
    found: dict[str, list[float]] = {}
    operation = base.operation
    if operation is not None:
        changes = _controller_changes(system, base, operation)
        if has_own_sensor(stance.arrangement):
            changes |= _sensor_changes(system, stance, base, operation)
        for name, change in changes.items():
            found[name] = live_values(operation.moved(change), base, questions)
        found["input"] = _by_input(system, base, operation, questions)
        if isfinite(base.loop.input.pull_ohm):
            found["pull"] = _by_pull(base, operation, questions)
    return [found.get(name) for name in Latents._fields]


def _controller_changes(system: System, base: Look, operation: Operation) -> dict[str, _Changes]:
    """Return what the controller's supply and clamp draw otherwise a step further."""
    supply = base.loop.supply
    softer = replace(supply, source_ohm=supply.source_ohm * exp(SOFTNESS * STEP))
    found = {
        "supply": _supply(base, operation, system.supply_spread * STEP),
        "softness": _changed_supply(operation, softer),
    }
    if operation.regions[_SUPPLY] == _LIMITED:
        found["limit"] = _changed_supply(operation, replace(supply, limit_a=supply.limit_a * exp(LIMIT * STEP)))
    if operation.regions[_CLAMP] != _UNCLAMPED:
        given = base.loop.input
        wider = replace(given, clamp_v=given.clamp_v * exp(CLAMP * STEP))
        found["clamp"] = _difference(operation, _CLAMP, clamp_branch(wider))
    return found


def _sensor_changes(system: System, stance: Stance, base: Look, operation: Operation) -> dict[str, _Changes]:
    """Return what the system's own sensor draws and drives otherwise a step further."""
    found = {"sensor": _shifted(stance, base, operation, system.accuracy / 1.8 * STEP)}
    if stance.pressure.sd > 0.0 and stance.arrangement != "vented":
        found["pressure"] = _sensor(base, operation, base.pressure + stance.pressure.sd * STEP)
    if system.unit == "V":
        if not at_ease(base):
            found["drive"] = _drive(base, operation, exp(DRIVE * STEP))
        found["draw"] = _draw(base, operation, exp(DRAW * STEP))
    return found


def _difference(operation: Operation, number: int, new: Element) -> _Changes:
    """Return what a changed element draws more than the old one, at the voltages as they are."""
    at = operation.places[number]
    before = operation.elements[number].currents(at, operation.volts)
    after = new.currents(at, operation.volts)
    return [(number, tuple([b - a for a, b in zip(before, after, strict=True)]))]


def _supply(base: Look, operation: Operation, part: float) -> _Changes:
    supply = base.loop.supply
    return _changed_supply(operation, replace(supply, volts=supply.volts * (1.0 + part)))


def _changed_supply(operation: Operation, supply: Supply) -> _Changes:
    return _difference(operation, _SUPPLY, supply_branch(supply, operation.elements[_SUPPLY].nodes[1]))


def _sensor(base: Look, operation: Operation, pressure: float) -> _Changes:
    built = base.draft.sensor.built(base.draft.felt(pressure))
    return _difference(operation, _SENSOR, sensor_elements(built)[0])


def _shifted(stance: Stance, base: Look, operation: Operation, shift: float) -> _Changes:
    sensor = base.draft.sensor
    kept = sensor.shift
    sensor.shift = kept + shift
    built = sensor.built(base.draft.felt(base.pressure, vented=stance.arrangement == "vented"))
    sensor.shift = kept
    return _difference(operation, _SENSOR, sensor_elements(built)[0])


def _drive(base: Look, operation: Operation, factor: float) -> _Changes:
    part = base.loop.sensor
    if not isinstance(part, VoltageSensor):
        return []
    stronger = replace(part, source_a=part.source_a * factor, sink_a=part.sink_a * factor)
    return _difference(operation, _SENSOR, sensor_elements(stronger)[0])


def _draw(base: Look, operation: Operation, factor: float) -> _Changes:
    part = base.loop.sensor
    if not isinstance(part, VoltageSensor):
        return []
    hungrier = replace(part, draw_siemens=part.draw_siemens * factor, draw_a=part.draw_a * factor)
    return _difference(operation, _SENSOR + 1, sensor_elements(hungrier)[1])


def _by_input(system: System, base: Look, operation: Operation, questions: tuple[Question, ...]) -> list[float]:
    """Return the values with another input resistance, which is no element but a conductance.

    A burden that nobody read is known to the controller all the same.
    """
    ohm = base.loop.input.ohm
    other = ohm * exp(input_spread(system) * STEP)
    amperes = operation.volt("controller.signal") * (1.0 / other - 1.0 / ohm)
    moved = operation.pushed("controller.signal", -amperes)
    if system.unit == "A" and system.visit.controller.input_resistance_ohm is None:
        screen = replace(base.loop.screen, burden_ohm=base.loop.screen.burden_ohm * other / ohm)
        base = replace(base, loop=replace(base.loop, screen=screen))
    return live_values(moved, base, questions)


def _by_pull(base: Look, operation: Operation, questions: tuple[Question, ...]) -> list[float]:
    """Return the values with a weaker pull-up."""
    given = base.loop.input
    across = given.pull_v - operation.volt("controller.signal")
    amperes = across * (exp(-PULL * STEP) - 1.0) / given.pull_ohm
    return live_values(operation.pushed("controller.signal", amperes), base, questions)


def input_spread(system: System) -> float:
    """Return how far the input's resistance may be from its middle, as the logarithm of a factor."""
    given = system.visit.controller.input_resistance_ohm is not None
    return INPUT[system.unit][0 if given else 1]
