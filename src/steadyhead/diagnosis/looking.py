"""One cell looked at: the loop solved as it stands, and what each instrument shows of it."""

from __future__ import annotations

from math import inf
from typing import NamedTuple

from steadyhead.diagnosis.beside import off_pa
from steadyhead.diagnosis.cells import Cell
from steadyhead.diagnosis.makes import Latents
from steadyhead.diagnosis.observing import Question, Stance
from steadyhead.diagnosis.protected_input import at_its_limit
from steadyhead.diagnosis.system import System
from steadyhead.loop import readings as instruments
from steadyhead.loop.draft import LoopDraft
from steadyhead.loop.parts import Loop, Wire
from steadyhead.loop.solve import Operation
from steadyhead.loop.wiring import DEAD, PLUG_ON

#: Number of the input's clamp among a circuit's elements, and of the first one after the sensor's output and draw.
_CLAMP, _SENSOR_AND_DRAW = 1, 4
#: Step of a slope, in standard deviations of the latent.
STEP = 0.4
#: Points that every powered circuit has.
_ALWAYS_THERE = frozenset(("controller.supply", "controller.signal", "controller.common"))
#: The wire that each of the plug's contacts ends.
_MEETS: dict[str | None, Wire] = {"sensor.supply": "supply", "sensor.signal": "signal", "sensor.common": "common"}


class Standing(NamedTuple):
    """The pressure in the pipe under one cell: its middle, and what the gauge's error and a drift leave open [Pa].

    Under a vacuum a pinned gauge, or none, leaves anything down to a good vacuum open.
    """

    middle: float
    sd: float
    drift: float
    second: bool = False

    def at(self, z: Latents) -> float:
        """Return the pressure at one point of the latents [Pa]."""
        error = -z.gauge if self.second else z.pressure
        return self.middle + self.sd * error + self.drift * z.head


def standing(cell: Cell, draft: LoopDraft, stance: Stance) -> Standing:
    """Return where the pressure stands under one cell."""
    if stance.arrangement == "vented":
        return Standing(0.0, 0.0, 0.0)
    pressure = stance.pressure
    if cell.has("vacuum") and pressure.known != "gauge":
        return Standing(-45e3, pressure.sd, 22e3, second=pressure.second)
    middle = pressure.pa - off_pa(draft, pressure.whose)
    return Standing(middle, pressure.sd, pressure.drift, second=pressure.second)


def asked_points(questions: tuple[Question, ...]) -> frozenset[str]:
    """Return the points on which a lead is held in any of the questions."""
    return frozenset(p for q in questions for p in (q.red, q.black) if p is not None)


class Look(NamedTuple):
    """One cell at one point of its latents, in one stance: the solved loop, and what each question would show.

    `values` are in SI units; `signal` is what the controller takes its input for [V or A].
    """

    draft: LoopDraft
    loop: Loop
    standing: Standing
    pressure: float
    operation: Operation | None
    values: list[float]
    signal: float
    #: For each question, what is left of a voltage once the meter hangs on it.
    loading: list[float]

    @property
    def regions(self) -> tuple[int, ...] | None:
        """Regions of the solved circuit's elements, for a guess; None on a loop without power."""
        return None if self.operation is None else self.operation.regions

    @property
    def junctions(self) -> bool:
        """Whether a current flows through a silicon junction, whose volts are known to some tens of millivolts only."""
        operation = self.operation
        if operation is None:
            return False
        beyond = zip(operation.elements[_SENSOR_AND_DRAW:], operation.regions[_SENSOR_AND_DRAW:], strict=False)
        return operation.regions[_CLAMP] == 0 or any(element.start != region for element, region in beyond)

    @property
    def overloaded(self) -> bool:
        """Whether the supply gives all that it can."""
        return self.operation is not None and _overloaded(self.operation)

    @property
    def jump(self) -> float:
        """Part of span by which figures jump."""
        return self.draft.jump


class Solved(NamedTuple):
    """One cell at one point of its latents, in one stance, whatever is asked there."""

    draft: LoopDraft
    loop: Loop
    standing: Standing
    pressure: float
    operation: Operation | None


class Drafts:
    """The loops of one cell: drafted once at each point, and built once at each pressure there, for all stances."""

    __slots__ = ("_built", "_drafted")

    def __init__(self) -> None:
        self._drafted: dict[tuple[Latents, bool, bool], LoopDraft] = {}
        self._built: dict[tuple[int, float, bool], Loop] = {}

    def drafted(self, system: System, cell: Cell, z: Latents, stance: Stance) -> LoopDraft:
        """Return the cell's loop at a point, for whoever changes nothing in it."""
        spare, quiet = stance.arrangement.startswith("spare-"), stance.quiet
        draft = self._drafted.get((z, spare, quiet))
        if draft is None:
            draft = self._drafted[z, spare, quiet] = cell.draft(system, z, spare=spare, quiet=quiet)
        return draft

    def built(self, draft: LoopDraft, pressure: float, stance: Stance) -> Loop:
        """Return one of these drafts as a loop, at a pressure in the pipe [Pa]."""
        key = id(draft), pressure, stance.arrangement == "vented"
        loop = self._built.get(key)
        if loop is None:
            loop = self._built[key] = draft.built(pressure, vented=key[2])
        return loop


