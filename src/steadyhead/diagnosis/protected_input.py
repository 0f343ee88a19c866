"""A current input that protects itself: it lets through no more than its limit, whatever drives it.

Rules
-----
1. A signal of 4 to 20 mA never comes near the limit: only a short from the supply to the signal does (common practice:
   25 to 45 mA, in every eighth input or so; the others stand the 96 mA of 24 V on 250 ohm, or burn).
2. At its limit it is no resistance but a sink: the loop is solved again with that.
3. Its shunt carries the limit then: the display shows the limit, not the volts at its terminal.
"""

from __future__ import annotations

from collections.abc import Callable

from steadyhead.loop.parts import Loop
from steadyhead.loop.solve import Operation

#: What is left of the input's conductance once it is a sink [ohm].
SINK_OHM = 1e8
SIGNAL = "controller.signal"


def at_its_limit(
    loop: Loop, operation: Operation, limit_a: float, solved: Callable[[Loop], Operation]
) -> tuple[Loop, Operation]:
    """Return the loop with an input that takes its limit, and its operating point; the same ones below the limit.

    Parameters
    ----------
    loop, operation
        The loop with the input's plain resistance, solved.
    limit_a
        What the input lets through at most [A].
    solved
        Solves a loop in the same arrangement.
    """
    if operation.volt(SIGNAL) / loop.input.ohm <= limit_a:
        return loop, operation
    loop = shown(loop._replace(input=loop.input._replace(ohm=SINK_OHM, sink_a=limit_a)), loop.input.ohm)
    return loop, solved(loop)


def shown(loop: Loop, ohm: float) -> Loop:
    """Return the loop with a screen that shows what its input sinks through a shunt of so many ohms."""
    screen = loop.screen
    signal = screen.gain * loop.input.sink_a * ohm / screen.burden_ohm + screen.zero
    return loop._replace(screen=screen._replace(blind=signal))
