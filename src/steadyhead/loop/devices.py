"""From a part's numbers to the element that stands for it in a circuit.

Everything that affects how a device behaves at its terminals lives in this file.

Rules
-----
1. Supply: `volts` behind `source_ohm`; beyond `limit_a` its voltage gives way. Driven from outside it takes what its
   own divider takes, `BLEED_A`, and next to nothing more: so a supply without load stands on its straight line.
2. Input clamp: nothing from a junction below common up to `clamp_v`, `clamp_ohm` beyond.
3. Voltage sensor: an output stage, the current that it draws, `draw_a` at most, protection diodes at its output where
   it has them, and with its polarity reversed either nothing or a diode. Where nothing flows reversed, what blocks it
   stands between the supply pin and the inside, so that no diode leads from the signal pin out of the supply pin.
4. Two-wire sensor: `wakes_a`, or next to nothing, until it wakes, rising to the current that the pressure asks for,
   constant from there on.
5. Three-wire current sensor: the current that the pressure asks for, as long as it has volts for it.
6. What should let nothing through lets `TRICKLE` through, as silicon does.
7. In every sensor the element that follows the pressure comes first.
"""

from __future__ import annotations

from functools import lru_cache
from math import inf

from steadyhead.loop.elements import Branch, Element, chain
from steadyhead.loop.network import COMMON
from steadyhead.loop.parts import Input, LoopSensor, Sensor, Supply, VoltageSensor
from steadyhead.loop.stages import OutputStage, SourcedCurrent

#: Slope of a part that should let nothing through [S].
TRICKLE = 1e-8
#: A silicon junction's volts, and what its current meets beyond [V, ohm] (common practice).
JUNCTION_V = 0.5
JUNCTION_OHM = 10.0
#: Part of the volts that wake an output from where it drives something at the latest.
DRIVES = 0.8
#: Volts at which an output's protection begins to conduct, as junctions do with microamperes; and those of what a
#: pull-down takes at most, from where it is a junction with some ohms [V, A] (common practice).
PROTECTION_V, PROTECTION_A = (0.35, 0.55), 2e-4
#: What a regulated supply's own divider takes [A] (common practice: tens of microamperes), and what it still takes
#: when it is driven further [S].
BLEED_A = 50e-6
BACKFEED = 1e-6
#: How much of a supply's slope is left beyond its current limit.
LIMITED = 1e-4
#: Conductance of a diode across a three-wire sensor [S].
REVERSE_THREE = 1.0
#: How a two-wire sensor's current still rises with its volts [S] (common practice: some 0.005 % of span a volt); what
#: is left of a broken one does so no more than a resistance would.
RISE = 1e-6
#: A current source's own volts, and those from which it gives way [V]; its slope while it holds its current [S].
SOURCE_V, SOURCE_HOLDS_V = 24.0, 22.0
SOURCE_RISE = 1e-9
#: Parts of which the elements are kept: a loop that is looked at again a step further has most of them.
LIKE = 1024


@lru_cache(maxsize=LIKE)
def supply_branch(supply: Supply, back: str = COMMON) -> Branch:
    """Return the supply as a branch from its terminal back to its zero: limited, straight, or driven from outside."""
    volts, limit = supply.volts, supply.limit_a
    if volts <= 0.0:
        return Branch("controller.supply", back, (), ((BACKFEED, 0.0),), 0)
    siemens = 1.0 / supply.source_ohm
    knee = volts - limit * supply.source_ohm
    soft = siemens * LIMITED
    top = volts + BLEED_A * supply.source_ohm
    pieces = ((soft, -limit - soft * knee), (siemens, -siemens * volts), (BACKFEED, BLEED_A - BACKFEED * top))
    return Branch("controller.supply", back, (knee, top), pieces, 1)


@lru_cache(maxsize=LIKE)
def clamp_branch(given: Input) -> Branch:
    """Return the input's clamp: nothing within its limits, `clamp_ohm` beyond."""
    siemens, top = 1.0 / given.clamp_ohm, given.clamp_v
    excess = siemens - TRICKLE
    pieces = ((siemens, excess * JUNCTION_V), (TRICKLE, 0.0), (siemens, -excess * top))
    return Branch("controller.signal", COMMON, (-JUNCTION_V, top), pieces, 1)


def source_branch(amperes: float) -> Branch:
    """Return an active current source on the signal terminal: it holds its current until it nears its own volts."""
    ends = [(SOURCE_HOLDS_V, -amperes), (SOURCE_V, 0.0)]
    return chain("controller.signal", COMMON, ends, (SOURCE_RISE, SOURCE_RISE), 0)


