"""How readings move with conductances that no element stands for: the input's own, its pull-up, damp, another load.

Rules
-----
1. A changed conductance takes another current at the voltages as they are, once its terminal gives way to it: the
   solved circuit answers that with one substitution.
2. What a meter leaves of a voltage is counted again where it takes a part of it.
"""

from __future__ import annotations

from math import exp

from steadyhead.diagnosis.looking import STEP, Look, led, live_values
from steadyhead.diagnosis.makes import BLEED, INPUT, INPUT_LIMIT, INSULATION, OTHER_LOAD, SIGNAL_SOURCE
from steadyhead.diagnosis.observing import Question
from steadyhead.diagnosis.protected_input import shown
from steadyhead.diagnosis.pull_up import pull_slope
from steadyhead.diagnosis.system import System
from steadyhead.loop.network import COMMON
from steadyhead.loop.solve import Operation

#: A meter that takes more than this part of a voltage away makes the input's resistance count twice.
LOADED = 0.9985
#: What moves a supply by less than this part of its volts is left out.
SEEN = 3e-5


def by_input(system: System, base: Look, operation: Operation, questions: tuple[Question, ...]) -> list[float]:
    """Return the values with another input resistance, which is no element but a conductance.

    A burden that nobody read is known to the controller all the same.
    """
    ohm = base.loop.input.ohm
    other = ohm * exp(input_spread(system) * STEP)
    siemens = 1.0 / other - 1.0 / ohm
    moved = operation.pushed("controller.signal", -_through(operation, siemens, 0.0))
    base = _reloaded(base, operation, questions, siemens)
    if system.unit == "A" and system.visit.controller.input_resistance_ohm is None:
        screen = base.loop.screen._replace(burden_ohm=base.loop.screen.burden_ohm * other / ohm)
        base = base._replace(loop=base.loop._replace(screen=screen))
    return live_values(moved, base, questions)


def by_input_limit(base: Look, operation: Operation, questions: tuple[Question, ...]) -> list[float]:
    """Return the values where an input at its own limit lets more through."""
    given = base.loop.input
    more = given.sink_a * exp(INPUT_LIMIT * STEP)
    moved = operation.pushed("controller.signal", given.sink_a - more)
    loop = shown(base.loop._replace(input=given._replace(sink_a=more)), base.draft.input_ohm)
    return live_values(moved, base._replace(loop=loop), questions)


def by_pull(base: Look, operation: Operation, questions: tuple[Question, ...]) -> list[float]:
    """Return the values with a weaker pull-up."""
    given = base.loop.input
    siemens = (exp(-pull_slope(given.pull_ohm) * STEP) - 1.0) / given.pull_ohm
    moved = operation.pushed("controller.signal", -_through(operation, siemens, given.pull_v))
    return live_values(moved, _reloaded(base, operation, questions, siemens), questions)


def by_insulation(base: Look, operation: Operation, questions: tuple[Question, ...]) -> list[float]:
    """Return the values with a damper cable, whose supply wire lies on the supply's terminal."""
    siemens = (exp(INSULATION * STEP) - 1.0) / base.loop.insulation_ohm
    moved = operation.pushed("controller.signal", -_through(operation, siemens, operation.volt("controller.supply")))
    return live_values(moved, _reloaded(base, operation, questions, siemens), questions)


def by_source(base: Look, operation: Operation, questions: tuple[Question, ...], volts: float) -> list[float]:
    """Return the values with more resistance before the `volts` of a signal source."""
    siemens = (exp(-SIGNAL_SOURCE * STEP) - 1.0) / base.loop.signal_source_ohm
    moved = operation.pushed("controller.signal", -_through(operation, siemens, volts))
    return live_values(moved, _reloaded(base, operation, questions, siemens), questions)


def _reloaded(base: Look, operation: Operation, questions: tuple[Question, ...], siemens: float) -> Look:
    """Return the look with what the meter leaves of each voltage once a conductance is added at the signal terminal.

    With R the ohms that the meter sees, r those of the terminal and t the volts that an ampere into the terminal makes
    at the meter, the meter sees ``R - g t^2 / (1 + g r)``.
    """
    if all(loading > LOADED for loading in base.loading):
        return base
    part = siemens / (1.0 + siemens * operation.ohms_between("controller.signal", "controller.common"))
    pushed = operation.pushed("controller.signal", 1.0)
    found = []
    for q, loading in zip(questions, base.loading, strict=True):
        red, black = led(base.draft, q)
        if loading > LOADED or red is None or black is None:
            found.append(loading)
            continue
        across = pushed.between(red, black) - operation.between(red, black)
        meter = base.draft.voltmeter_ohm
        seen = max(meter * (1.0 / loading - 1.0) - part * across * across, 0.0)
        found.append(meter / (meter + seen))
    return base._replace(loading=found)


def bleeds(base: Look, operation: Operation, ohm: float) -> bool:
    """Tell whether what so many ohms take from the sensor supply moves that supply's volts."""
    supply, back = base.loop.supply, _back(base)
    amperes = operation.between("controller.supply", back) / ohm
    return abs(amperes) * operation.ohms_between("controller.supply", back) > SEEN * supply.volts


def by_bleed(base: Look, operation: Operation, questions: tuple[Question, ...]) -> list[float]:
    """Return the values where the controller itself takes more from its sensor supply."""
    return _by_load(base, operation, questions, (exp(BLEED * STEP) - 1.0) / base.loop.bleed_ohm)


def by_other_load(base: Look, operation: Operation, questions: tuple[Question, ...]) -> list[float]:
    """Return the values where a sound device on the same supply takes more."""
    return _by_load(base, operation, questions, (exp(OTHER_LOAD * STEP) - 1.0) / base.loop.other_load_ohm)


def _by_load(base: Look, operation: Operation, questions: tuple[Question, ...], siemens: float) -> list[float]:
    """Return the values with a conductance added at the sensor supply's terminal."""
    back = _back(base)
    given = 1.0 / (1.0 + operation.ohms_between("controller.supply", back) * siemens)
    through = operation.between("controller.supply", back) * siemens * given
    return live_values(operation.pushed("controller.supply", -through), base, questions)


def _back(base: Look) -> str:
    return "supply.return" if base.loop.return_ohm else COMMON


def _through(operation: Operation, siemens: float, back_v: float) -> float:
    """Return what a conductance added from the signal terminal to `back_v` takes, once the terminal gives way to it."""
    behind = operation.ohms_between("controller.signal", "controller.common")
    return (operation.volt("controller.signal") - back_v) * siemens / (1.0 + behind * siemens)


def input_spread(system: System) -> float:
    """Return how far the input's resistance may be from its middle, as the logarithm of a factor."""
    given = system.visit.controller.input_resistance_ohm is not None
    return INPUT[system.unit][0 if given else 1]
