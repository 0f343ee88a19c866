"""How a cell's readings move with its latents.

Rules
-----
1. The size of a fault may carry a part of the loop into another region, so its slope is taken from a second solved
   loop; so is that of what joints add where much flows, of what an output hangs on where nothing drives it, and of a
   wet joint's battery where nothing else drives the wires.
2. Everything else moves the loop only a little: the changed part draws another current at the voltages as they are,
   and the solved circuit answers that with one substitution: the exact slope of the piece in which it rests.
3. A latent that cannot move a stance has slopes of zero and costs nothing.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from math import exp, isfinite

from steadyhead.diagnosis.cells import SIZES, Cell
from steadyhead.diagnosis.conductances import (
    bleeds,
    by_bleed,
    by_input,
    by_input_limit,
    by_insulation,
    by_other_load,
    by_pull,
    by_source,
)
from steadyhead.diagnosis.looking import STEP, Drafts, Look, live_values, look
from steadyhead.diagnosis.makes import (
    CLAMP,
    DRAW,
    DRIVE,
    FOLDED,
    LEAST_LIMIT_A,
    LIMIT,
    OUTPUT,
    SERIES,
    SOFTNESS,
    SPARE_DRIVES,
    Latents,
    in_series,
    sensor_of,
)
from steadyhead.diagnosis.observing import Question, Stance
from steadyhead.diagnosis.system import LOW_VOLTS, System
from steadyhead.loop.elements import Branch, Element
from steadyhead.loop.parts import Supply, VoltageSensor
from steadyhead.loop.solve import Operation
from steadyhead.loop.wiring import (
    clamp_branch,
    has_own_sensor,
    insulation_shows,
    others_stay,
    powers_sensor,
    sensor_elements,
    supply_branch,
)

#: Part of it over which the slope is taken in what moves a loop by decades, or by squares.
SIZE_PART, CURVED = 0.25, (*SIZES, "run")
#: Part of a step from which the slope is taken in what the sensor needs, whose corners lie close together.
SMALL = 0.05
#: A wire's drop that moves by less than this part of the supply's volts is left out, by the signal's unit.
SEEN = {"V": 1e-3, "A": 1.2e-3}
#: What a sensor without enough volts is moved by.
_STARVED = {"V": ("starved", "wakes"), "A": ("starved", "wakes", "draw")}
_NUMBER = {name: number for number, name in enumerate(Latents._fields)}
#: Last region of an output stage that is not awake.
_ASLEEP = 4
#: Numbers of the supply, the input's clamp and the sensor's first element in a circuit.
_SUPPLY, _CLAMP, _SENSOR = 0, 1, 2

#: Region of a supply at its limit, and of a clamp that does nothing.
_LIMITED, _UNCLAMPED = 0, 1
#: A signal terminal behind more than this is driven by nothing; no sensor's output is as weak [ohm].
ADRIFT_OHM = 5e3

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
    #: The cell's loops, drafted for other stances too.
    drafts: Drafts = field(default_factory=Drafts)
    #: Whether the system's memory keeps what is solved here: the same point is looked at for the next answer.
    keep: bool = False

    def look(self, near: Look | None = None) -> Look:
        """Return the look at this point; one `near` by tells in which regions its parts may be."""
        return self._look_at(self.z, near)

    def _look_at(self, z: Latents, near: Look | None) -> Look:
        guess = None if near is None else near.regions
        return look(
            self.system, self.cell, z, self.stance, self.questions, guess=guess, keep=self.keep, drafts=self.drafts
        )

    def further(self, name: str, base: Look) -> list[float]:
        """Return each question's value a step further in one latent, by a second solved loop.

        A size moves a loop by decades: its slope is taken over a part of the step, and drawn out to the whole of it.
        """
        part = SIZE_PART if name in CURVED else 1.0
        z = self.z._replace(**{name: getattr(self.z, name) + part * STEP})
        values = self._look_at(z, base).values
        return [old + (new - old) / part for old, new in zip(base.values, values, strict=True)]

    def by_size(self, base: Look) -> dict[str, list[float]]:
        """Return each question's value a step further in each size of the cell's faults."""
        return {name: self.further(name, base) for name in self.cell.sizes}

    def moved(self, base: Look, known: Mapping[str, list[float]] = NOTHING_KNOWN) -> Moved:
        """Return, for each latent, each question's value a step further than `base`.

        The faults' sizes, and the few others of rule 1, are looked at again, where they are not `known`; the solved
        loop answers the rest. What cannot move has None.
        """
        found = moved_values(self.system, self.stance, self.questions, base)
        own = has_own_sensor(self.stance.arrangement)
        if base.operation is not None and own:
            if self.system.unit == "V" and not at_ease(base):
                for name in _STARVED["V"]:
                    change = self._of_another_sensor(name, base, base.operation)
                    found[_NUMBER[name]] = live_values(base.operation.moved(change), base, self.questions)
            if at_its_stop(base, vented=self.stance.arrangement == "vented"):
                change = self._of_another_stop(base, base.operation)
                found[_NUMBER["stop"]] = live_values(base.operation.moved(change), base, self.questions)
        for name in self._again(base):
            found[_NUMBER[name]] = known[name] if name in known else self.further(name, base)
        return found

    def _again(self, base: Look) -> list[str]:
        again = list(self.cell.sizes)
        seen = SEEN[self.system.unit] * self.system.supply_v
        if base.operation is None or _drop(base.operation, self.z) > seen:
            again.append("run")
        if self.system.unit == "V" and powers_sensor(self.stance.arrangement) and _drives_little(base):
            again.append("output")
        other = self.system.unit == "A" or self.stance.arrangement.startswith("spare-")
        if other and powers_sensor(self.stance.arrangement) and not at_ease(base):
            again += _STARVED[self.system.unit]
        if self.cell.damp and self.stance.arrangement != "connected":
            again.append("battery")
        return again

    def _of_another_sensor(self, name: str, base: Look, operation: Operation) -> _Changes:
        """Return what the sensor draws otherwise a step further in what it needs, by a small part of the step."""
        z = self.z._replace(**{name: getattr(self.z, name) + SMALL * STEP})
        other = sensor_of(self.system, self.cell.make, z)
        own = base.draft.sensor
        sensor = replace(
            own, starved=other.starved, wakes_v=other.wakes_v, works_v=other.works_v, drives_v=other.drives_v
        )
        pressure = base.draft.felt(base.pressure, vented=self.stance.arrangement == "vented")
        changes = _difference(operation, _SENSOR, sensor_elements(sensor.built(pressure))[0])
        return [(number, tuple([part / SMALL for part in parts])) for number, parts in changes]

    def _of_another_stop(self, base: Look, operation: Operation) -> _Changes:
        """Return what the sensor drives otherwise where its output goes a step further past its range."""
        at = self.z.stop
        here, there = (
            sensor_of(self.system, self.cell.make, self.z._replace(stop=stop)) for stop in (at, at + STEP)
        )
        own = base.draft.sensor
        sensor = replace(own, least=own.least + there.least - here.least, most=own.most + there.most - here.most)
        pressure = base.draft.felt(base.pressure, vented=self.stance.arrangement == "vented")
        return _difference(operation, _SENSOR, sensor_elements(sensor.built(pressure))[0])


def at_its_stop(base: Look, *, vented: bool) -> bool:
    """Tell whether the sensor's output is as far past an end of its range as it goes."""
    sensor = base.draft.sensor
    if sensor.stuck is not None:
        return False
    return not sensor.least < sensor.output(base.draft.felt(base.pressure, vented=vented)) < sensor.most


