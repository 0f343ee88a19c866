"""The parts of one sensing loop with every number known: what a circuit can be built from.

Rules
-----
1. These are true values of one imagined loop, not what a plate says.
2. A fault is a loop whose numbers differ; `steadyhead.loop.faults` makes it from a healthy one.
3. Pressure and the sensor's own error have already become the sensor's output.
4. They are tuples with names: thousands are built for one answer, and a tuple is built fastest. Name what you set.
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import Literal, NamedTuple

Wire = Literal["supply", "signal", "common"]
WIRES: tuple[Wire, ...] = ("supply", "signal", "common")

#: What a good joint has: a few hundredths of an ohm (common practice).
JOINT_OHM = 0.03
#: A common multimeter's resistance on volts [ohm] (common practice).
VOLTMETER_OHM = 10e6
#: An open place: dry air and clean plastic between the ends.
OPEN_OHM = 1e11
#: Every wire where its name says.
AS_NAMED: Mapping[Wire, Wire] = MappingProxyType({})


class Supply(NamedTuple):
    """What powers the sensor: `volts` behind `source_ohm`, and no more than `limit_a` [A]."""

    volts: float
    source_ohm: float
    limit_a: float


class VoltageSensor(NamedTuple):
    """A three-wire sensor with a voltage output.

    Parameters
    ----------
    ratio
        Output as a fraction of the volts between its own supply and common pins; 0 for an amplified output.
    volts
        Output of an amplified sensor [V]; 0 for a ratiometric one.
    draw_siemens
        Supply current over supply volts beyond `draws_v`, without load [S].
    output_ohm
        Output resistance [ohm].
    source_a, sink_a
        Largest current out of and into the signal pin [A].
    wakes_v, works_v
        Supply volts at which the output begins to leave its starved state, and at which it is right [V].
    headroom_v
        How far below its supply the output stays [V].
    starved
        Part of its supply at which the output stands while it has too little: 0 at its common, 1 at its supply.
    diodes
        Whether protection diodes lead from common pin to signal pin to supply pin.
    reverse
        What a supply with its polarity reversed meets.
    """

    ratio: float
    volts: float
    draw_siemens: float
    output_ohm: float
    source_a: float
    sink_a: float
    wakes_v: float
    works_v: float
    headroom_v: float
    starved: float
    diodes: bool
    reverse: Literal["nothing", "diode"]
    #: What it draws at most: a regulator inside takes no more when the supply rises [A].
    draw_a: float = float("inf")
    #: Supply volts with which its output begins to drive anything, below which it floats, and with which it begins to
    #: draw anything, where a diode stands in series with all of it [V].
    drives_v: float = 0.3
    draws_v: float = 0.0


class LoopSensor(NamedTuple):
    """A two-wire sensor: it lets `amperes` through as long as it has `least_v` [V].

    Parameters
    ----------
    amperes
        Current that the pressure asks for, within its own limits [A].
    wakes_v, least_v
        Volts across it at which current begins to flow, and from which the current is right [V].
    wakes_a
        What it lets through by then [A].
    reverse, reverse_ohm
        What a reversed polarity meets: nothing flows, or a diode with some resistance conducts [ohm].
    """

    amperes: float
    wakes_v: float
    least_v: float
    reverse: Literal["nothing", "diode"]
    wakes_a: float = 0.0
    reverse_ohm: float = 10.0


class CurrentSensor(NamedTuple):
    """A three-wire sensor that sends `amperes` out of its signal pin."""

    amperes: float
    draw_siemens: float
    headroom_v: float
    wakes_v: float
    works_v: float


Sensor = VoltageSensor | LoopSensor | CurrentSensor


class Conductor(NamedTuple):
    """One conductor as a chain from the controller's terminal to the sensor's pin [ohm each].

    ``terminal`` is the joint at the controller, ``run`` the copper with whatever strip, splice or surge protector lies
    on the way, ``crimp`` the joint of copper and plug contact, ``mating`` the joint of contact and pin. `kink` tells
    where along the run a leak sits (0 at the controller, 1 at the plug).
    """

    terminal: float = JOINT_OHM
    run: float = 0.5
    crimp: float = JOINT_OHM
    mating: float = JOINT_OHM
    kink: float = 0.5


class Leak(NamedTuple):
    """A path that should not be: between two points [ohm], with the volts of a wet joint's battery from `b` to `a`."""

    a: str
    b: str
    ohm: float
    volts: float = 0.0


