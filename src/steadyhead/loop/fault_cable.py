"""What the faults of a cable and its ends do to a loop.

Rules
-----
1. A break still lets a little through, as damp air and dirty plastic do.
2. A two-wire cable has no common wire: its leak to common goes by the screen, or by earth where there is none.
3. A damp joint of two metals is a battery; a hard short is none.
4. What the cable picks up makes the figures jump, shows on AC volts, and shifts the sensor a little by rectification.
"""

from __future__ import annotations

from steadyhead.loop.draft import LoopDraft
from steadyhead.loop.fault_words import BLOCK, CRIMP, MATING, RUN, TERMINAL, Change
from steadyhead.loop.parts import Leak, Wire

#: What a broken place still lets through [ohm]: from damp air to clean, dry plastic.
BROKEN_OHM = 3e9
#: The points on which a path between wires sits, by its place.
_END = {TERMINAL: "wire", BLOCK: "controller", RUN: "run", CRIMP: "sensor", MATING: "pin"}
#: A damp joint's own volts, by its place: some tens to hundreds of millivolts of either sign (common practice) [V].
WET_V = {TERMINAL: 0.12, BLOCK: 0.1, RUN: -0.2, CRIMP: 0.25, MATING: -0.15}


#: The number of a wire's chain to which a place adds resistance.
_PART = {TERMINAL: "terminal", RUN: "run", CRIMP: "crimp", MATING: "mating"}


def _in_series(draft: LoopDraft, wire: Wire, ohm: float, place: str) -> None:
    """Add a resistance to one wire's chain."""
    chain = draft.wires[wire]
    setattr(chain, _PART[place], getattr(chain, _PART[place]) + ohm)


def opened(wire: Wire) -> Change:
    """Return a break of one wire."""

    def change(draft: LoopDraft, severity: float, place: str) -> None:
        _in_series(draft, wire, BROKEN_OHM, place)

    return change


def resistive(wire: Wire) -> Change:
    """Return a bad joint in one wire; the severity is its resistance [ohm]."""

    def change(draft: LoopDraft, severity: float, place: str) -> None:
        _in_series(draft, wire, severity, place)

    return change


def cut(draft: LoopDraft, severity: float, place: str) -> None:
    """Break every wire at one place."""
    for wire in draft.wires:
        _in_series(draft, wire, BROKEN_OHM, place)


def between(first: str, second: str, *, wet: bool) -> Change:
    """Return a path between two wires, or from a wire to earth; the severity is its resistance [ohm]."""

    def change(draft: LoopDraft, severity: float, place: str) -> None:
        end = _END[place]
        b = f"{end}.{second}"
        if second == "earth":
            b = "earth"
        elif second == "common" and "common" not in draft.wires and place != BLOCK:
            b = "shield" if draft.shield else "earth"
        draft.leaks.append(Leak(a=f"{end}.{first}", b=b, ohm=severity, volts=WET_V[place] if wet else 0.0))

    return change


def lands(*, supply: Wire, signal: Wire, common: Wire) -> Change:
    """Return a wiring mistake: the terminal on which each wire sits."""
    terminals: dict[Wire, Wire] = {"supply": supply, "signal": signal, "common": common}

    def change(draft: LoopDraft, severity: float, place: str) -> None:
        draft.lands_on = {wire: terminals[wire] for wire in draft.wires}

    return change


def noise(draft: LoopDraft, severity: float, place: str) -> None:
    """Let the cable pick up a motor's noise; the severity is how far figures jump [parts of span].

    What rectifies it shifts their mean either way, which is the doubt of every figure that jumps.
    """
    draft.noise_v = severity * 4.0
    draft.jump = severity


def screen_looped(draft: LoopDraft, severity: float, place: str) -> None:
    """Let a screen that is earthed at both ends carry a current; the severity is twice the jump [parts of span]."""
    draft.noise_v = severity * 2.0
    draft.jump = 0.5 * severity
