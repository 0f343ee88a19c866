"""A loop written out a second time, as plainly as can be: every resistor, and every device as its documented law.

It knows nothing of how the package builds or solves a circuit. Three judges use it: Kirchhoff's current law, summed up
point by point; ngspice, which is given the same laws as formulas; and exact fractions, where nothing but resistors and
sources is left.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from math import inf

from steadyhead.loop.parts import CurrentSensor, Loop, LoopSensor, VoltageSensor

ZERO = "controller.common"
OFF = ("sensor-leads-lifted", "all-lifted", "source-at-controller", "spare-at-controller")
DEAD = ("dead-both-free", "dead-looped")


@dataclass(frozen=True)
class Straight:
    """A two-terminal device: corners (V, A) from a to b, and the slopes before the first and after the last [S]."""

    a: str
    b: str
    corners: tuple[tuple[float, float], ...]
    before: float
    after: float

    def amperes(self, volts: dict[str, float]) -> float:
        """Return the current from a to b."""
        v = volts[self.a] - volts[self.b]
        if v <= self.corners[0][0]:
            return self.corners[0][1] + self.before * (v - self.corners[0][0])
        for (v0, i0), (v1, i1) in zip(self.corners, self.corners[1:], strict=False):
            if v <= v1:
                return i0 + (i1 - i0) * (v - v0) / (v1 - v0)
        return self.corners[-1][1] + self.after * (v - self.corners[-1][0])


@dataclass(frozen=True)
class Stage:
    """The output of a voltage sensor on its pins supply, signal, common."""

    pins: tuple[str, str, str]
    part: VoltageSensor

    def corners(self) -> list[tuple[float, float]]:
        """Return corners of the target above common [V] against the sensor's own supply [V]."""
        part = self.part
        asleep = part.starved * part.wakes_v
        if part.volts > 0.0:
            right = min(part.volts, part.works_v - part.headroom_v)
            top = [(part.works_v, right)]
            if part.volts + part.headroom_v > part.works_v:
                top.append((part.volts + part.headroom_v, part.volts))
            return [(0.0, 0.0), (part.wakes_v, asleep), *top, (1e3, part.volts)]
        ratio = min(part.ratio, 1.0 - part.headroom_v / part.works_v)
        return [(0.0, 0.0), (part.wakes_v, asleep), (part.works_v, ratio * part.works_v), (1e3, ratio * 1e3)]

    @property
    def least_v(self) -> float:
        """Supply volts up to which its output floats, four fifths of what wakes it at most."""
        return min(self.part.drives_v, 0.8 * self.part.wakes_v)

    def amperes(self, volts: dict[str, float]) -> float:
        """Return the current out of the signal pin."""
        supply, signal, common = (volts[pin] for pin in self.pins)
        own = supply - common
        least = self.least_v
        if own <= least:
            return 0.0
        target = Straight("x", "y", tuple(self.corners()), 0.0, 0.0).amperes({"x": own, "y": 0.0})
        wish = (target - (signal - common)) / self.part.output_ohm
        awake = min((own - least) / (self.part.wakes_v - least), 1.0)
        return max(-self.part.sink_a * awake, min(wish, self.part.source_a * awake))


@dataclass(frozen=True)
class Sent:
    """The output of a three-wire current sensor on its pins supply, signal, common."""

    pins: tuple[str, str, str]
    part: CurrentSensor

    def amperes(self, volts: dict[str, float]) -> float:
        """Return the current out of the signal pin."""
        supply, signal, common = (volts[pin] for pin in self.pins)
        part = self.part
        x = supply - signal
        slope = part.amperes / part.headroom_v
        by_headroom = slope * min(max(x, 0.0), part.headroom_v)
        by_headroom += 1e-4 * slope * (min(x, 0.0) + max(x - part.headroom_v, 0.0))
        by_feed = part.amperes * max(supply - common - part.wakes_v, 0.0) / (part.works_v - part.wakes_v)
        return min(by_headroom, by_feed)