def _drop(operation: Operation, z: Latents) -> float:
    """Return by how much a wire's drop moves with what joints and protectors add to it [V]."""
    amperes = operation.elements[_SUPPLY].currents(operation.places[_SUPPLY], operation.volts)[-1]
    return abs(amperes) * SERIES * in_series(z.run)


def _drives_little(base: Look) -> bool:
    """Tell whether the sensor's output is broken, or stands below what wakes it: what it hangs on inside shows then."""
    operation, sensor = base.operation, base.draft.sensor
    if operation is None or len(operation.regions) <= _SENSOR:
        return False
    return sensor.open_supply or sensor.open_output or operation.regions[_SENSOR] <= _ASLEEP


def at_ease(base: Look) -> bool:
    """Tell whether supply, input and sensor's output work as in a healthy loop: none at a limit, starved or clamped."""
    operation = base.operation
    if operation is None:
        return False
    pairs = zip(operation.elements[: _SENSOR + 1], operation.regions, strict=False)
    return all(element.start == region for element, region in pairs)


def adrift(base: Look) -> bool:
    """Tell whether nothing drives the signal terminal, so that it stands where pull-up and insulation let it."""
    operation = base.operation
    return operation is not None and operation.ohms_between("controller.signal", "controller.common") > ADRIFT_OHM


