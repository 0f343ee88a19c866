"""How the loop stands: from its parts and an arrangement to a circuit.

Rules
-----
1. Points have the names of files (``controller.signal``, ``wire.supply``, ``sensor.common``); the sensor's own pins are
   ``pin.*``, a leak along the run sits at ``run.*``.
2. A wire hangs as a chain: terminal, wire, run, contact (``sensor.*``), pin. An arrangement only opens or joins links
   of that chain; everything else stays as it is.
3. The wire ``wire.X`` comes from the sensor's pin X, whatever terminal it sits on.
4. Every conductor has some 100 gigohm to common, as insulation has, so that a free end has a voltage.
5. Powered arrangements have the supply in them; dead ones have nothing but the cable.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import isinf

from steadyhead.loop.elements import SLIGHT, Branch, Element, OutputStage, SourcedCurrent, chain
from steadyhead.loop.network import COMMON, Network
from steadyhead.loop.parts import (
    OPEN_OHM,
    Conductor,
    CurrentSensor,
    Input,
    Loop,
    LoopSensor,
    Sensor,
    Supply,
    VoltageSensor,
    Wire,
)

#: What a clip lead and its two clips add [ohm].
CLIP_OHM = 0.1
#: Slope of a part that should let nothing through [S].
TRICKLE = 1e-8
#: A silicon junction's volts, and what its current meets beyond [V, ohm].
JUNCTION_V = 0.6
JUNCTION_OHM = 10.0
#: What a regulated supply still takes when it is driven above its own volts [S].
BACKFEED = 1e-6
#: A two-wire signal source's own volts [V].
SOURCE_V = 24.0
#: Resistance of a voltage source or of a potentiometer's wiper [ohm].
SOURCE_OHM = 100.0

DEAD = frozenset(("dead-both-free", "dead-looped"))
LIFTED = frozenset(("sensor-leads-lifted", "all-lifted", "source-at-controller", "spare-at-controller"))
_OTHERS_GONE = frozenset(("all-lifted", "supply-terminal-clear"))
_SPARE = frozenset(("spare-at-plug", "spare-at-controller"))


@dataclass(frozen=True, slots=True, kw_only=True)
class MeterInLine:
    """A milliammeter's own resistance in the signal wire [ohm]."""

    ohm: float


def circuit(
    loop: Loop,
    arrangement: str,
    *,
    source: float | None = None,
    meter: MeterInLine | None = None,
    asked: frozenset[str] | None = None,
) -> Network:
    """Return the circuit of a loop as it stands in an arrangement.

    Parameters
    ----------
    loop
        The loop, with every number known. For ``vented`` its sensor's output must already be that of the open air.
    arrangement
        One of DESIGN's arrangement words for the wires.
    source
        What a signal source puts in, for ``source-at-controller`` [V or A].
    meter
        The milliammeter, for ``meter-in-signal``.
    asked
        Points that will be asked for; None for all. Links between points that nobody asks for are joined to one.
    """
    network = Network()
    dead = arrangement in DEAD
    if not dead:
        _controller(network, loop, others=arrangement not in _OTHERS_GONE)
    network.join("earth", COMMON, loop.earth_ohm)
    if arrangement == "temporary-cable":
        _straight_to_terminals(network, loop)
    else:
        _cable(network, loop, arrangement, meter, asked)
    if arrangement == "source-at-controller" and source is not None:
        _signal_source(network, loop.screen.kind == "current", source)
    if powers_sensor(arrangement):
        for element in sensor_elements(loop.spare if arrangement in _SPARE else loop.sensor):
            network.add(element)
    return network


def powers_sensor(arrangement: str) -> bool:
    """Tell whether a sensor, the system's own or a spare, is in the circuit of an arrangement."""
    if arrangement in DEAD or arrangement == "sensor-unplugged":
        return False
    return arrangement in _SPARE or arrangement not in LIFTED


def has_own_sensor(arrangement: str) -> bool:
    """Tell whether the system's own sensor is in the circuit of an arrangement."""
    return powers_sensor(arrangement) and arrangement not in _SPARE


def _controller(network: Network, loop: Loop, *, others: bool) -> None:
    back = "supply.return" if loop.return_ohm else COMMON
    network.join(back, COMMON, loop.return_ohm or 1.0)
    network.add(supply_branch(loop.supply, back))
    if others and not isinf(loop.other_load_ohm):
        network.join("controller.supply", COMMON, loop.other_load_ohm)
    given = loop.input
    network.join("controller.signal", COMMON, given.ohm)
    if not isinf(given.pull_ohm):
        network.join("controller.signal", COMMON, given.pull_ohm)
        network.push("controller.signal", given.pull_v / given.pull_ohm)
    network.add(clamp_branch(given))


