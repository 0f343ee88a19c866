"""What one cell predicts of a group of readings: for each a straight line in the cell's latents.

Rules
-----
1. A figure's line is its residual at the point that was looked at and its slopes there.
2. A fault that comes and goes stands either way at each reading: the line is that of the fitter state, its chance that
   of both; a figure that jumps between them has its ends in the two states.
3. A junction that carries the signal is off the model by the same volts at all figures of the signal; where wires are
   crossed, so that one of them may sit elsewhere, each figure has a doubt of its own beside that.
4. Interference shifts the mean of all figures that it can reach by one unknown part of its size, and each a little by
   itself; a figure that jumps is expected of it, one that stands still less.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from math import exp, log, pi, sqrt

from steadyhead.diagnosis.cells import Cell
from steadyhead.diagnosis.clamped import as_shown, past_converter
from steadyhead.diagnosis.doubt import compared, shown_chances
from steadyhead.diagnosis.evidence import Line
from steadyhead.diagnosis.looking import STEP, Drafts, Look
from steadyhead.diagnosis.makes import Latents
from steadyhead.diagnosis.observing import Observation, Question, Stance
from steadyhead.diagnosis.slopes import NOTHING_KNOWN, Moved, Spot
from steadyhead.diagnosis.system import System
from steadyhead.loop.vocabulary import METER_MEASURES

#: A figure that jumps by this part of the span looks steady half of the time.
STEADY = 0.012
#: Chance that a meter, which shows a mean, stands still where interference shakes the signal.
MEAN_STANDS = 0.8
#: Chance that a fault which comes and goes is away at a reading, that it comes and goes within one, and within minutes.
AWAY, WITHIN, WITHIN_MINUTES = 0.6, 0.35, 0.85
#: Logarithm of a chance so small that the controller shows this word all the same.
UNHEARD = 0.004
#: Chance that a steady fault's figure jumps, and that a bad contact's does.
JUMPS, CONTACT_JUMPS = 0.03, 0.12
#: Chance that an overloaded supply starts again and again.
STARTS_AGAIN = 0.15
#: Chance that another figure jumps where one did.
JUMPS_TOO = 0.5
#: How far a junction's volts are from the model's: a tenth of a volt a decade of current, from microamperes to tens of
#: milliamperes, 2 mV a degree, and Schottky barriers at half of silicon's [V].
JUNCTION_V = 0.12
#: How far a wet joint's ohms are from those that it has in the loop, as the logarithm of a factor: they differ with the
#: current's direction and size, and from minute to minute (common practice).
DAMP = 0.4
#: What part of that variance all figures share where wires are crossed.
CROSSED = 0.9
#: Part of the difference between a meter of 10 Mohm and one of 1 Mohm that is taken for doubt.
LOADING = 0.5
#: How far interference shifts the mean of what it shakes, which all such figures share, and how far each by itself:
#: standard deviations, in parts of the jump (common practice).
SHIFTED, SHIFTED_ALONE = 0.5, 0.08
_SHAKEN, _JUNCTION = (Latents._fields.index(name) for name in ("shaken", "junction"))
#: Spread of interference's size about the cell's own, as a logarithm.
JUMP_SPREAD = 0.7


@dataclass(frozen=True, slots=True)
class Group:
    """Readings that share a stance."""

    stance: Stance
    observations: tuple[Observation, ...]

    @property
    def questions(self) -> tuple[Question, ...]:
        """What was asked, in the same order."""
        return tuple(o.question for o in self.observations)


#: Looks at one point of the latents and what the fault's size moves there.
Kept = dict[Stance, tuple[Look, Mapping[str, list[float]]]]


@dataclass(frozen=True, slots=True)
class Looks:
    """Looks at one point of a cell, kept for whoever looks there again; those `near` by tell the regions of parts."""

    here: Kept
    near: Kept
    #: The cell's loops at this point and about it.
    drafts: Drafts = field(default_factory=Drafts)
    #: Whether the system's memory keeps what is solved here.
    keep: bool = False

    def nearest(self, stance: Stance) -> Look | None:
        """Return the look near by in a stance, if there is one."""
        return self.near[stance][0] if stance in self.near else None


def lines(system: System, cell: Cell, at: Latents, group: Group, looks: Looks) -> list[Line]:
    """Return what a cell predicts of a group of readings, about one point of its latents."""
    found = _of_one_state(system, cell, at, group, looks)
    if not cell.comes_and_goes:
        return found
    away = _of_one_state(system, cell.away(), at, group, Looks({}, {}))
    return [line for here, gone in zip(found, away, strict=True) for line in either(here, gone)]


def bare(system: System, cell: Cell, at: Latents, group: Group, looks: Looks) -> list[Line]:
    """Return the same without slopes: what a cell predicts at this very point; its look is kept for the slopes."""
    found = _bare_state(system, cell, at, group, looks)
    if not cell.comes_and_goes:
        return found
    away = _bare_state(system, cell.away(), at, group, Looks({}, {}))
    return [line for here, gone in zip(found, away, strict=True) for line in either(here, gone)]


def _bare_state(system: System, cell: Cell, at: Latents, group: Group, looks: Looks) -> list[Line]:
    spot = Spot(system, cell, at, group.stance, group.questions, looks.drafts, keep=looks.keep)
    base = spot.look(looks.nearest(group.stance))
    looks.here[group.stance] = base, NOTHING_KNOWN
    return [_line(system, cell, o, k, (base, [], at)) for k, o in enumerate(group.observations)]


def _of_one_state(system: System, cell: Cell, at: Latents, group: Group, looks: Looks) -> list[Line]:
    spot = Spot(system, cell, at, group.stance, group.questions, looks.drafts)
    if group.stance not in looks.here:
        looks.here[group.stance] = spot.look(looks.nearest(group.stance)), NOTHING_KNOWN
    base, by_size = looks.here[group.stance]
    moved = spot.moved(base, by_size)
    return [_line(system, cell, o, k, (base, moved, at)) for k, o in enumerate(group.observations)]


def _line(system: System, cell: Cell, o: Observation, k: int, seen: tuple[Look, Moved, Latents]) -> Line:
    base, moved, at = seen
    measure = o.question.measure
    if measure == "displayed-fault":
        return Line(o, 0.0, 1.0, (), 1.0, shown_chance(system, base.signal, o.word))
    value = compared(measure, base.values[k])
    if measure == "gauge-pressure":
        return _of_a_gauge(system, o, value, seen, k)
    slopes = tuple([(compared(measure, m[k]) - value) / STEP if m is not None else 0.0 for m in moved])
    if o.jumping and as_shown(system, measure, value) != value:
        value, slopes = as_shown(system, measure, value), tuple([0.0] * len(slopes))
    wide, whole = span(system, measure), scale(system, measure)
    own = o.sd**2 + _loaded(base, k) ** 2
    if cell.damp and measure in {"ohms", "megohms"} and o.stance.arrangement != "dead-looped":
        own += DAMP**2
    if base.junctions:
        off = _junction(system, measure)
        shared = (CROSSED if base.draft.lands_on else 1.0) if shakes(o.question) else 0.0
        own += (1.0 - shared) * off**2
        if shared:
            moved_by = sqrt(shared) * off * _towards(o.question)
            value += moved_by * at.junction
            slopes = _with(slopes, _JUNCTION, moved_by)
    stops = None if o.jumping or o.side else past_converter(base.loop.screen, measure, o.value, value, own)
    if stops is not None:
        return Line(o, 0.0, own, tuple([0.0] * len(slopes)), whole, chance=_jumping(cell, o, base, wide) * stops)
    if base.jump == 0.0 or not shakes(o.question):
        return Line(o, o.value - value, own, slopes, whole, chance=_jumping(cell, o, base, wide))
    shift = SHIFTED * base.jump * wide * _towards(o.question)
    slopes = _with(slopes, _SHAKEN, shift)
    variance = own + (SHIFTED_ALONE * base.jump * wide) ** 2
    chance, width_missed = _shaken(o, base.jump, wide, measure), width_off(o, base.jump, wide)
    residual = o.value - value - shift * at.shaken
    return Line(o, residual, variance, slopes, whole, chance=chance, width_missed=width_missed)


def _of_a_gauge(system: System, o: Observation, value: float, seen: tuple[Look, Moved, Latents], k: int) -> Line:
    """Return the line of a second gauge: what the first one, its own error and a size of the fault leave open."""
    base, moved, at = seen
    stood = base.standing
    own = {"pressure": stood.sd, "head": stood.drift, "gauge": o.shared}
    sizes = [(m[k] - value) / STEP if m is not None else 0.0 for m in moved]
    slopes = tuple([own.get(name, size) for name, size in zip(Latents._fields, sizes, strict=True)]) if moved else ()
    whole = span(system, o.question.measure)
    return Line(o, o.value - value - o.shared * at.gauge, o.sd**2, slopes, whole)


def _with(slopes: tuple[float, ...], number: int, slope: float) -> tuple[float, ...]:
    """Return the slopes with another one in one latent, where there are any."""
    return (*slopes[:number], slope, *slopes[number + 1 :]) if slopes else slopes


def _junction(system: System, measure: str) -> float:
    """Return how far a figure is off where a junction's volts are, on the scale on which it is compared."""
    if system.unit == "A" or measure in {"ohms", "megohms", "milliamps", "volts-ac"}:
        return 0.0
    return JUNCTION_V * (span(system, measure) / (system.high - system.low) if measure == "displayed-pressure" else 1.0)


