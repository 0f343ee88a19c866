"""What an instrument, or the controller's display, shows of a loop: the true value, before any instrument's error.

Rules
-----
1. A voltmeter is in the circuit with its own resistance; a milliammeter with its burden; an ohmmeter with its test
   current, on a loop without power.
2. A figure that lies past what the instrument can show is returned as it is: whoever compares knows the limit.
3. The display goes on along the line of its scale, below zero and past full scale, also while a fault is shown.
"""

from __future__ import annotations

from steadyhead.loop.network import COMMON
from steadyhead.loop.parts import VOLTMETER_OHM, Loop, Screen
from steadyhead.loop.solve import Operation, solve
from steadyhead.loop.wiring import MeterInLine, circuit

#: A milliammeter's burden with its fuse [ohm] (common practice: 2 to 15 ohm on the milliamp jack).
MILLIAMMETER_OHM = 5.0
#: What most meters show as OL on ohms [ohm], and an insulation tester as its end of scale.
OHMS_TOP = 40e6
MEGOHMS_TOP = 4e9
#: An ohmmeter's ranges: their ends [ohm], and the currents that they test with [A] (common practice: about half a
#: milliampere for the lowest one, a decade less for a decade more, and next to nothing at the end).
OHM_RANGES = ((500.0, 5e-4), (5e3, 1e-4), (50e3, 1e-5), (500e3, 1e-6), (5e6, 2e-7), (float("inf"), 5e-8))


def at_rest(
    loop: Loop,
    arrangement: str,
    source: float | None = None,
    asked: frozenset[str] | None = None,
    guess: tuple[int, ...] | None = None,
) -> Operation:
    """Return the loop's operating point in an arrangement, with a milliammeter where the arrangement has one.

    `asked` names the points that will be asked for, None all of them; the controller's own are always there. `guess`
    holds the regions of a circuit that differs a little.
    """
    meter = None
    if arrangement == "meter-in-signal":
        meter = MeterInLine(ohm=MILLIAMMETER_OHM)
        if asked is not None:
            asked = asked | _WIRES
    network = circuit(loop, arrangement, source=source, meter=meter, asked=asked)
    return solve(network, guess if guess is not None and len(guess) == len(network.elements) else None)


_WIRES = frozenset(("wire.supply", "wire.signal", "wire.common"))


def volts(operation: Operation, red: str, black: str) -> float:
    """Return what a voltmeter shows, red lead on `red` and black on `black` [V]."""
    return operation.between(red, black, VOLTMETER_OHM)


def milliammeter(operation: Operation, loop: Loop) -> float:
    """Return the current through the meter between the wire taken off the signal terminal and that terminal [A]."""
    for name in loop.conductors:
        if loop.lands_on.get(name, name) == "signal":
            return operation.between(f"wire.{name}", "controller.signal") / MILLIAMMETER_OHM
    return 0.0


def ohms(loop: Loop, arrangement: str, red: str, black: str) -> float:
    """Return what an ohmmeter shows between two free ends [ohm], misled by a wet joint's own volts.

    It ranges up until what it makes of the volts at its test current fits, so that a wet joint of few ohms, whose own
    volts do not fit a low range, may be shown as kilohms.
    """
    quiet = _dead_network(loop, arrangement, red, black)
    offset = quiet.between(red, black)
    resistance = quiet.ohms_between(red, black)
    shown = (resistance + offset / amperes for top, amperes in OHM_RANGES if resistance + offset / amperes < top)
    return next(shown)


def dead_volts(loop: Loop, arrangement: str, red: str, black: str) -> float:
    """Return the volts of a wet joint's battery between two free ends [V]."""
    return _dead_network(loop, arrangement, red, black).between(red, black, VOLTMETER_OHM)


def _dead_network(loop: Loop, arrangement: str, red: str, black: str) -> Operation:
    network = circuit(loop, arrangement)
    for point in (red, black):
        if point != COMMON:
            network.push(point, 0.0)
    return solve(network)


def seen_signal(operation: Operation, screen: Screen) -> float:
    """Return the signal that the controller takes its input for [V or A].

    A ratiometric converter measures against the sensor's own supply, a current input over its burden.
    """
    if screen.blind is not None:
        return screen.blind
    volt = operation.volt("controller.signal")
    if screen.kind == "current":
        return screen.gain * volt / screen.burden_ohm + screen.zero
    if screen.kind == "ratiometric":
        supply = operation.volt("controller.supply")
        if supply < screen.least_reference_v:
            return screen.zero
        volt *= screen.reference_v / supply
    return screen.gain * volt + screen.zero


def shown_pressure(signal: float, screen: Screen) -> float:
    """Return the pressure that the display makes of a signal [Pa]."""
    if screen.simulated_pa is not None:
        return screen.simulated_pa
    part = (signal - screen.low) / (screen.high - screen.low)
    return screen.scale_low + part * (screen.scale_high - screen.scale_low) + screen.offset_pa