def moved_values(system: System, stance: Stance, questions: tuple[Question, ...], base: Look) -> Moved:
    """Return, for each latent, each question's value a step further; None where it cannot move."""
    found: dict[str, list[float]] = {}
    operation = base.operation
    if operation is not None:
        changes = _controller_changes(system, base, operation)
        if has_own_sensor(stance.arrangement):
            changes |= _sensor_changes(system, stance, base, operation)
        elif isinstance(base.loop.spare, VoltageSensor) and stance.arrangement.startswith("spare-"):
            changes |= _voltage_changes(base.loop.spare, base, operation, drives=("spare", SPARE_DRIVES))
        for name, change in changes.items():
            found[name] = live_values(operation.moved(change), base, questions)
        found |= _at_the_input(system, stance, questions, base)
        if bleeds(base, operation, base.loop.bleed_ohm):
            found["bleed"] = by_bleed(base, operation, questions)
        if _loaded(base, stance) and bleeds(base, operation, base.loop.other_load_ohm):
            found["load"] = by_other_load(base, operation, questions)
    return [found.get(name) for name in Latents._fields]


def _at_the_input(
    system: System, stance: Stance, questions: tuple[Question, ...], base: Look
) -> dict[str, list[float]]:
    """Return the values with another input, pull-up, insulation or signal source, where it moves them."""
    operation, found = base.operation, {}
    if operation is None:
        return {}
    if base.loop.input.sink_a:
        found["sink"] = by_input_limit(base, operation, questions)
    else:
        found["input"] = by_input(system, base, operation, questions)
    if isfinite(base.loop.input.pull_ohm):
        found["pull"] = by_pull(base, operation, questions)
    if insulation_shows(base.loop, stance.arrangement):
        found["damp"] = by_insulation(base, operation, questions)
    if stance.source is not None and system.unit == "V":
        found["source"] = by_source(base, operation, questions, stance.source)
    return found


def _loaded(base: Look, stance: Stance) -> bool:
    """Tell whether another sound device hangs on the sensor supply."""
    there = base.draft.load_is_sound and isfinite(base.loop.other_load_ohm)
    return there and others_stay(stance.arrangement)


def _controller_changes(system: System, base: Look, operation: Operation) -> dict[str, _Changes]:
    """Return what the controller's supply and clamp draw otherwise a step further."""
    supply = base.loop.supply
    softer = supply._replace(source_ohm=supply.source_ohm * exp(SOFTNESS * STEP))
    found = {
        "supply": _supply(base, operation, base.draft.supply_slope * STEP),
        "softness": _changed_supply(operation, softer),
    }
    if operation.regions[_SUPPLY] == _LIMITED and not _least(system, base):
        found["limit"] = _changed_supply(operation, supply._replace(limit_a=supply.limit_a * exp(_limit(base) * STEP)))
    if operation.regions[_CLAMP] != _UNCLAMPED:
        given = base.loop.input
        wider = given._replace(clamp_v=given.clamp_v * exp(CLAMP * STEP))
        found["clamp"] = _in_its_piece(operation, _CLAMP, clamp_branch(wider))
    return found


def _limit(base: Look) -> float:
    """Return how much one deviation moves the current that the supply gives now, as the logarithm of a factor."""
    return FOLDED if base.loop.supply.limit_a < base.draft.limit_a else LIMIT


