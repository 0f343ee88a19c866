"""What can hurt someone while the repair is made: the cautions that belong to each remedy.

Everything that affects the cautions of a repair lives in this file.

Rules
-----
1. Work on wires and boards is done dead. What is screwed into the pipe comes out without pressure, and clean.
2. What gives the drive its signal back can start the pump.
3. A pair of remedies has the cautions of both, each once.
4. Where the power goes off for it and nobody has read the display's fault, that is said too (`cautions_for`).
"""

from __future__ import annotations

from steadyhead.diagnosis.cautions import evidence
from steadyhead.messages import Message, message
from steadyhead.visit.record import Visit

DEAD = (message("lock-out"), message("capacitors-hold-charge"), message("prove-tester-then-dead"))
WATER = (message("water-is-off"), message("relieve-pressure"), message("keep-water-clean"))
STARTS = (message("starts-by-itself"),)
TAGS = (message("tag-wires"),)

REPAIR_CAUTIONS: dict[str, tuple[Message, ...]] = {
    "none": (),
    "look-further": (),
    "repair-cable": (*DEAD, *TAGS, *STARTS),
    "correct-wiring": (*DEAD, *TAGS, *STARTS),
    "reroute-cable": (*DEAD, *STARTS),
    "replace-sensor": (*DEAD, *TAGS, *WATER, *STARTS),
    "clear-port": (*DEAD, *WATER, *STARTS),
    "open-cock": STARTS,
    "move-tap": (*DEAD, *WATER, *STARTS),
    "replace-board": (*DEAD, *TAGS, *STARTS),
    "remove-load": (*DEAD, *TAGS, *STARTS),
    "correct-setting": STARTS,
    "clear-vacuum": (message("keep-water-clean"), *STARTS),
    "replace-gauge": WATER,
    "mend-meter": (message("meter-category"),),
}


def repair_cautions(remedy: str) -> tuple[Message, ...]:
    """Return what must be heeded while a remedy, or a pair ``x+y`` of them, is carried out.

    Raises
    ------
    KeyError
        A remedy without a row: a mistake of the program.
    """
    told = [each for part in remedy.split("+") for each in REPAIR_CAUTIONS[part]]
    return tuple({each.id: each for each in told}.values())


def cautions_for(remedy: str, visit: Visit) -> tuple[Message, ...]:
    """Return what must be heeded before a remedy is carried out in a visit; what the display knows is kept."""
    told = repair_cautions(remedy)
    if told[: len(DEAD)] != DEAD:
        return told
    return (*DEAD, *evidence(visit), *told[len(DEAD) :])