def look(
    system: System,
    cell: Cell,
    z: Latents,
    stance: Stance,
    questions: tuple[Question, ...],
    *,
    guess: tuple[int, ...] | None = None,
    keep: bool = False,
    drafts: Drafts | None = None,
) -> Look:
    """Return what each question would show at one point of a cell; `guess` are a like circuit's regions.

    With `keep` the system's memory answers, and remembers, what depends on no question; `drafts` are the cell's own.
    """
    asked = asked_points(questions) - _ALWAYS_THERE
    own = drafts or Drafts()
    if keep:
        key = (cell.parts, cell.make, z, stance, asked)
        solved = system.known.of(key, lambda: _solved(system, cell, z, stance, asked=asked, guess=guess, drafts=own))
    else:
        solved = _solved(system, cell, z, stance, asked=asked, guess=guess, drafts=own)
    draft, loop, stood, pressure, operation = solved
    if operation is None:
        values = [_dead_value(loop, draft, q) for q in questions]
        return Look(draft, loop, stood, pressure, None, values, 0.0, [])
    signal = instruments.seen_signal(operation, loop.screen)
    loading = [_loading(operation, draft, q) for q in questions]
    found = Look(draft, loop, stood, pressure, operation, [], signal, loading)
    found.values.extend(live_values(operation, found, questions))
    return found


def _solved(
    system: System,
    cell: Cell,
    z: Latents,
    stance: Stance,
    *,
    asked: frozenset[str],
    guess: tuple[int, ...] | None,
    drafts: Drafts,
) -> Solved:
    """Return the loop of a cell, drafted, built and solved; a loop without power is solved question by question."""
    draft = drafts.drafted(system, cell, z, stance)
    stood = standing(cell, draft, stance)
    pressure = stood.at(z)
    loop = drafts.built(draft, pressure, stance)
    if stance.arrangement in DEAD:
        return Solved(draft, loop, stood, pressure, None)
    operation = instruments.at_rest(loop, stance.arrangement, stance.source, asked, guess)
    if draft.input_limit_a < inf:

        def again(changed: Loop) -> Operation:
            return instruments.at_rest(changed, stance.arrangement, stance.source, asked, operation.regions)

        loop, operation = at_its_limit(loop, operation, draft.input_limit_a, again)
    if draft.fold < 1.0 and _overloaded(operation):
        loop = _folded(loop, draft.fold)
        operation = instruments.at_rest(loop, stance.arrangement, stance.source, asked, operation.regions)
    return Solved(draft, loop, stood, pressure, operation)


def _overloaded(operation: Operation) -> bool:
    """Tell whether the supply is past the piece in which a healthy one works."""
    return operation.regions[0] < operation.elements[0].start


def _folded(loop: Loop, fold: float) -> Loop:
    """Return the loop with its overloaded supply giving only what it gives then."""
    return loop._replace(supply=loop.supply._replace(limit_a=loop.supply.limit_a * fold))


def _loading(operation: Operation, draft: LoopDraft, q: Question) -> float:
    red, black = led(draft, q)
    if q.measure != "volts" or red is None or black is None:
        return 1.0
    ohm = operation.ohms_between(red, black)
    return draft.voltmeter_ohm / (draft.voltmeter_ohm + ohm)


def led(draft: LoopDraft, q: Question) -> tuple[str | None, str | None]:
    """Return the points that the leads touch: with the plug on the cable's contacts, or the pins that these meet."""
    if not draft.at_pins or q.arrangement not in PLUG_ON:
        return q.red, q.black
    return _met(draft, q.red), _met(draft, q.black)


def _met(draft: LoopDraft, point: str | None) -> str | None:
    if point not in _MEETS:
        return point
    wire = _MEETS[point]
    return f"pin.{draft.pinout.get(wire, wire)}"


def live_values(operation: Operation, base: Look, questions: tuple[Question, ...]) -> list[float]:
    """Return what each question shows at an operating point of a loop that was looked at."""
    signal = instruments.seen_signal(operation, base.loop.screen)
    return [
        _live_value(operation, base, signal, q) * loading
        for q, loading in zip(questions, base.loading, strict=True)
    ]


def _dead_value(loop: Loop, draft: LoopDraft, q: Question) -> float:
    if q.red is None or q.black is None:
        return 0.0
    if q.measure == "volts":
        return instruments.dead_volts(loop, q.arrangement, q.red, q.black) * draft.meter_volts
    return instruments.ohms(loop, q.arrangement, q.red, q.black) * (draft.meter_ohms or 1e9)


def _live_value(operation: Operation, base: Look, signal: float, q: Question) -> float:
    measure, draft = q.measure, base.draft
    if measure in {"displayed-pressure", "displayed-signal", "gauge-pressure"}:
        return _shown_value(base, signal, q)
    if measure == "volts-ac":
        return draft.noise_v * (1.0 if q.red and "signal" in q.red else 0.2)
    if measure == "milliamps":
        return instruments.milliammeter(operation, base.loop) * draft.meter_milliamps
    red, black = led(draft, q)
    if red is None or black is None:
        return 0.0
    return operation.between(red, black) * draft.meter_volts


def _shown_value(base: Look, signal: float, q: Question) -> float:
    """Return what a display or a gauge shows."""
    if q.measure == "gauge-pressure":
        return base.pressure + off_pa(base.draft, q.whose or "")
    return signal if q.measure == "displayed-signal" else instruments.shown_pressure(signal, base.loop.screen)