class Input(NamedTuple):
    """The controller's signal input: `ohm` to common, a clamp above `clamp_v`, perhaps a pull to `pull_v`.

    `pull_ohm` is infinite where the input has no pull-up.
    """

    ohm: float
    clamp_v: float
    clamp_ohm: float = 50.0
    pull_v: float = 0.0
    pull_ohm: float = float("inf")
    #: What it takes as a sink, at its own limit [A].
    sink_a: float = 0.0


class Screen(NamedTuple):
    """How the controller turns what its input sees into what it shows.

    Parameters
    ----------
    kind
        Which signal it expects: volts as a fraction of the sensor's own supply, volts, or a current.
    low, high
        Signal at the two ends of the scale that is set [V or A].
    reference_v
        Volts that a ratiometric converter takes its own supply for [V].
    least_reference_v
        Volts of that supply below which such a converter converts nothing [V].
    burden_ohm
        Resistance over which a current input takes its volts to be [ohm].
    scale_low, scale_high
        Pressures set for those two ends [Pa].
    gain, zero
        Error of its converter: what it takes the signal for is ``gain * signal + zero``.
    offset_pa
        Offset set in the menu [Pa].
    simulated_pa
        Fixed value that it shows instead, or None [Pa].
    blind
        Signal that it shows whatever its terminals have, where its converter sees nothing of them [V or A].
    """

    kind: Literal["ratiometric", "voltage", "current"]
    low: float
    high: float
    scale_low: float
    scale_high: float
    reference_v: float = 5.0
    least_reference_v: float = 1.0
    burden_ohm: float = 250.0
    gain: float = 1.0
    zero: float = 0.0
    offset_pa: float = 0.0
    simulated_pa: float | None = None
    blind: float | None = None


class Loop(NamedTuple):
    """One sensing loop, with every number known.

    Parameters
    ----------
    conductors
        The chain of each wire that the cable has, named by the sensor's pin it leads to.
    lands_on
        Controller terminal on which each wire sits, where that is not its own.
    pinout
        Sensor's pin that each of the plug's contacts meets, where that is not its own.
    leaks
        Paths between wires, or to earth.
    shield
        Whether the cable has a screen tied to common at the controller.
    other_load_ohm
        Other devices on the same supply; infinite where there are none.
    bleed_ohm
        What the controller itself takes from its sensor supply, lifted wires or not: a bleeder, a lamp.
    spare
        A good sensor of the same make, open to the air; None where there is none at hand.
    earth_ohm
        Bond between the controller's common and earth [ohm].
    return_ohm
        Link from an outside supply's zero to the controller's common [ohm]; 0 where the drive powers the loop.
    insulation_ohm
        What a sound cable and plug let through from the supply wire to the signal wire [ohm]: it shows where nothing
        else drives the signal.
    signal_source_ohm
        What stands before the volts of a technician's signal source, where one is put in [ohm].
    """

    supply: Supply
    conductors: dict[Wire, Conductor]
    sensor: Sensor
    spare: Sensor | None
    input: Input
    screen: Screen
    leaks: tuple[Leak, ...] = ()
    lands_on: Mapping[Wire, Wire] = AS_NAMED
    pinout: Mapping[Wire, Wire] = AS_NAMED
    shield: bool = False
    other_load_ohm: float = float("inf")
    bleed_ohm: float = float("inf")
    earth_ohm: float = 0.1
    return_ohm: float = 0.0
    insulation_ohm: float = float("inf")
    signal_source_ohm: float = 100.0