@lru_cache(maxsize=LIKE)
def sensor_elements(part: Sensor, pins: str = "pin") -> tuple[Element, ...]:
    """Return a sensor as elements on its pins; what follows the pressure comes first."""
    supply, signal, common = f"{pins}.supply", f"{pins}.signal", f"{pins}.common"
    if isinstance(part, VoltageSensor):
        return _voltage_sensor(part, supply, signal, common)
    if isinstance(part, LoopSensor):
        return (loop_branch(part, supply, signal),)
    return (
        SourcedCurrent(supply, signal, common, part.amperes, part.headroom_v, part.wakes_v, part.works_v),
        draw_branch(supply, common, part.draw_siemens, TRICKLE),
    )


def _voltage_sensor(part: VoltageSensor, supply: str, signal: str, common: str) -> tuple[Element, ...]:
    breaks, targets = target_pieces(part)
    back = REVERSE_THREE if part.reverse == "diode" else TRICKLE
    found = (
        OutputStage(supply, signal, common, breaks, targets, 1.0 / part.output_ohm, part.source_a, part.sink_a),
        draw_branch(supply, common, part.draw_siemens, back, part.draw_a, begins=part.draws_v),
    )
    if not part.diodes:
        return found
    inside = (junction(common, signal),)
    return (*found, junction(signal, supply), *inside) if part.reverse == "diode" else (*found, *inside)


def target_pieces(part: VoltageSensor) -> tuple[tuple[float, ...], tuple[tuple[float, float], ...]]:
    """Return where the output wants to be, as straight pieces of the sensor's supply volts.

    With less than `drives_v` it drives nothing; starved it stands at a part of its supply; from `wakes_v` to
    `works_v` it comes to its right value; above it is right, though never nearer than `headroom_v` to its supply.

    Returns
    -------
    tuple
        Supply volts at which pieces begin, the first one where it drives [V], and for each its slope and its volts
        at no supply.
    """
    wakes, works, headroom = part.wakes_v, part.works_v, part.headroom_v
    starved, first = part.starved, min(part.drives_v, DRIVES * wakes)
    if part.volts <= 0.0:
        top: tuple[tuple[float, float], ...] = ((min(part.ratio, 1.0 - headroom / works), 0.0),)
        breaks: tuple[float, ...] = (first, wakes, works)
        at_works = top[0][0] * works
    else:
        at_works = min(part.volts, works - headroom)
        knee = part.volts + headroom
        level = (0.0, part.volts)
        top = (level,) if knee <= works else ((1.0, -headroom), level)
        breaks = (first, wakes, works) if knee <= works else (first, wakes, works, knee)
    slope = (at_works - starved * wakes) / (works - wakes)
    return breaks, ((starved, 0.0), (slope, at_works - slope * works), *top)


def draw_branch(
    supply: str, common: str, siemens: float, back: float, most: float = inf, *, begins: float = 0.0
) -> Branch:
    """Return what a sensor draws from where it `begins`, `most` at most; reversed beyond a junction, `back` siemens."""
    level = (TRICKLE - siemens) * begins
    pieces = ((back, (back - TRICKLE) * JUNCTION_V), (TRICKLE, 0.0), (siemens, level))
    if most == inf:
        return Branch(supply, common, (-JUNCTION_V, begins), pieces, 2)
    soft, knee = siemens * LIMITED, (most - level) / siemens
    return Branch(supply, common, (-JUNCTION_V, begins, knee), (*pieces, (soft, most - soft * knee)), 3)


@lru_cache(maxsize=16)
def junction(a: str, b: str) -> Branch:
    """Return a protection diode that conducts from `a` to `b`."""
    begins, conducts = PROTECTION_V
    points = ((begins, begins * TRICKLE), (conducts, PROTECTION_A))
    return chain(a, b, points, (TRICKLE, 1.0 / JUNCTION_OHM), 0)


def loop_branch(part: LoopSensor, plus: str, minus: str) -> Branch:
    """Return a two-wire sensor: next to nothing until it wakes, then rising to the current that pressure asks for."""
    wakes, least = part.wakes_v, part.least_v
    asleep = max(part.wakes_a / wakes, TRICKLE)
    amperes = max(part.amperes, wakes * asleep)
    back = 1.0 / part.reverse_ohm if part.reverse == "diode" else TRICKLE
    slope = (amperes - wakes * asleep) / (least - wakes)
    rise = min(RISE, amperes / least)
    pieces = (
        (back, (back - TRICKLE) * JUNCTION_V),
        (TRICKLE, 0.0),
        (asleep, 0.0),
        (slope, amperes - slope * least),
        (rise, amperes - rise * least),
    )
    return Branch(plus, minus, (-JUNCTION_V, 0.0, wakes, least), pieces, 4)