def supply_branch(supply: Supply, back: str = COMMON) -> Branch:
    """Return the supply as a branch from its terminal back to its zero: limited, straight, or driven from outside."""
    if supply.volts <= 0.0:
        return chain("controller.supply", back, [(0.0, 0.0)], (BACKFEED, BACKFEED), 0)
    siemens = 1.0 / supply.source_ohm
    knee = supply.volts - supply.limit_a * supply.source_ohm
    corners = [(knee, -supply.limit_a), (supply.volts, 0.0)]
    return chain("controller.supply", back, corners, (siemens * SLIGHT, BACKFEED), 1)


def clamp_branch(given: Input) -> Branch:
    """Return the input's clamp: nothing within its limits, `clamp_ohm` beyond."""
    return chain(
        "controller.signal",
        COMMON,
        [(-JUNCTION_V, -JUNCTION_V * TRICKLE), (given.clamp_v, given.clamp_v * TRICKLE)],
        (1.0 / given.clamp_ohm, 1.0 / given.clamp_ohm),
        1,
    )


def _cable(
    network: Network, loop: Loop, arrangement: str, meter: MeterInLine | None, asked: frozenset[str] | None
) -> None:
    leaking = {end for leak in loop.leaks for end in (leak.a, leak.b)}
    plugged = arrangement not in DEAD and arrangement != "sensor-unplugged"
    for name, conductor in loop.conductors.items():
        landing = _landing(f"controller.{loop.lands_on.get(name, name)}", conductor.terminal, arrangement, meter)
        links = _links(name, conductor, landing, plugged)
        _chain(network, links, None if asked is None else asked | leaking)
        if landing is None or not plugged:
            network.join(links[0][0], COMMON, OPEN_OHM)
    if arrangement == "dead-looped":
        names = list(loop.conductors)
        for first, second in zip(names, names[1:], strict=False):
            network.join(f"sensor.{first}", f"sensor.{second}", CLIP_OHM)
    _leaks(network, loop, sensor_gone=not plugged)


_Link = tuple[str, str, float]


def _landing(terminal: str, ohm: float, arrangement: str, meter: MeterInLine | None) -> tuple[str, float] | None:
    """Return the terminal that a wire sits on and the resistance between, or None where it is taken off."""
    if arrangement in DEAD or arrangement in LIFTED:
        return None
    if arrangement == "supply-terminal-clear" and terminal == "controller.supply":
        return None
    if arrangement == "meter-in-signal" and terminal == "controller.signal":
        return (terminal, meter.ohm if meter else OPEN_OHM)
    return (terminal, ohm)


def _links(name: Wire, conductor: Conductor, landing: tuple[str, float] | None, plugged: bool) -> list[_Link]:
    """Return a wire's chain as it hangs, from the controller's side to the sensor's."""
    wire, run, contact = f"wire.{name}", f"run.{name}", f"sensor.{name}"
    near = max(conductor.run * conductor.kink, 1e-6)
    far = conductor.run * (1.0 - conductor.kink) + conductor.crimp
    links = [(landing[0], wire, landing[1])] if landing else []
    links += [(wire, run, near), (run, contact, far)]
    return [*links, (contact, f"pin.{name}", conductor.mating)] if plugged else links


def _chain(network: Network, links: list[_Link], asked: frozenset[str] | None) -> None:
    """Join a chain, passing over the points that nobody asks for."""
    if asked is None:
        for a, b, ohm in links:
            network.join(a, b, ohm)
        return
    start, total = links[0][0], 0.0
    last = links[-1][1]
    for _, b, ohm in links:
        total += ohm
        if b in asked or b == last:
            network.join(start, b, total)
            start, total = b, 0.0


def _leaks(network: Network, loop: Loop, *, sensor_gone: bool) -> None:
    for leak in loop.leaks:
        if sensor_gone and (leak.a.startswith("pin.") or leak.b.startswith("pin.")):
            continue
        network.join(leak.a, leak.b, leak.ohm)
        if leak.volts:
            network.push(leak.a, leak.volts / leak.ohm)
            network.push(leak.b, -leak.volts / leak.ohm)


def _straight_to_terminals(network: Network, loop: Loop) -> None:
    """Join the sensor's pins to their terminals by a lead laid on the floor; the old cable hangs free."""
    for name in loop.conductors:
        network.join(f"controller.{name}", f"sensor.{name}", CLIP_OHM + 0.5)
        network.join(f"sensor.{name}", f"pin.{name}", CLIP_OHM)
    for leak in loop.leaks:
        if leak.a.startswith("pin.") and (leak.b.startswith("pin.") or leak.b in ("earth", COMMON)):
            network.join(leak.a, leak.b, leak.ohm)


