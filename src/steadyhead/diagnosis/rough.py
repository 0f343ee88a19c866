"""A first, quick and generous pass over all cells: which are worth a closer look.

Rules
-----
1. First only the readings of the loop as found take part, about one point of the latents, with a wide allowance for
   all; then, for those that are left, the other readings in the same way, each hook-up by itself.
2. A fault, its place and its regime (which parts are at a limit) stand or fall together: its makes are kept while the
   best of them may yet reach the best of all.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from math import isfinite, log

from steadyhead.diagnosis.cells import Cell
from steadyhead.diagnosis.clamped import past_converter
from steadyhead.diagnosis.conductances import by_input, by_pull, input_spread
from steadyhead.diagnosis.doubt import compared
from steadyhead.diagnosis.lines import Group, Kept, shakes, span, width_off
from steadyhead.diagnosis.looking import STEP, Look
from steadyhead.diagnosis.makes import COMMON, FEW, Latents
from steadyhead.diagnosis.observing import Observation
from steadyhead.diagnosis.sensor_power import OTHER_AT, fall, rise
from steadyhead.diagnosis.slopes import Moved, Spot, adrift, at_ease, moved_values
from steadyhead.diagnosis.system import System
from steadyhead.errors import CircuitError
from steadyhead.loop.solve import Operation
from steadyhead.loop.vocabulary import METER_MEASURES
from steadyhead.loop.wiring import powers_sensor

#: Suspects whose rough fit is this much worse than the best, in logarithms, are looked at no further; and makes of one
#: suspect beside its best.
HOPELESS, HOPELESS_MAKE = 6.0, 4.0
#: A supply that keeps less than this of its volts gives way under its load.
PULLED_DOWN = 0.97
#: Elements whose regions make a regime (supply, clamp, sensor's output and draw), and the most regimes of one suspect.
REGIME, REGIMES = 4, 3
#: Rough allowance for all latents, in parts of the signal's or the display's span.
ROUGH = 0.05
#: A rough fit that costs less than this, in logarithms, needs no other start.
FITTING = 1.5
#: Makes of each suspect that are tried where the first came to nothing.
OTHER_STARTS = 2
#: Where a cell whose supply gives way is looked at too: with a supply that gives more, in deviations.
STRONG_SUPPLY = 2.2
#: Sizes at which a cell is looked at too where all its parts are at ease and the readings far off, in deviations:
#: behind a corner, a supply gives way or an output stops.
EXTREMES = (-1.5, 1.5)
#: What else moves a current loop whose parts are at their limits: what its sensor needs, and what its protection lets
#: through where it is the wrong way round.
AT_LIMITS = ("starved", "draw")
#: The make for which that is done: the one whose supply gives way first.
AT_EXTREMES = FEW[1]
#: What two of the few makes, with junctions at their outputs and without, are looked at with too where nothing drives
#: the signal, in deviations: a strong pull-up, and an output that hangs on little inside the sensor.
HANGS_ON: tuple[dict[str, float], ...] = ({"pull": -1.5}, {"output": -1.4})


#: A pull-up that shows as soon as nothing drives the signal [deviations], and from how much missed on it is tried.
PULLED, PULLED_WHERE = -1.4, 4.0


@dataclass(frozen=True, slots=True)
class Start:
    """A cell's first look at the readings of the loop as found, kept for the second.

    `prior` is the logarithm of its weight and of the chance of all words, `score` that of its rough weight, `unmetered`
    the same without the meter's readings; `at` the latents that were looked at. `near` tells how near the readings are
    to what that very point shows, no size moved: of a suspect's starts that may all yet fit, the nearest is begun with.
    """

    cell: Cell
    prior: float
    score: float
    unmetered: float
    at: Latents
    looks: Kept
    easy: bool = True
    limited: bool = False
    near: float = 0.0

    @property
    def reach(self) -> float:
        """Its rough score, with the complaint or without it: words exclude nothing."""
        return max(self.score, self.score - log(self.cell.said))

    @property
    def key(self) -> tuple[object, ...]:
        """The suspect, its place and its regime, which cells have in common."""
        regimes = [base.regions[:REGIME] for base, _ in self.looks.values() if base.regions is not None]
        return *self.cell.key, *regimes


#: Makes that stand for all in the second round, after `FEW`, and how much less the best of the first may reach.
MORE, ALLOWED = frozenset(COMMON[::2]), 2.0


def first_pass(system: System, cells: Sequence[tuple[float, Cell]], groups: Sequence[Group]) -> list[Start]:
    """Return the rough fits of a few makes of every suspect, and of more makes of those that may count.

    Where parts are at their limits all makes are looked at, since there the makes differ most.

    `cells` come with the logarithm of their weight and of the chance of all words.
    """
    connected = [group for group in groups if group.stance.arrangement == "connected"]
    rough = _Rough(system, connected)
    few = [rough.fit(cell, prior) for prior, cell in cells if cell.make in FEW]
    least = max(start.score for start in few) - HOPELESS - ALLOWED
    alive = {start.cell.key for start in few if start.reach > least}
    strained = {start.cell.key for start in few if not start.easy}
    rest = [
        rough.fit(cell, prior)
        for prior, cell in cells
        if cell.make not in FEW and cell.key in alive and (cell.make in MORE or cell.key in strained)
    ]
    return few + rest


class _Rough:
    """The first pass over one visit; where a break or a leak sits in a cable is all one from the terminals."""

    def __init__(self, system: System, groups: Sequence[Group]) -> None:
        self._system, self._groups = system, groups
        self._all_one = not any(
            point is not None and point.startswith("sensor.")
            for group in groups
            for q in group.questions
            for point in (q.red, q.black)
        )
        self._known: dict[tuple[object, ...], Start] = {}

    def fit(self, cell: Cell, prior: float) -> Start:
        """Return a cell's rough fit, another place's where both look alike."""
        if not self._all_one or not cell.in_the_cable:
            return rough_fit(self._system, cell, prior, self._groups)
        key = (cell.fault, cell.make)
        if key not in self._known:
            self._known[key] = rough_fit(self._system, cell, 0.0, self._groups)
        seen = self._known[key]
        return replace(
            seen, cell=cell, prior=prior, score=seen.score + prior, unmetered=seen.unmetered + prior
        )


def promising(starts: Sequence[Start], least: float) -> list[list[Start]]:
    """Return the starts of each suspect and place that may yet come to `least`, best first, the best suspect first."""
    together: dict[tuple[object, ...], list[Start]] = {}
    for start in sorted(starts, key=lambda s: -s.score):
        if start.reach > least - HOPELESS_MAKE:
            together.setdefault(start.key, []).append(start)
    found, regimes = [], Counter[tuple[object, ...]]()
    for key, held in together.items():
        regimes[key[:2]] += 1
        if held[0].reach > least and regimes[key[:2]] <= REGIMES:
            those = [start for start in held if start.score > held[0].score - HOPELESS_MAKE]
            found.append(sorted(those, key=lambda start: -start.score - start.near))
    return found


def narrowed(
    system: System, suspects: Sequence[Sequence[Start]], groups: Sequence[Group], most: int | None = None
) -> list[Sequence[Start]]:
    """Return the suspects that may yet count by the readings that were not taken as found, as roughly and generously.

    Each of these groups by itself: one that no size explains there is not saved by another. Of more than `most`, if
    that is given, those are left that promise most by all readings.
    """
    others = [group for group in groups if group.stance.arrangement != "connected"]
    if not others:
        return [*suspects][:most]
    seen = [
        [each for start in starts[:OTHER_STARTS] for each in _further(system, start, others)] for starts in suspects
    ]
    best = max(start.score for starts in seen for start in starts)
    left = [starts for starts in seen if max(start.reach for start in starts) > best - HOPELESS - ALLOWED]
    if most is not None:
        left.sort(key=lambda starts: -max(start.score for start in starts))
    return [*left[:most]]


def _further(system: System, start: Start, groups: Sequence[Group]) -> list[Start]:
    """Return a start with the rough misses of more readings; where these miss, with a pull-up at work too, if nearer.

    A pull-up that shows may be anything by volts: what it excludes is judged with it, where a fit begins without.
    """
    plain = _rough_at(system, start.cell, 0.0, groups, start.at)
    if system.unit != "V" or plain.score > -PULLED_WHERE or start.at.pull:
        return [_with(start, plain, plain.score)]
    pulled = _rough_at(system, start.cell, -1.0, groups, start.at._replace(pull=PULLED))
    best = max(plain.score, pulled.score)
    found = [_with(start, plain, best)]
    return [_with(replace(start, at=pulled.at, looks={}), pulled, best), *found] if pulled.near > plain.near else found


def _with(start: Start, more: Start, score: float) -> Start:
    """Return a start with the looks at more readings, and their rough score."""
    return replace(
        start, score=start.score + score, near=start.near + more.near, looks={**start.looks, **more.looks}
    )


def rough_fit(system: System, cell: Cell, prior: float, groups: Sequence[Group]) -> Start:
    """Return a quick, generous fit from the readings of the loop as found."""
    start = _rough_at(system, cell, prior, groups, cell.begins)
    if system.supply_unsaid:
        other = _rough_at(system, cell, prior, groups, cell.begins._replace(supply=OTHER_AT))
        start = other if other.near > start.near else start
    if len(cell.parts) > 1 or start.score > prior - FITTING:
        return start
    if not start.easy:
        tried = [start.at._replace(limit=STRONG_SUPPLY)] if start.limited else []
    elif start.score < prior - HOPELESS and cell.make == AT_EXTREMES:
        tried = [start.at._replace(**dict.fromkeys(cell.sizes, z)) for z in EXTREMES] if cell.sizes else []
    else:
        tried = []
    if cell.make in FEW[1:] and any(adrift(base) for base, _ in start.looks.values()):
        tried += [start.at._replace(**hung) for hung in HANGS_ON]
    others = [_rough_at(system, cell, prior, groups, at) for at in tried]
    return max([start, *(replace(other, score=other.score - 1.0) for other in others)], key=lambda found: found.score)


def _rough_at(system: System, cell: Cell, prior: float, groups: Sequence[Group], at: Latents) -> Start:
    """Return the rough fit at one point of the latents."""
    looks: Kept = {}
    unmetered, score, near, easy, limited = prior, prior, 0.0, True, False
    for group in groups:
        try:
            kept, misses = _missed(system, cell, at, group)
        except CircuitError:
            return Start(cell, prior, float("-inf"), float("-inf"), at, {})
        if cell.comes_and_goes:
            away = _missed(system, cell.away(), at, group)[1]
            misses = [max(a, b) for a, b in zip(misses, away, strict=True)]
        near += _near(system, group, kept[0])
        looks[group.stance] = kept
        base = kept[0]
        at_rest = at_ease(base)
        shown = [m for m, o in zip(misses, group.observations, strict=True) if o.question.measure not in METER_MEASURES]
        together = sum if at_rest else _worst
        score += together(misses)
        unmetered += together(shown)
        easy = easy and at_rest
        limited = limited or (base.regions is not None and base.regions[0] == 0)
    return Start(cell, prior, score, unmetered, at, looks, easy, limited, near)


def _near(system: System, group: Group, base: Look) -> float:
    """Return how near a group's figures are to what one point shows, seen from afar: below zero by a logarithm."""
    found = 0.0
    for k, o in enumerate(group.observations):
        if o.question.measure != "displayed-fault":
            width = ROUGH * span(system, o.question.measure)
            off = (o.value - compared(o.question.measure, base.values[k])) / width
            found -= log(1.0 + off * off)
    return found