def _loaded(base: Look, k: int) -> float:
    """Return how far volts may be off since few meters load a circuit ten times as much as the others."""
    if not base.loading or base.loading[k] > 0.999:
        return 0.0
    siemens = 1.0 / base.loading[k] - 1.0
    return LOADING * abs(base.values[k]) * (1.0 - (1.0 + siemens) / (1.0 + 10.0 * siemens))


def _jumping(cell: Cell, o: Observation, base: Look, wide: float) -> float:
    """Return the chance of a figure's jumping where nothing shakes it, and its being as wide.

    What makes one figure of a visit jump makes the others jump: the first one's chance is shared by all.
    """
    if not o.jumping:
        return 1.0
    contact = any(part.fault.startswith(("resistive", "open", "leakage", "cable-cut")) for part in cell.parts)
    one = STARTS_AGAIN if base.overloaded else CONTACT_JUMPS if contact else JUMPS
    whole = log(one) + (o.jumpers - 1) * log(JUMPS_TOO)
    return exp(whole / o.jumpers) / wide


def _shaken(o: Observation, jump: float, wide: float, measure: str) -> float:
    """Return the chance that a figure which interference shakes stands still, or jumps as wide as it does.

    A meter on volts or milliamperes shows the mean of what a display, which takes moments, jumps by.
    """
    steady = max(1.0 / (1.0 + (jump / STEADY) ** 2), MEAN_STANDS if measure in METER_MEASURES else 0.1)
    if not o.jumping:
        return steady
    ends = exp(-width_off(o, jump, wide)) / (JUMP_SPREAD * sqrt(2.0 * pi) * max(o.half, 1e-9))
    return (1.0 - 0.9 * steady) * max(ends, 0.02 / wide)


