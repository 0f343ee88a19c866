"""A loop on the bench: the numbers of one imagined system, to be changed by a fault and then built.

Rules
-----
1. A draft is filled with the numbers of a healthy loop, changed by at most a few faults, and built; it is never kept.
2. Pressure becomes the sensor's output here: what the sensor feels, its error, its limits, in this order.
3. Whatever a fault can change is a field; `steadyhead.loop.faults` is the only other place that knows which.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

from steadyhead.loop.parts import (
    JOINT_OHM,
    VOLTMETER_OHM,
    Conductor,
    CurrentSensor,
    Input,
    Leak,
    Loop,
    LoopSensor,
    Screen,
    Sensor,
    Supply,
    VoltageSensor,
    Wire,
)

SensorKind = Literal["ratiometric", "voltage", "loop", "current"]

#: What is left of a broken current output [A], of a broken supply inside [S], and before a broken output [ohm].
LEAST_A = 1e-7
OPEN_SIEMENS = 1e-9
OPEN_OUTPUT_OHM = 1e9
#: The least output of an amplified sensor: 0 V would be a ratiometric one's mark [V].
LEAST_V = 1e-3


@dataclass(slots=True, kw_only=True)
class SensorDraft:
    """A sensor's numbers: what it is made for, its make, and what is wrong with it.

    ``low`` and ``high`` are its signal at the two ends of its range [fraction of supply, V or A]; ``least`` and
    ``most`` the limits of its output, in the same unit.
    """

    kind: SensorKind
    low: float
    high: float
    range_low: float
    range_high: float
    least: float
    most: float
    draw_siemens: float = 1e-3
    #: What a voltage sensor draws at most, and what a two-wire one lets through when it wakes [A].
    draw_a: float = float("inf")
    wakes_a: float = 0.0
    output_ohm: float = 100.0
    source_a: float = 8e-3
    sink_a: float = 6e-3
    wakes_v: float = 2.2
    drives_v: float = 0.3
    draws_v: float = 0.0
    works_v: float = 3.0
    headroom_v: float = 0.1
    starved: float = 0.0
    diodes: bool = True
    reverse: Literal["nothing", "diode"] = "nothing"
    reverse_ohm: float = 10.0
    #: Error in parts of span, gain error, and an output that no longer follows [same unit as `low`].
    shift: float = 0.0
    gain: float = 1.0
    stuck: float | None = None
    #: Broken inside: nothing flows in the supply, or in the output.
    open_supply: bool = False
    open_output: bool = False
    #: What a voltage output hangs on inside, from signal to common pin, driven or not [ohm].
    pull_down_ohm: float | None = None
    #: A short inside, from supply to common pin (two-wire: from plus to minus) [ohm].
    short_ohm: float | None = None

    def output(self, pressure: float) -> float:
        """Return the output at the pressure that the sensor feels [fraction of supply, V or A]."""
        if self.stuck is not None:
            return self.stuck
        part = (pressure - self.range_low) / (self.range_high - self.range_low)
        value = self.low + (self.high - self.low) * (part * self.gain + self.shift)
        return min(max(value, self.least), self.most)

    def pressure_at(self, part: float) -> float:
        """Return the pressure at a part of the range [Pa]."""
        return self.range_low + part * (self.range_high - self.range_low)

    def built(self, pressure: float) -> Sensor:
        """Return the sensor as a part of a circuit, at the pressure that it feels [Pa]."""
        out = self.output(pressure)
        if self.kind == "loop" or self.kind == "current":  # noqa: PLR1714 - a set costs more here than the rest
            return self._current(0.0 if self.open_supply or self.open_output else out)
        ratiometric = self.kind == "ratiometric"
        return VoltageSensor(
            ratio=max(out, 0.0) if ratiometric else 0.0,
            volts=0.0 if ratiometric else max(out, LEAST_V),
            draw_siemens=OPEN_SIEMENS if self.open_supply else self.draw_siemens,
            draw_a=self.draw_a,
            output_ohm=OPEN_OUTPUT_OHM if self.open_output or self.open_supply else self.output_ohm,
            source_a=self.source_a,
            sink_a=self.sink_a,
            wakes_v=self.wakes_v,
            works_v=self.works_v,
            headroom_v=self.headroom_v,
            starved=self.starved,
            diodes=self.diodes,
            reverse=self.reverse,
            drives_v=self.drives_v,
            draws_v=self.draws_v,
        )

    def _current(self, amperes: float) -> Sensor:
        """Return a current sensor that sends `amperes`, or next to nothing [A]."""
        amperes = max(amperes, LEAST_A)
        if self.kind == "loop":
            return LoopSensor(
                amperes=amperes, wakes_v=self.wakes_v, least_v=self.works_v, reverse=self.reverse,
                reverse_ohm=self.reverse_ohm, wakes_a=min(self.wakes_a, 0.5 * amperes),
            )  # fmt: skip
        return CurrentSensor(
            amperes=amperes,
            draw_siemens=OPEN_SIEMENS if self.open_supply else self.draw_siemens,
            headroom_v=self.headroom_v,
            wakes_v=self.wakes_v,
            works_v=self.works_v,
        )


@dataclass(slots=True)
class WireDraft:
    """One wire's chain of resistances [ohm]."""

    terminal: float = JOINT_OHM
    run: float = 0.5
    crimp: float = JOINT_OHM
    mating: float = JOINT_OHM
    kink: float = 0.5