@dataclass
class Naive:
    """Everything in one circuit."""

    resistors: list[tuple[str, str, float]] = field(default_factory=list)
    pushed: list[tuple[str, float]] = field(default_factory=list)
    straight: list[Straight] = field(default_factory=list)
    outputs: list[Stage | Sent] = field(default_factory=list)

    def ohm(self, a: str, b: str, ohm: float) -> None:
        """Add a resistor."""
        if a != b and ohm < inf:
            self.resistors.append((a, b, ohm))

    def nodes(self) -> list[str]:
        """Return every point."""
        found = {ZERO: None}
        for a, b, _ in self.resistors:
            found |= {a: None, b: None}
        for line in self.straight:
            found |= {line.a: None, line.b: None}
        return list(found)

    def leaving(self, volts: dict[str, float]) -> list[tuple[str, float]]:
        """Return every current that leaves a point, and the point [A]."""
        found = [(node, -amount) for node, amount in self.pushed]
        for a, b, ohm in self.resistors:
            through = (volts[a] - volts[b]) / ohm
            found += [(a, through), (b, -through)]
        for line in self.straight:
            through = line.amperes(volts)
            found += [(line.a, through), (line.b, -through)]
        for output in self.outputs:
            out = output.amperes(volts)
            supply, signal, common = output.pins
            found += [(signal, -out), (supply if out > 0 or isinstance(output, Sent) else common, out)]
        return found

    def worst_residual(self, volts: dict[str, float]) -> float:
        """Return the largest sum of currents at a point, against the largest of those currents and 1 uA.

        What the rounding of the volts themselves makes in a small resistor is no residual.
        """
        total: dict[str, float] = {}
        size: dict[str, float] = {}
        rounding: dict[str, float] = {}
        for node, amount in self.leaving(volts):
            total[node] = total.get(node, 0.0) + amount
            size[node] = max(size.get(node, 1e-6), abs(amount))
        for a, b, ohm in self.resistors:
            for node in (a, b):
                rounding[node] = rounding.get(node, 0.0) + 4.4e-16 * (abs(volts[a]) + abs(volts[b])) / ohm
        left = {node: max(0.0, abs(amount) - rounding.get(node, 0.0)) for node, amount in total.items()}
        return max(left[node] / size[node] for node in left if node != ZERO)


def written_out(loop: Loop, arrangement: str, *, source: float | None = None, meter_ohm: float = 5.0) -> Naive:
    """Return a loop in an arrangement, written out."""
    all_of_it = Naive()
    if arrangement not in DEAD:
        _controller(all_of_it, loop, arrangement)
    all_of_it.ohm("earth", ZERO, loop.earth_ohm)
    if loop.shield:
        all_of_it.ohm("shield", ZERO, 0.03)
    _wires(all_of_it, loop, arrangement, meter_ohm)
    _leaks(all_of_it, loop, arrangement)
    _sensor(all_of_it, loop, arrangement)
    if arrangement == "source-at-controller" and source is not None:
        if not isinstance(loop.sensor, VoltageSensor):
            given = ((22.0, -source), (24.0, 0.0))
            all_of_it.straight.append(Straight("controller.signal", ZERO, given, 1e-9, 1e-9))
        else:
            all_of_it.ohm("controller.signal", ZERO, 100.0)
            all_of_it.pushed.append(("controller.signal", source / 100.0))
    return all_of_it


def _controller(n: Naive, loop: Loop, arrangement: str) -> None:
    back = "supply.return" if loop.return_ohm else ZERO
    n.ohm(back, ZERO, loop.return_ohm)
    supply = loop.supply
    if supply.volts > 0.0:
        held = (supply.volts + 50e-6 * supply.source_ohm, 50e-6)
        given = ((supply.volts - supply.limit_a * supply.source_ohm, -supply.limit_a), held)
        n.straight.append(Straight("controller.supply", back, given, 1e-4 / supply.source_ohm, 1e-6))
    else:
        n.straight.append(Straight("controller.supply", back, ((0.0, 0.0),), 1e-6, 1e-6))
    if arrangement not in {"all-lifted", "supply-terminal-clear"}:
        n.ohm("controller.supply", back, loop.other_load_ohm)
    n.ohm("controller.supply", back, loop.bleed_ohm)
    entry = loop.input
    n.ohm("controller.signal", ZERO, entry.ohm)
    if entry.pull_ohm < inf:
        n.ohm("controller.signal", ZERO, entry.pull_ohm)
        n.pushed.append(("controller.signal", entry.pull_v / entry.pull_ohm))
    quiet = ((-0.5, -0.5e-8), (entry.clamp_v, entry.clamp_v * 1e-8))
    n.straight.append(Straight("controller.signal", ZERO, quiet, 1 / entry.clamp_ohm, 1 / entry.clamp_ohm))


