"""The makes of devices that a loop can be built from, and how one is drawn.

Everything that affects what is taken for a healthy loop lives in this file.

Rules
-----
1. A make is a point of a Latin hypercube, so that few cover much; every suspect is judged over the same few makes, so
   that a reading which only tells the make (a joint's ohms, an idle supply's volts) moves no suspect against another.
2. What varies smoothly and matters is carried as a latent number of the cell (`Latents`), not by more draws.
3. Ranges are common practice without source, chosen wide.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache
from math import exp, log, sqrt
from random import Random
from typing import Literal, NamedTuple

from steadyhead.diagnosis.pull_up import pull_ohm
from steadyhead.diagnosis.sensor_power import supply_slope, supply_volts
from steadyhead.diagnosis.system import LOW_VOLTS, System
from steadyhead.loop.draft import LoopDraft, SensorDraft, WireDraft
from steadyhead.loop.parts import Screen, Wire

#: How many coordinates of a point a make needs.
DIMENSIONS = 20
#: Least current that a healthy supply gives: enough for its sensor [A].
LEAST_LIMIT_A = {True: 0.012, False: 0.025}
#: How much one deviation of a supply's limit moves what it gives once overloaded, as the logarithm of a factor.
FOLDED = 1.0
#: Part of the supplies that fold back when overloaded, and to what part of their limit: one that starts again and again
#: gives next to nothing on the average.
FOLDS, FOLDED_TO = 0.35, (0.015, 0.6)
#: How much one deviation of a latent moves a supply's softness and limit, an output's drive, an input's clamp, and what
#: a sensor draws: logarithms of factors.
SOFTNESS, LIMIT, DRIVE, CLAMP, DRAW = 0.45, 0.75, 0.5, 0.75, 0.6
#: The same of where a starved output stands [parts of its supply], and part of them that stand at their common.
STARVED, AT_COMMON = 0.5, 0.75
#: How much one deviation moves the volts at which a voltage output wakes and works, and a current sensor wakes, as the
#: logarithm of a factor; part of its supply that every voltage output works with.
WAKES, WORKS = {"V": 0.3, "A": 0.35}, 0.88
#: Volts with which a voltage output begins to drive anything: some conduct with a fraction of a volt, others float
#: until their electronics is nearly awake [V].
DRIVES_V = (0.15, 1.3)
#: Part of the sensors that let nothing flow reversed in which a diode in series does that, and its volts [V].
IN_SERIES, SERIES_V = 0.5, 0.35
#: What a reversed two-wire sensor's protection lets through, from a bare diode to one behind resistors: middle, and how
#: much one deviation moves it, as the logarithm of a factor [ohm].
REVERSE_OHM, REVERSE = 60.0, 1.8
#: How much one deviation moves an output's resistance, as the logarithm of a factor; and what the output hangs on
#: inside the sensor, which shows where nothing drives it: its middle [ohm], and how much one deviation moves that.
OUTPUT = 0.5
PULL_DOWN_OHM, PULL_DOWN = 1e6, 1.2
#: What a spare draws, of what the sensor would, and how much one deviation moves how hard its output can drive, which
#: is its own, as the logarithm of a factor.
SPARE_DRAWS, SPARE_DRIVES = (0.3, 3.3), 0.6
#: What joints and protectors add to each wire: middle [ohm], and how much one deviation moves it, as the logarithm of a
#: factor.
SERIES_OHM, SERIES = 0.5, 1.5
#: How much one deviation moves the least volts of a current sensor, as the logarithm of a factor.
LEAST = 0.12
#: Standard deviation of a wet joint's own volts: tens to hundreds of millivolts of either sign [V].
BATTERY_V = 0.15
#: What a sound cable and plug let through between the supply and the signal wire, from clean to a little damp: middle
#: [ohm], and how much one deviation moves it, as the logarithm of a factor.
INSULATION_OHM, INSULATION = 300e6, 1.8
#: What stands before the volts of a signal source, from batteries to a potentiometer's wiper: middle [ohm], and how
#: much one deviation moves it, as the logarithm of a factor.
SIGNAL_SOURCE_OHM, SIGNAL_SOURCE = 90.0, 1.4
#: Part of the meters that touch the sensor's pins where they are held to a plug that is on (a breakout lead, the
#: transducer's own leads), and not the cable's contacts (the wires' ends, probed from behind).
AT_PINS = 0.75
#: How much one deviation moves how far an output goes past the ends of its range, as the logarithm of a factor.
STOP = 0.6
#: What a controller itself takes from its sensor supply (a bleeder, a lamp), which shows where that is weak: its middle
#: [A], and how much one deviation moves it, as the logarithm of a factor.
BLEED_A, BLEED = 5e-5, 2.0
#: Part of the sensor supplies that feed another sound device too, what that draws [A], and how much one deviation moves
#: it, as the logarithm of a factor.
SHARED, OTHER_LOAD_A, OTHER_LOAD = 0.3, (2e-3, 12e-3), 0.8
#: Which part of the current inputs protect themselves, what these let through [A], and how much one deviation moves it,
#: as the logarithm of a factor.
PROTECTED, INPUT_LIMIT_A, INPUT_LIMIT = (0.625, 0.75), (0.025, 0.045), 0.3
#: Part of the voltage outputs with junctions to their rails: those of their own transistors, unless something blocks
#: them (common practice).
DIODES = 0.6
#: Volts below which a converter that measures against the sensor's supply converts nothing: most want about one [V].
LEAST_REFERENCE_V = (0.6, 1.6)
#: How much one deviation moves an input's resistance where that is given and where it is not, as the logarithm of a
#: factor.
INPUT = {"A": (0.004, 0.45), "V": (0.03, 1.1)}


class Latents(NamedTuple):
    """What varies smoothly from one system to the next, each in standard deviations of its prior.

    `pressure` is the error of the pressure that is taken for true; `sensor` the sensor's own error; `supply` the
    volts; `severity` the fault's size about the cell's own; `drive` how hard the sensor's output can drive;
    `input` the input's resistance; `softness` the supply's, `limit` the
    current that it gives at most; `clamp` the volts at which the input
    is clamped; `pull` how weak its pull-up is; `battery` a wet joint's own volts;
    `draw` what the sensor takes for itself; `run` what joints and protectors
    add to each wire; `starved` where the output stands with too little
    supply, and how much a current sensor needs; `wakes` the volts that wake
    a sensor; `head` where the pressure itself stands, as far as no
    gauge tells; `output` the resistance of a sensor's output, and of what
    it hangs on where nothing drives it; `second` the size of a pair's
    second fault; `damp` how little the sound cable's insulation is; `stop`
    how far the output goes past the ends of its range; `bleed` what the
    controller itself takes from its sensor supply; `shaken` how far
    interference shifts the mean of what it shakes; `junction` how far the
    volts of a junction that carries the signal are from the model's; `spare`
    how hard a spare's output can drive; `source` what stands before the
    volts of a signal source; `gauge` the error of a second gauge; `load` what
    another sound device on the supply draws; `sink` what a current input that protects itself lets through.
    """

    pressure: float = 0.0
    sensor: float = 0.0
    supply: float = 0.0
    severity: float = 0.0
    drive: float = 0.0
    input: float = 0.0
    softness: float = 0.0
    clamp: float = 0.0
    pull: float = 0.0
    limit: float = 0.0
    battery: float = 0.0
    draw: float = 0.0
    run: float = 0.0
    starved: float = 0.0
    wakes: float = 0.0
    head: float = 0.0
    output: float = 0.0
    second: float = 0.0
    damp: float = 0.0
    stop: float = 0.0
    bleed: float = 0.0
    shaken: float = 0.0
    junction: float = 0.0
    spare: float = 0.0
    source: float = 0.0
    gauge: float = 0.0
    load: float = 0.0
    sink: float = 0.0


@lru_cache(maxsize=4096)
def log_between(low: float, high: float, part: float) -> float:
    """Return the value at a part of the way from low to high, by its logarithm.

    >>> round(log_between(1.0, 100.0, 0.5), 12)
    10.0
    """
    return exp(log(low) + part * log(high / low))


def designs(count: int, dimensions: int, seed: int) -> list[tuple[float, ...]]:
    """Return points of the unit cube whose every coordinate is evenly spread: a Latin hypercube.

    Each coordinate takes the middle of each of `count` equal parts once, in an order of its own.

    Notes
    -----
    `random.Random(seed).random()` gives the same numbers on every version of Python.

    References
    ----------
    McKay, Beckman and Conover, Technometrics 21 (1979) 239; from memory.
    """
    draw = Random(seed)  # noqa: S311 - the same points every time
    columns = []
    for _ in range(dimensions):
        keys = [draw.random() for _ in range(count)]
        order = sorted(range(count), key=keys.__getitem__)
        ranks = [0.0] * count
        for rank, k in enumerate(order):
            ranks[k] = (rank + 0.5) / count
        columns.append(ranks)
    return list(zip(*columns, strict=True))


#: The makes that every suspect is judged over: the same ones, so that what a reading says of the make moves no suspect
#: against another. The seed is the one of 4,000 whose coordinates are least alike.
COMMON: tuple[tuple[float, ...], ...] = tuple(designs(8, DIMENSIONS, 2906))
#: Numbers of those that stand for all at first: one of three with a supply that folds back, and early, a protection
#: diode, and a converter with a reference of its own; the others with a middling supply and a strong one.
FIRST = (0, 1, 7)
FEW: tuple[tuple[float, ...], ...] = tuple(COMMON[number] for number in FIRST)


def healthy(system: System, u: Sequence[float], z: Latents) -> LoopDraft:
    """Return the draft of a healthy loop of this system: its make at the point `u`, its smooth numbers at `z`."""
    low_volts = system.supply_v < LOW_VOLTS
    source = (4.0 if low_volts else 12.0) * log_between(0.3, 2.5, u[19])
    limit = (0.05 if low_volts else 0.07) * log_between(0.65, 1.85, u[14]) * exp(LIMIT * z.limit)
    most = max(limit, LEAST_LIMIT_A[low_volts])
    run = system.run_ohm * (1.0 if system.run_known else log_between(0.4, 2.5, u[1])) + in_series(z.run)
    joint = log_between(0.01, 0.6, u[2])
    input_ohm = _input_ohm(system, z)
    names: tuple[Wire, ...] = ("supply", "signal", "common") if system.wires == 3 else ("supply", "signal")
    return LoopDraft(
        sensor=sensor_of(system, u, z),
        supply_v=supply_volts(system, z.supply),
        supply_slope=supply_slope(system, z.supply),
        source_ohm=source * exp(SOFTNESS * z.softness),
        limit_a=most,
        fold=1.0 if u[17] > FOLDS else log_between(*FOLDED_TO, sqrt(u[17] / FOLDS)) * _folded(z) * limit / most,
        wires={name: WireDraft(terminal=joint, run=run, crimp=joint, mating=joint) for name in names},
        input_ohm=input_ohm,
        input_limit_a=_input_limit_a(system, u, z),
        clamp_v=log_between(10.0, 34.0, u[3]) * exp(CLAMP * z.clamp),
        pull_v=3.3 if u[4] > 0.6 else 5.0,
        pull_ohm=pull_ohm(z.pull) if system.unit == "V" else float("inf"),
        screen=screen(system, u, input_ohm),
        other_load_ohm=system.supply_v / _other_load_a(u, z) if u[5] < SHARED else float("inf"),
        bleed_ohm=system.supply_v / (BLEED_A * exp(BLEED * z.bleed)),
        shield=bool(system.visit.cable.shield),
        earth_ohm=0.1 if system.visit.controller.common_earthed else 1e8,
        insulation_ohm=INSULATION_OHM * exp(-INSULATION * z.damp),
        signal_source_ohm=SIGNAL_SOURCE_OHM * exp(SIGNAL_SOURCE * z.source),
        at_pins=u[4] < AT_PINS,
        return_ohm=0.2 if system.visit.controller.loop_power == "outside" else 0.0,
    )


def _input_ohm(system: System, z: Latents) -> float:
    given = system.visit.controller.input_resistance_ohm
    if given is not None:
        return given * exp(INPUT[system.unit][0] * z.input)
    return (220.0 if system.unit == "A" else 170e3) * exp(INPUT[system.unit][1] * z.input)


def _other_load_a(u: Sequence[float], z: Latents) -> float:
    """Return what a sound device on the same supply draws [A]."""
    return log_between(*OTHER_LOAD_A, u[5] / SHARED) * exp(OTHER_LOAD * z.load)


def _input_limit_a(system: System, u: Sequence[float], z: Latents) -> float:
    """Return what the input lets through at most [A]; few current inputs protect themselves."""
    first, last = PROTECTED
    if system.unit != "A" or not first < u[0] < last:
        return float("inf")
    return log_between(*INPUT_LIMIT_A, (u[0] - first) / (last - first)) * exp(INPUT_LIMIT * z.sink)


def _folded(z: Latents) -> float:
    """Return how much further than its limit varies what an overloaded supply gives."""
    return exp((FOLDED - LIMIT) * z.limit)


def in_series(z: float) -> float:
    """Return what joints, a strip and a surge protector add to each wire [ohm]: with most next to nothing.

    >>> in_series(0.0), round(in_series(2.0), 1)
    (0.5, 10.0)
    """
    return SERIES_OHM * exp(SERIES * z)


def sensor_of(system: System, u: Sequence[float], z: Latents) -> SensorDraft:
    """Return the sensor: first what its signal makes of it, then what all sensors have."""
    if system.unit == "A":
        made = _current_sensor(system, u, z)
    elif system.kind == "ratiometric":
        made = _ratiometric_sensor(system, u, z)
    else:
        made = _amplified_sensor(system, u, z)
    made.shift = system.accuracy / 1.8 * z.sensor
    made.reverse, made.draws_v = _protected(u[6])
    made.reverse_ohm = REVERSE_OHM * exp(REVERSE * z.draw)
    if system.unit == "V":
        drive = log_between(0.45, 2.0, u[15]) * exp(DRIVE * z.drive)
        made.source_a = 8e-3 * drive * log_between(0.7, 1.4, u[10])
        made.sink_a = 7e-3 * drive / log_between(0.7, 1.4, u[10])
        made.output_ohm = log_between(4.0, 900.0, u[9]) * exp(OUTPUT * z.output)
        made.pull_down_ohm = PULL_DOWN_OHM * exp(PULL_DOWN * z.output)
        made.draw_a = 5e-3 * exp(DRAW * z.draw)
        made.draw_siemens = made.draw_a / (system.supply_v * log_between(0.08, 1.2, u[18]))
        made.starved = _starved(u[12], z.starved)
        made.wakes_v, made.works_v = _woken(system, made, exp(WAKES["V"] * z.wakes))
        made.drives_v = log_between(*DRIVES_V, u[3]) * exp(WAKES["V"] * z.wakes)
        made.diodes = u[8] < DIODES
    return made


def spare_of(system: System, u: Sequence[float], z: Latents) -> SensorDraft:
    """Return a good sensor beside it, of another make as far as that shows.

    What a reversed polarity meets and what it draws are its own: a weak supply bears the one and not the other. So is
    how hard it drives: into a shorted input one gives twice what another does.
    """
    spare = sensor_of(system, u, z._replace(sensor=0.0, drive=SPARE_DRIVES / DRIVE * z.spare))
    spare.reverse, spare.draws_v = _protected(u[16])
    if system.unit == "V":
        more = log_between(*SPARE_DRAWS, u[16])
        spare.draw_a, spare.draw_siemens = more * spare.draw_a, more * spare.draw_siemens
    return spare


def _protected(part: float) -> tuple[Literal["nothing", "diode"], float]:
    """Return what a reversed polarity meets, and the volts with which the sensor begins to draw anything [V].

    >>> _protected(0.3), _protected(0.6), _protected(0.9)
    (('diode', 0.0), ('nothing', 0.0), ('nothing', 0.35))
    """
    if part < 0.5:
        return "diode", 0.0
    return "nothing", SERIES_V if part > 1.0 - 0.5 * IN_SERIES else 0.0


def _woken(system: System, made: SensorDraft, factor: float) -> tuple[float, float]:
    """Return the volts that wake a voltage output and that it works with, moved by a factor."""
    works = min(made.works_v * factor, WORKS * system.supply_v)
    return min(made.wakes_v * factor, 0.95 * works), works


def _starved(part: float, z: float) -> float:
    """Return where a starved output stands, as a part of its supply: at its common, some at their supply, or between.

    >>> _starved(0.2, 0.0), _starved(0.9, 0.0), _starved(0.2, 1.0)
    (0.0, 1.0, 0.5)
    """
    inwards = min(STARVED * max(z, 0.0), 1.0)
    return inwards if part < AT_COMMON else 1.0 - inwards


def _current_sensor(system: System, u: Sequence[float], z: Latents) -> SensorDraft:
    low, high = system.low, system.high
    span = (high - low) * exp(STOP * z.stop)
    least_v = (system.least_v or log_between(7.0, 12.0, u[7])) * log_between(0.85, 1.0, u[8]) * exp(LEAST * z.starved)
    return SensorDraft(
        kind=system.kind, range_low=system.range.low, range_high=system.range.high, low=low, high=high,
        least=low - span * (0.003 + 0.03 * u[9]), most=high + span * (0.02 + 0.25 * u[10]),
        draw_siemens=log_between(2e-3, 10e-3, u[11]) / system.supply_v,
        wakes_v=least_v * min((0.1 + 0.75 * u[12]) * exp(WAKES["A"] * z.wakes), 0.95), works_v=least_v,
        wakes_a=log_between(2e-6, 1e-3, u[15]),
        headroom_v=log_between(2.0, 6.0, u[13]),
    )  # fmt: skip


def _ratiometric_sensor(system: System, u: Sequence[float], z: Latents) -> SensorDraft:
    low, high = system.low / system.supply_v, system.high / system.supply_v
    stop = exp(STOP * z.stop)
    return SensorDraft(
        kind=system.kind, range_low=system.range.low, range_high=system.range.high, low=low, high=high,
        least=low * (1.0 - min(log_between(0.1, 1.0, u[7]) * stop, 1.0)),
        most=high + (1.0 - high) * min((0.2 + 0.75 * u[7]) * stop, 1.0),
        wakes_v=1.6 + u[13], works_v=2.8 + u[13], headroom_v=0.02 + 0.1 * u[7],
    )  # fmt: skip


def _amplified_sensor(system: System, u: Sequence[float], z: Latents) -> SensorDraft:
    low, high = system.low, system.high
    span = (high - low) * exp(STOP * z.stop)
    least_v = system.least_v or min(8.0, max(high + 1.0, system.supply_v * 0.35))
    return SensorDraft(
        kind=system.kind, range_low=system.range.low, range_high=system.range.high, low=low, high=high,
        least=max(low - 0.06 * span * u[7], 0.0), most=high + span * (0.01 + 0.12 * u[7]),
        wakes_v=least_v * (0.3 + 0.3 * u[13]), works_v=least_v * 0.8, headroom_v=0.5 + 1.5 * u[7],
    )  # fmt: skip


def screen(system: System, u: Sequence[float], input_ohm: float) -> Screen:
    """Return how the controller's display is set, with its input's reference drawn where nobody knows it."""
    scaled = system.scaled or system.range
    return Screen(
        kind=_input_kind(system, u),
        low=system.low,
        high=system.high,
        scale_low=scaled.low,
        scale_high=scaled.high,
        reference_v=system.supply_v,
        least_reference_v=log_between(*LEAST_REFERENCE_V, u[11]),
        burden_ohm=system.visit.controller.input_resistance_ohm or input_ohm,
    )


def _input_kind(system: System, u: Sequence[float]) -> Literal["ratiometric", "voltage", "current"]:
    if system.unit == "A":
        return "current"
    reference = system.visit.controller.reference
    if system.kind != "ratiometric" or reference == "fixed":
        return "voltage"
    return "ratiometric" if reference == "ratiometric" or u[0] < 0.6 else "voltage"