def _signal_source(network: Network, current: bool, amount: float) -> None:
    if current:
        network.add(_active_source(amount))
        return
    network.join("controller.signal", COMMON, SOURCE_OHM)
    network.push("controller.signal", amount / SOURCE_OHM)


def _active_source(amount: float) -> Branch:
    """Return a current source that gives up near its own volts: from the signal terminal's side a falling current."""
    return chain(
        "controller.signal",
        COMMON,
        [(SOURCE_V - 2.0, -amount), (SOURCE_V, 0.0)],
        (amount * 1e-4, amount * 1e-4),
        0,
    )


def sensor_elements(part: Sensor, pins: str = "pin") -> list[Element]:
    """Return a sensor as elements on its pins; what follows the pressure comes first."""
    if isinstance(part, VoltageSensor):
        return _voltage_sensor(part, pins)
    if isinstance(part, LoopSensor):
        return [loop_branch(part, f"{pins}.supply", f"{pins}.signal")]
    return _current_sensor(part, pins)


def _voltage_sensor(part: VoltageSensor, pins: str) -> list[Element]:
    supply, signal, common = f"{pins}.supply", f"{pins}.signal", f"{pins}.common"
    breaks, targets = target_pieces(part)
    found: list[Element] = [
        OutputStage(supply, signal, common, breaks, targets, 1.0 / part.output_ohm, part.source_a, part.sink_a),
        _draw_branch(supply, common, part.draw_siemens, part.reverse),
    ]
    if part.diodes:
        found += [_junction(signal, supply), _junction(common, signal)]
    return found


def target_pieces(part: VoltageSensor) -> tuple[tuple[float, ...], tuple[tuple[float, float], ...]]:
    """Return where the output wants to be, as straight pieces of the sensor's supply volts.

    Starved it follows its common or its supply; from `wakes_v` to `works_v` it comes to its right value; above it is
    right, though never nearer than `headroom_v` to its supply.
    """
    wakes, works = part.wakes_v, part.works_v
    starved = 1.0 if part.starved == "supply" else 0.0
    if part.volts <= 0.0:
        ratio = min(part.ratio, 1.0 - part.headroom_v / max(works, 1e-3))
        slope = (ratio * works - starved * wakes) / (works - wakes)
        return (wakes, works), ((starved, 0.0), (slope, starved * wakes - slope * wakes), (ratio, 0.0))
    knee = max(part.volts + part.headroom_v, works)
    at_works = min(part.volts, works - part.headroom_v)
    slope = (at_works - starved * wakes) / (works - wakes)
    rise = (part.volts - at_works) / (knee - works) if knee > works else 0.0
    if knee <= works + 1e-9:
        return (wakes, works), (
            (starved, 0.0),
            (slope, starved * wakes - slope * wakes),
            (0.0, part.volts),
        )
    return (wakes, works, knee), (
        (starved, 0.0),
        (slope, starved * wakes - slope * wakes),
        (rise, at_works - rise * works),
        (0.0, part.volts),
    )


def _draw_branch(supply: str, common: str, siemens: float, reverse: str) -> Branch:
    back = 1.0 if reverse == "diode" else TRICKLE
    return chain(
        supply, common, [(-JUNCTION_V, -JUNCTION_V * TRICKLE), (0.0, 0.0)], (back, siemens), 2
    )


def _junction(a: str, b: str) -> Branch:
    return chain(a, b, [(JUNCTION_V, JUNCTION_V * TRICKLE)], (TRICKLE, 1.0 / JUNCTION_OHM), 0)


def loop_branch(part: LoopSensor, plus: str, minus: str) -> Branch:
    """Return a two-wire sensor: nothing until it wakes, then rising to the current that the pressure asks for."""
    back = 0.1 if part.reverse == "diode" else TRICKLE
    return chain(
        plus,
        minus,
        [
            (-JUNCTION_V, -JUNCTION_V * TRICKLE),
            (part.wakes_v, part.wakes_v * TRICKLE),
            (part.least_v, part.amperes),
        ],
        (back, 1e-6),
        3,
    )


def _current_sensor(part: CurrentSensor, pins: str) -> list[Element]:
    supply, signal, common = f"{pins}.supply", f"{pins}.signal", f"{pins}.common"
    return [
        SourcedCurrent(supply, signal, common, part.amperes, part.headroom_v, part.wakes_v, part.works_v),
        _draw_branch(supply, common, part.draw_siemens, "nothing"),
    ]