def _least(system: System, base: Look) -> bool:
    """Tell whether the supply gives the least that a healthy one gives, which is nobody's choice."""
    return base.draft.fold == 1.0 and base.draft.limit_a <= LEAST_LIMIT_A[system.supply_v < LOW_VOLTS]


def _sensor_changes(system: System, stance: Stance, base: Look, operation: Operation) -> dict[str, _Changes]:
    """Return what the system's own sensor draws and drives otherwise a step further."""
    found = {"sensor": _shifted(stance, base, operation, system.accuracy / 1.8 * STEP)}
    error = ("gauge", -base.standing.sd) if base.standing.second else ("pressure", base.standing.sd)
    for name, sd in (error, ("head", base.standing.drift)):
        if sd:
            found[name] = _sensor(base, operation, base.pressure + sd * STEP)
    if isinstance(base.loop.sensor, VoltageSensor):
        found |= _voltage_changes(base.loop.sensor, base, operation, drives=("drive", DRIVE))
    return found


def _voltage_changes(
    part: VoltageSensor, base: Look, operation: Operation, *, drives: tuple[str, float]
) -> dict[str, _Changes]:
    """Return what a voltage output, the own or a spare's, does otherwise a step further; `drives` by which latent."""
    name, spread = drives
    found = {} if at_ease(base) else {name: _drive(part, operation, exp(spread * STEP))}
    return found | {
        "draw": _draw(part, operation, exp(DRAW * STEP)), "output": _output(part, operation, exp(OUTPUT * STEP))
    }  # fmt: skip


def _difference(operation: Operation, number: int, new: Element) -> _Changes:
    """Return what a changed element draws more than the old one, at the voltages as they are."""
    at = operation.places[number]
    before = operation.elements[number].currents(at, operation.volts)
    after = new.currents(at, operation.volts)
    return [(number, tuple([b - a for a, b in zip(before, after, strict=True)]))]


def _in_its_piece(operation: Operation, number: int, new: Branch) -> _Changes:
    """Return what a changed branch draws more than the old one by the straight line of the piece in which it works."""
    old, region = operation.elements[number], operation.regions[number]
    if not isinstance(old, Branch) or len(old.pieces) != len(new.pieces):
        return _difference(operation, number, new)
    a, b = operation.places[number]
    volt = operation.volts[a] - operation.volts[b]
    (slope, current), (was_slope, was_current) = new.pieces[region], old.pieces[region]
    more = (slope - was_slope) * volt + current - was_current
    return [(number, (more, -more))]


def _supply(base: Look, operation: Operation, part: float) -> _Changes:
    supply = base.loop.supply
    return _changed_supply(operation, supply._replace(volts=supply.volts * (1.0 + part)))


def _changed_supply(operation: Operation, supply: Supply) -> _Changes:
    """Return what another supply draws, once its terminal gives way to the change of its own resistance."""
    old = operation.elements[_SUPPLY]
    new = supply_branch(supply, old.nodes[1])
    region = operation.regions[_SUPPLY]
    if not isinstance(old, Branch) or len(old.pieces) != len(new.pieces):
        return _difference(operation, _SUPPLY, new)
    siemens = new.pieces[region][0] - old.pieces[region][0]
    given = 1.0 / (1.0 + operation.ohms_between(*old.nodes) * siemens)
    return [(number, tuple([given * part for part in parts])) for number, parts in _difference(operation, _SUPPLY, new)]


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


def _drive(part: VoltageSensor, operation: Operation, factor: float) -> _Changes:
    stronger = part._replace(source_a=part.source_a * factor, sink_a=part.sink_a * factor)
    return _difference(operation, _SENSOR, sensor_elements(stronger)[0])


def _output(part: VoltageSensor, operation: Operation, factor: float) -> _Changes:
    weaker = part._replace(output_ohm=part.output_ohm * factor)
    return _difference(operation, _SENSOR, sensor_elements(weaker)[0])


def _draw(part: VoltageSensor, operation: Operation, factor: float) -> _Changes:
    hungrier = part._replace(draw_siemens=part.draw_siemens * factor, draw_a=part.draw_a * factor)
    return _difference(operation, _SENSOR + 1, sensor_elements(hungrier)[1])