def _missed(
    system: System, cell: Cell, at: Latents, group: Group
) -> tuple[tuple[Look, Mapping[str, list[float]]], list[float]]:
    """Return the look at a group's readings with what its sizes move, and what each reading misses."""
    spot = Spot(system, cell, at, group.stance, group.questions, keep=True)
    key = (cell.parts, cell.make, at, group.stance, group.questions)
    base, by_size, moved = system.known.of(key, lambda: _moved(spot))
    return (base, by_size), [_miss(system, o, k, base, moved) for k, o in enumerate(group.observations)]


def _moved(spot: Spot) -> tuple[Look, Mapping[str, list[float]], Moved]:
    """Return the look at one spot, what the fault's sizes move there, and all that moves, as far as it counts here."""
    base = spot.look()
    by_size = spot.by_size(base)
    moved: Moved = [*by_size.values()]
    if not at_ease(base) or pulled_down(base):
        moved += moved_values(spot.system, spot.stance, spot.questions, base)
        if spot.system.unit == "A" and base.operation is not None and powers_sensor(spot.stance.arrangement):
            moved += [spot.further(name, base) for name in AT_LIMITS]
    elif base.operation is not None and spot.stance.arrangement != "connected" and adrift(base):
        moved += _where_it_drifts(spot, base, base.operation)
    return base, by_size, moved


