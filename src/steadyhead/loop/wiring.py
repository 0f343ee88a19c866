"""How the loop stands: from its parts and an arrangement to a circuit.

Rules
-----
1. Points have the names of files (``controller.signal``, ``wire.supply``, ``sensor.common``); the sensor's own pins are
   ``pin.*``, a spare's on the controller's terminals ``spare.*``, a leak along the run sits at ``run.*``.
2. A wire hangs as a chain: terminal, wire, run, contact (``sensor.*``), pin. An arrangement only opens or joins links
   of that chain; everything else stays as it is.
3. The wire ``wire.X`` comes from the plug's contact X, whatever terminal it sits on.
4. What hangs free has some 100 gigohm to common, as insulation has, so that a free end has a voltage.
5. Powered arrangements have the supply in them; dead ones have nothing but the cable.
6. With the plug off or a spare on it, what is wrong between contact and pin, or inside the sensor, is gone; what is
   wrong in the cable, its crimps included, stays. A lead laid on the floor goes from each contact of the sensor to the
   terminal of that name, and leaves the old cable and its mistakes behind.
7. A screen is tied to common at the controller, also while the wires are off.
8. A sound cable's insulation lies between the terminals of its supply and its signal wire, while both are on,
   each its own.
9. The elements of a circuit stand in this order: supply, input clamp, then the sensor's, the one that follows the
   pressure first; a signal source's last.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from math import isinf

from steadyhead.loop.devices import clamp_branch, sensor_elements, source_branch, supply_branch
from steadyhead.loop.elements import Element
from steadyhead.loop.network import COMMON, Network
from steadyhead.loop.parts import JOINT_OHM, OPEN_OHM, Leak, Loop, VoltageSensor, Wire
from steadyhead.loop.vocabulary import ARRANGEMENTS

__all__ = [
    "DEAD", "LIFTED", "PLUG_ON", "MeterInLine", "circuit", "clamp_branch", "has_own_sensor", "insulation_shows",
    "noise_reaches", "powers_sensor", "sensor_elements", "supply_branch",
]  # fmt: skip

#: What a clip lead and its two clips add [ohm].
CLIP_OHM = 0.1
#: A known-good lead laid on the floor, joints included [ohm].
LEAD_OHM = 0.6
#: An input of less than this swallows what a sound cable lets through [ohm].
SWALLOWS_OHM = 2e3
#: The least resistance of a piece of wire, so that a leak can sit at the very end of a run [ohm].
LEAST_OHM = 1e-6

DEAD = frozenset(("dead-both-free", "dead-looped"))
LIFTED = frozenset(("sensor-leads-lifted", "all-lifted", "source-at-controller", "spare-at-controller"))
_OTHERS_GONE = frozenset(("all-lifted", "supply-terminal-clear"))
#: Arrangements with a sensor on the cable's plug.
PLUG_ON = frozenset(("connected", "vented", "meter-in-signal", "supply-terminal-clear", "spare-at-plug"))
_SPARE = frozenset(("spare-at-plug", "spare-at-controller"))
_PLUG_OFF = DEAD | {"sensor-unplugged"}
_SENSOR_OUT = _PLUG_OFF | {"spare-at-plug"}
_APART = LIFTED | DEAD | {"supply-terminal-clear", "meter-in-signal", "temporary-cable"}
_QUIET = LIFTED | DEAD | {"temporary-cable"}

#: The points along each wire: its terminal, its end there, the middle of its run, the plug's contact.
_ALONG: dict[Wire, tuple[str, str, str, str]] = {
    "supply": ("controller.supply", "wire.supply", "run.supply", "sensor.supply"),
    "signal": ("controller.signal", "wire.signal", "run.signal", "sensor.signal"),
    "common": ("controller.common", "wire.common", "run.common", "sensor.common"),
}
_PINS: dict[Wire, str] = {"supply": "pin.supply", "signal": "pin.signal", "common": "pin.common"}


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
        One of the arrangement words for the wires.
    source
        What a signal source puts in, for ``source-at-controller`` [V or A].
    meter
        The milliammeter, for ``meter-in-signal``; without it the signal wire hangs free.
    asked
        Points that will be asked for; None for all. Links between points that nobody asks for are joined to one.
    """
    network = Network()
    needed = asked
    if asked is not None and loop.leaks:
        needed = asked.union(*[(leak.a, leak.b) for leak in loop.leaks])
    if arrangement not in DEAD:
        _controller(network, loop, others=others_stay(arrangement))
    _ground(network, loop, needed)
    if arrangement == "temporary-cable":
        _lead_on_the_floor(network, loop)
    else:
        _cable(network, loop, arrangement, meter, needed)
    if powers_sensor(arrangement):
        network.elements += _sensor(network, loop, arrangement)
    if arrangement == "source-at-controller" and source is not None:
        _signal_source(network, loop, source)
    return network