@dataclass(slots=True, kw_only=True)
class LoopDraft:
    """The numbers of one loop, of the pressure around it and of the instruments held to it."""

    supply_v: float
    #: By what part one deviation more raises those volts.
    supply_slope: float = 0.0
    source_ohm: float
    limit_a: float
    #: What is left of the limit once the supply is overloaded: it folds back, or starts again and again.
    fold: float = 1.0
    wires: dict[Wire, WireDraft]
    sensor: SensorDraft
    #: A good sensor of the same make, where one is at hand.
    spare: SensorDraft | None = None
    input_ohm: float
    #: What a current input that protects itself lets through at most [A].
    input_limit_a: float = float("inf")
    clamp_v: float
    pull_v: float = 0.0
    pull_ohm: float = float("inf")
    screen: Screen
    other_load_ohm: float = float("inf")
    #: Whether that load is a sound one, not a fault.
    load_is_sound: bool = True
    bleed_ohm: float = float("inf")
    shield: bool = False
    earth_ohm: float = 0.1
    return_ohm: float = 0.0
    insulation_ohm: float = float("inf")
    signal_source_ohm: float = 100.0
    #: Whether a meter at the plug, while that is on, touches the sensor's pins and not the cable's contacts.
    at_pins: bool = False
    leaks: list[Leak] = field(default_factory=list)
    lands_on: dict[Wire, Wire] = field(default_factory=dict)
    #: Sensor's pin that each of the plug's contacts meets, where that is not its own.
    pinout: dict[Wire, Wire] = field(default_factory=dict)
    #: What the sensor feels instead of the pipe's pressure [Pa]: shut in, or beside it by an offset.
    trapped_pa: float | None = None
    beside_pa: float = 0.0
    #: Whether opening the sensor to the air frees what is trapped.
    vents: bool = True
    #: How wrong the instruments are: the site's gauge and the technician's own [Pa], and the meter's factor on volts,
    #: milliamps and ohms, and what it loads volts with [ohm].
    gauge_off_pa: float = 0.0
    own_gauge_off_pa: float = 0.0
    meter_volts: float = 1.0
    voltmeter_ohm: float = VOLTMETER_OHM
    meter_milliamps: float = 1.0
    meter_ohms: float = 1.0
    #: Interference on the signal: volts AC [V], and how far it jumps [parts of span].
    noise_v: float = 0.0
    jump: float = 0.0

    def felt(self, pipe_pa: float, *, vented: bool = False) -> float:
        """Return the pressure that the sensor feels [Pa] at a pipe pressure, or with its port opened to the air."""
        if vented and (self.vents or self.trapped_pa is None):
            return 0.0
        if self.trapped_pa is not None:
            return self.trapped_pa
        return pipe_pa + self.beside_pa

    def built(self, pipe_pa: float, *, vented: bool = False) -> Loop:
        """Return the loop with every number known, at a pipe pressure [Pa]."""
        return Loop(
            supply=Supply(volts=self.supply_v, source_ohm=self.source_ohm, limit_a=self.limit_a),
            conductors={
                name: Conductor(terminal=w.terminal, run=w.run, crimp=w.crimp, mating=w.mating, kink=w.kink)
                for name, w in self.wires.items()
            },
            sensor=self.sensor.built(self.felt(pipe_pa, vented=vented)),
            spare=None if self.spare is None else self.spare.built(0.0),
            input=Input(ohm=self.input_ohm, clamp_v=self.clamp_v, pull_v=self.pull_v, pull_ohm=self.pull_ohm),
            screen=self.screen,
            leaks=self._all_leaks(),
            lands_on=dict(self.lands_on),
            pinout=dict(self.pinout),
            shield=self.shield,
            other_load_ohm=self.other_load_ohm,
            bleed_ohm=self.bleed_ohm,
            earth_ohm=self.earth_ohm,
            return_ohm=self.return_ohm,
            insulation_ohm=self.insulation_ohm,
            signal_source_ohm=self.signal_source_ohm,
        )

    def _all_leaks(self) -> tuple[Leak, ...]:
        """Return the leaks of the cable, and what hangs between the sensor's own pins."""
        sensor = self.sensor
        inside = []
        if sensor.short_ohm is not None:
            other = "pin.signal" if sensor.kind == "loop" else "pin.common"
            inside.append(Leak(a="pin.supply", b=other, ohm=sensor.short_ohm))
        if sensor.pull_down_ohm is not None and not sensor.open_output:
            inside.append(Leak(a="pin.signal", b="pin.common", ohm=sensor.pull_down_ohm))
        return (*self.leaks, *inside)