def _where_it_drifts(spot: Spot, base: Look, operation: Operation) -> Moved:
    """Return how far pull-up and input move what nothing drives: by volts, and both are known by decades only."""
    if not isfinite(base.loop.input.pull_ohm):
        return []
    return [by_pull(base, operation, spot.questions), by_input(spot.system, base, operation, spot.questions)]


def _volts_unknown(system: System, o: Observation, base: Look, *, above: bool) -> float:
    """Return how far volts may be off by the supply and by a current input's burden, as a variance [V2].

    Where they are `above` what was foretold, the supply may be one that nothing regulates; below, another one.
    """
    if o.question.measure != "volts" or base.operation is None:
        return 0.0
    ends = {point.partition(".")[2] for point in (o.question.red, o.question.black) if point is not None}
    spread_ = rise(system) if above else fall(system)
    by_supply = spread_ * system.supply_v if "supply" in ends else 0.0
    if system.unit == "V" or "signal" not in ends:
        return by_supply**2
    return by_supply**2 + (input_spread(system) * base.operation.volt("controller.signal")) ** 2


def pulled_down(base: Look) -> bool:
    """Tell whether the supply gives way under its load, so that how soft it is matters."""
    operation = base.operation
    return operation is not None and operation.volt("controller.supply") < PULLED_DOWN * base.loop.supply.volts


def _worst(misses: Sequence[float]) -> float:
    """Return the worst miss: at a limit, one number that is not yet right throws all readings off together."""
    return min(misses, default=0.0)


def _miss(system: System, o: Observation, k: int, base: Look, moved: Moved) -> float:
    measure = o.question.measure
    if measure == "displayed-fault":
        return 0.0
    value = compared(measure, base.values[k])
    width = span(system, measure)
    unsure = ROUGH + base.jump + min((o.stance.pressure.sd + o.stance.pressure.drift) / system.range.width, 0.3)
    wide = o.sd**2 + (unsure * width) ** 2 + _volts_unknown(system, o, base, above=o.value > value)
    wide += sum(((compared(measure, m[k]) - value) / STEP) ** 2 for m in moved if m is not None)
    miss = o.value - value
    if base.jump and o.jumping and shakes(o.question):
        return -min(width_off(o, base.jump, width), 6.0)
    if (o.side == "above" and miss < 0) or (o.side == "below" and miss > 0):
        return 0.0
    if past_converter(base.loop.screen, measure, o.value, value, wide) is not None:
        return 0.0
    return max(-0.3 * miss * miss / wide, -6.0)