def _wires(n: Naive, loop: Loop, arrangement: str, meter_ohm: float) -> None:
    plugged = arrangement not in {*DEAD, "sensor-unplugged"}
    for name, wire in loop.conductors.items():
        inner = loop.pinout.get(name, name)
        if arrangement == "temporary-cable":
            n.ohm(f"controller.{name}", f"sensor.{name}", 0.6)
            n.ohm(f"sensor.{name}", f"pin.{inner}", 0.1)
            continue
        terminal = loop.lands_on.get(name, name)
        off = arrangement in {*OFF, *DEAD} or (arrangement == "supply-terminal-clear" and terminal == "supply")
        if not off:
            metered = arrangement == "meter-in-signal" and terminal == "signal"
            n.ohm(f"controller.{terminal}", f"wire.{name}", meter_ohm if metered else wire.terminal)
        n.ohm(f"wire.{name}", f"run.{name}", max(wire.run * wire.kink, 1e-6))
        n.ohm(f"run.{name}", f"sensor.{name}", wire.run * (1 - wire.kink) + wire.crimp)
        if plugged and arrangement == "spare-at-plug":
            n.ohm(f"sensor.{name}", f"pin.{name}", 0.03)
        elif plugged:
            n.ohm(f"sensor.{name}", f"pin.{inner}", wire.mating)
        if off:
            n.ohm(f"wire.{name}", ZERO, 1e11)
        elif not plugged:
            n.ohm(f"controller.{terminal}", ZERO, 1e11)
    if arrangement == "dead-looped":
        first, *rest = loop.conductors
        for name in rest:
            n.ohm(f"sensor.{first}", f"sensor.{name}", 0.1)


def _leaks(n: Naive, loop: Loop, arrangement: str) -> None:
    for leak in loop.leaks:
        inside = "pin." in leak.a + leak.b
        if inside and arrangement in {*DEAD, "sensor-unplugged", "spare-at-plug"}:
            continue
        block = leak.a.startswith("controller.")
        kept = block or (leak.a[:4] == "pin." and leak.b[:4] in {"pin.", "eart"})
        if (block and arrangement in DEAD) or (arrangement == "temporary-cable" and not kept):
            continue
        n.ohm(leak.a, leak.b, leak.ohm)
        if leak.volts:
            n.pushed += [(leak.a, leak.volts / leak.ohm), (leak.b, -leak.volts / leak.ohm)]


def _sensor(n: Naive, loop: Loop, arrangement: str) -> None:
    own = arrangement not in {*DEAD, *OFF, "sensor-unplugged", "spare-at-plug"}
    if not own and arrangement not in {"spare-at-plug", "spare-at-controller"}:
        return
    pins = "spare" if arrangement == "spare-at-controller" else "pin"
    part = loop.sensor if own else loop.spare
    if part is None:
        return
    if pins == "spare":
        for name in loop.conductors:
            n.ohm(f"controller.{name}", f"spare.{name}", 0.1)
    supply, signal, common = f"{pins}.supply", f"{pins}.signal", f"{pins}.common"
    if isinstance(part, LoopSensor):
        asleep = max(part.wakes_a, part.wakes_v * 1e-8)
        given = ((-0.5, -0.5e-8), (0.0, 0.0), (part.wakes_v, asleep), (part.least_v, max(part.amperes, asleep)))
        back = 1.0 / part.reverse_ohm if part.reverse == "diode" else 1e-8
        rises = min(1e-6, max(part.amperes, asleep) / part.least_v)
        n.straight.append(Straight(supply, signal, given, back, rises))
        return
    back = 1.0 if isinstance(part, VoltageSensor) and part.reverse == "diode" else 1e-8
    begins = part.draws_v if isinstance(part, VoltageSensor) else 0.0
    drawn: tuple[tuple[float, float], ...] = ((-0.5, -0.5e-8), (begins, begins * 1e-8))
    slope = part.draw_siemens
    if isinstance(part, VoltageSensor) and part.draw_a < float("inf"):
        knee = begins + (part.draw_a - begins * 1e-8) / slope
        drawn, slope = (*drawn, (knee, part.draw_a)), slope * 1e-4
    n.straight.append(Straight(supply, common, drawn, back, slope))
    if isinstance(part, CurrentSensor):
        n.outputs.append(Sent((supply, signal, common), part))
        return
    n.outputs.append(Stage((supply, signal, common), part))
    if part.diodes:
        if part.reverse == "diode":
            n.straight.append(Straight(signal, supply, ((0.35, 0.35e-8), (0.55, 2e-4)), 1e-8, 0.1))
        n.straight.append(Straight(common, signal, ((0.35, 0.35e-8), (0.55, 2e-4)), 1e-8, 0.1))