def powers_sensor(arrangement: str) -> bool:
    """Tell whether a sensor, the system's own or a spare, is in the circuit of an arrangement."""
    return arrangement in _SPARE or not (arrangement in _PLUG_OFF or arrangement in LIFTED)


def has_own_sensor(arrangement: str) -> bool:
    """Tell whether the system's own sensor is in the circuit of an arrangement."""
    return powers_sensor(arrangement) and arrangement not in _SPARE


def insulation_shows(loop: Loop, arrangement: str) -> bool:
    """Tell whether the insulation between the supply and the signal wire lies between their two terminals."""
    swallowed = isinf(loop.insulation_ohm) or loop.input.sink_a or loop.input.ohm < SWALLOWS_OHM
    return not (swallowed or arrangement in _APART or loop.lands_on)


def noise_reaches(arrangement: str, drive: str = "auto") -> bool:
    """Tell whether interference from the motor's cable reaches the controller's input.

    It takes a drive that runs, and the sensor's own cable. A drive in ``auto`` runs in those arrangements alone that
    leave it the pipe's pressure; in all others it was stopped first.
    """
    runs = drive == "fixed-speed" or (drive == "auto" and ARRANGEMENTS[arrangement].drive == "auto")
    return runs and arrangement not in _QUIET


def others_stay(arrangement: str) -> bool:
    """Tell whether other devices stay on the sensor supply."""
    return arrangement not in _OTHERS_GONE


def _controller(network: Network, loop: Loop, *, others: bool) -> None:
    back = COMMON
    if loop.return_ohm:
        back = "supply.return"
        network.join(back, COMMON, loop.return_ohm)
    network.add(supply_branch(loop.supply, back))
    if others and not isinf(loop.other_load_ohm):
        network.join("controller.supply", back, loop.other_load_ohm)
    if not isinf(loop.bleed_ohm):
        network.join("controller.supply", back, loop.bleed_ohm)
    given = loop.input
    network.join("controller.signal", COMMON, given.ohm)
    if not isinf(given.pull_ohm):
        network.join("controller.signal", COMMON, given.pull_ohm)
        network.push("controller.signal", given.pull_v / given.pull_ohm)
    if given.sink_a:
        network.push("controller.signal", -given.sink_a)
    network.add(clamp_branch(given))


def _ground(network: Network, loop: Loop, needed: frozenset[str] | None) -> None:
    """Bond earth to common, and tie the screen where there is one."""
    if needed is None or "earth" in needed:
        network.join("earth", COMMON, loop.earth_ohm)
    if loop.shield and (needed is None or "shield" in needed):
        network.join("shield", COMMON, JOINT_OHM)


def _cable(
    network: Network, loop: Loop, arrangement: str, meter: MeterInLine | None, needed: frozenset[str] | None
) -> None:
    plugged = arrangement not in _PLUG_OFF
    for name, conductor in loop.conductors.items():
        along = _ALONG[name]
        terminal = along[0] if name not in loop.lands_on else _ALONG[loop.lands_on[name]][0]
        landing = _landing(terminal, conductor.terminal, arrangement, meter)
        near = max(conductor.run * conductor.kink, LEAST_OHM)
        far = conductor.run * (1.0 - conductor.kink) + conductor.crimp
        pin, mating = "", conductor.mating
        if arrangement == "spare-at-plug":
            pin, mating = _PINS[name], JOINT_OHM
        elif plugged:
            pin = _PINS[loop.pinout.get(name, name)]
        ohms = (landing or 0.0, near, far, mating)
        start, spans = _chain(along, terminal if landing is not None else "", pin, needed)
        for a, b, first, end in spans:
            network.join(a, b, sum(ohms[first:end]))
        if landing is None or not plugged:
            network.join(start, COMMON, OPEN_OHM)
    if arrangement == "dead-looped":
        contacts = [_ALONG[name][3] for name in loop.conductors]
        for contact in contacts[1:]:
            network.join(contacts[0], contact, CLIP_OHM)
    if insulation_shows(loop, arrangement):
        network.join("controller.supply", "controller.signal", loop.insulation_ohm)
    _leaks(network, loop, arrangement)