def width_off(o: Observation, jump: float, wide: float) -> float:
    """Return how far the width by which a figure jumps is off, in half of its squared deviations; 0 where it stands."""
    return 0.5 * (log(max(o.half, 1e-9) / (jump * wide)) / JUMP_SPREAD) ** 2 if o.jumping else 0.0


def either(here: Line, gone: Line) -> Sequence[Line]:
    """Return the line of a reading whose fault is there or away, each state counted by its chance."""
    if here.word is not None and gone.word is not None:
        return (here._replace(word=log((1.0 - AWAY) * exp(here.word) + AWAY * exp(gone.word))),)
    o = here.observation
    if o.jumping:
        return (_between(here, gone),)
    if o.side:
        return (here if _past_chance(here) > _past_chance(gone) else gone,)
    if abs(here.residual - gone.residual) < 2.0 * sqrt(gone.variance):
        return (here,)
    steady = 1.0 - (WITHIN_MINUTES if o.watched else WITHIN)
    weights = [steady * part * _density(line) for part, line in ((1.0 - AWAY, here), (AWAY, gone))]
    fitter = here if weights[0] >= weights[1] else gone
    chance = sum(weights) / max(_density(fitter), 1e-300)
    return (fitter._replace(chance=fitter.chance * chance),)


def _between(here: Line, gone: Line) -> Line:
    """Return the line of a figure that jumps from one state to the other: its middle, with its ends' chance."""
    o = here.observation
    half = 0.5 * abs(here.residual - gone.residual)
    sd = max(o.sd_at_rest, 0.02 * here.span)
    off = (o.half - half) / sd
    ends = max(exp(-0.5 * off * off) / (sd * sqrt(2.0 * pi)), 0.02 / here.span)
    slopes = tuple(0.5 * (a + b) for a, b in zip(here.slopes, gone.slopes, strict=True))
    return here._replace(
        residual=0.5 * (here.residual + gone.residual), variance=sd**2, slopes=slopes, chance=WITHIN * ends
    )


def _density(line: Line) -> float:
    wide = line.variance + 0.1 * sum(s * s for s in line.slopes)
    return exp(-0.5 * min(line.residual**2 / wide, 1300.0)) / sqrt(wide)


def _past_chance(line: Line) -> float:
    sign = -1.0 if line.observation.side == "above" else 1.0
    return sign * line.residual / sqrt(line.variance)


def span(system: System, measure: str) -> float:
    """Return the width of what a measure usually shows, on the scale on which it is compared."""
    if measure == "gauge-pressure":
        return system.range.width
    if measure == "displayed-pressure":
        return (system.scaled or system.range).width
    if measure in {"ohms", "megohms"}:
        return 20.0
    if measure in {"volts", "volts-ac"} and system.unit == "A":
        return 0.25 * system.supply_v
    return system.high - system.low if measure != "milliamps" or system.unit == "A" else 0.016


def scale(system: System, measure: str) -> float:
    """Return the width over which a slip may put a figure, on the scale on which it is compared."""
    return max(span(system, measure), system.supply_v) if measure in {"volts", "volts-ac"} else span(system, measure)


def shakes(question: Question) -> bool:
    """Tell whether interference on the signal makes this figure jump."""
    if question.measure.startswith("displayed"):
        return True
    on_signal = any(point is not None and point.endswith(".signal") for point in (question.red, question.black))
    return question.measure == "milliamps" or (question.measure == "volts" and on_signal)


def _towards(question: Question) -> float:
    """Return whether a figure rises or falls as the signal does: 1 or -1."""
    return -1.0 if question.black is not None and question.black.endswith(".signal") else 1.0


def shown_chance(system: System, signal: float, word: str) -> float:
    """Return the logarithm of the chance that a controller which sees a signal shows a fault word."""
    shown = shown_chances(system, signal)
    return log(max(shown[word], UNHEARD)) if word in shown else 0.0