def _landing(terminal: str, ohm: float, arrangement: str, meter: MeterInLine | None) -> float | None:
    """Return the resistance between a wire's end and its terminal [ohm], or None where it is taken off."""
    if arrangement in DEAD or arrangement in LIFTED:
        return None
    if arrangement == "supply-terminal-clear" and terminal == "controller.supply":
        return None
    if arrangement == "meter-in-signal" and terminal == "controller.signal":
        return meter.ohm if meter else None
    return ohm


@lru_cache(maxsize=4096)
def _chain(
    along: tuple[str, str, str, str], terminal: str, pin: str, needed: frozenset[str] | None
) -> tuple[str, tuple[tuple[str, str, int, int], ...]]:
    """Return where a wire's chain begins, and its links between the points that are needed.

    Parameters
    ----------
    along
        The points along the wire.
    terminal
        The terminal that it lands on, or nothing where it is taken off.
    pin
        The sensor's pin behind the plug, or nothing where the plug is off.
    needed
        Points that will be asked for, None for all; the others are passed over.

    Returns
    -------
    tuple
        The first point; for each link its two points, and which of the chain's resistances (landing, near part of the
        run, far part with the crimp, mating) lie between them: the first one's number and that after the last.
    """
    nodes = [terminal, *along[1:], pin]
    first, last = (0 if terminal else 1), (4 if pin else 3)
    links, start = [], first
    for number in range(first + 1, last + 1):
        if number == last or needed is None or nodes[number] in needed:
            links.append((nodes[start], nodes[number], start, number))
            start = number
    return nodes[first], tuple(links)


def _leaks(network: Network, loop: Loop, arrangement: str) -> None:
    """Add the leaks; those on the sensor's own pins only while it is there, on the terminals while there is power."""
    for leak in loop.leaks:
        at_pins = leak.a.startswith("pin.") or leak.b.startswith("pin.")
        if not (at_pins and arrangement in _SENSOR_OUT) and not (_at_terminals(leak) and arrangement in DEAD):
            _leak(network, leak)


def _at_terminals(leak: Leak) -> bool:
    """Tell whether a leak lies across the terminals themselves, where it stays with every wire off."""
    return leak.a.startswith("controller.")


def _leak(network: Network, leak: Leak) -> None:
    """Add a leak, with the battery that a wet joint is."""
    network.join(leak.a, leak.b, leak.ohm)
    if leak.volts:
        network.push(leak.a, leak.volts / leak.ohm)
        network.push(leak.b, -leak.volts / leak.ohm)


def _lead_on_the_floor(network: Network, loop: Loop) -> None:
    """Join the sensor's contacts to the terminals of their names; what leaks at its pins or the terminals stays."""
    for name in loop.conductors:
        contact = _ALONG[name][3]
        network.join(_ALONG[name][0], contact, LEAD_OHM)
        network.join(contact, _PINS[loop.pinout.get(name, name)], CLIP_OHM)
    for leak in loop.leaks:
        at_pins = leak.a.startswith("pin.") and (leak.b.startswith("pin.") or leak.b == "earth")
        if at_pins or _at_terminals(leak):
            _leak(network, leak)


def _sensor(network: Network, loop: Loop, arrangement: str) -> tuple[Element, ...]:
    """Return the elements of the sensor that is there, if any; a spare at the controller brings its own lead."""
    if arrangement == "spare-at-controller":
        for name in loop.conductors:
            network.join(_ALONG[name][0], f"spare.{name}", CLIP_OHM)
        return sensor_elements(loop.spare, "spare") if loop.spare else ()
    part = loop.spare if arrangement in _SPARE else loop.sensor
    return sensor_elements(part) if part else ()


def _signal_source(network: Network, loop: Loop, amount: float) -> None:
    """Put a signal source on the input: an active current, or volts behind a little resistance."""
    if not isinstance(loop.sensor, VoltageSensor):
        network.add(source_branch(amount))
        return
    network.join("controller.signal", COMMON, loop.signal_source_ohm)
    network.push("controller.signal", amount / loop.signal_source_ohm)
