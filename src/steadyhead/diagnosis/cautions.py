"""What can hurt someone at each check, how each is brought about, and in which drive state.

Everything that affects the cautions of a check lives in this file.

Rules
-----
1. Every check has its drive state, its cautions and its way.
2. An arrangement that hides the true pressure from the drive can send the pump to full speed: it is never offered
   without stopping the drive first.
3. Cautions come in the order in which they are needed. Local codes and a licensed person come before all of them.
4. Power that goes off wipes what many a display remembers: as long as nobody has read the display's fault, has had the
   power off or has mended anything, that is said with what may hurt. Nothing here tells anybody to reset a drive.
"""

from __future__ import annotations

from steadyhead.diagnosis.observing import Question
from steadyhead.diagnosis.system import System
from steadyhead.loop.vocabulary import ARRANGEMENTS, METER_MEASURES
from steadyhead.loop.wiring import DEAD
from steadyhead.messages import Message, message
from steadyhead.visit.record import Visit

#: Arrangements in which the drive no longer sees the pipe's pressure.
HIDES_PRESSURE = frozenset(
    (
        "sensor-unplugged", "supply-terminal-clear", "meter-in-signal", "sensor-leads-lifted", "all-lifted", "vented",
        "source-at-controller", "temporary-cable", "spare-at-controller", "spare-at-plug",
    )
)  # fmt: skip
#: Arrangements for which wires are taken off terminals.
LIFTS_WIRES = frozenset(
    ("meter-in-signal", "sensor-leads-lifted", "all-lifted", "supply-terminal-clear", "source-at-controller",
     "spare-at-controller", "temporary-cable", "dead-both-free", "dead-looped")
)  # fmt: skip

#: Looks for which a line is opened, and looks with the panel's cover off.
OPENS_WATER = frozenset(("port", "gauge-zero"))
AT_TERMINALS = frozenset(("wiring-order", "wiggle", "connections", "moisture", "min-max"))
#: Drive state of each look; any other is made with the drive stopped.
OF_A_LOOK = {"connections": "off", "moisture": "off", "port": "off", "min-max": "auto"}


def drive_state(question: Question) -> str:
    """Return the drive state in which a check is made.

    A meter in the signal wire breaks the loop for a moment, so the drive is stopped for it too. What comes and goes is
    waited for with the system as found, since it may need the motor's noise or its vibration.
    """
    if question.measure == "inspection":
        return OF_A_LOOK.get(question.item or "", "stopped")
    if question.arrangement in HIDES_PRESSURE:
        return "stopped"
    return ARRANGEMENTS[question.arrangement].drive


def cautions(system: System, question: Question) -> tuple[Message, ...]:
    """Return what must be heeded before a check, most urgent first."""
    found: list[Message] = []
    state = drive_state(question)
    live = question.measure in METER_MEASURES and question.arrangement not in DEAD
    if state == "off":
        found += [message("lock-out"), message("capacitors-hold-charge"), message("prove-tester-then-dead")]
        found += evidence(system.visit)
    elif state == "stopped":
        found.append(message("stop-the-drive"))
        if system.visit.controller.auto_restart is not False:
            found.append(message("starts-by-itself"))
    found += _at_the_water(question)
    if live or (question.item in AT_TERMINALS and state != "off"):
        found.append(message("mains-beside-terminals"))
    if question.measure == "megohms":
        found.append(message("no-insulation-test-into-electronics"))
    if question.arrangement in LIFTS_WIRES:
        found.append(message("tag-wires"))
    if question.arrangement == "source-at-controller":
        found.append(message("source-never-against-powered-loop"))
    if question.measure == "milliamps":
        found.append(message("milliamp-jack-and-back"))
    return tuple(found)


def _at_the_water(question: Question) -> list[Message]:
    """Return what must be heeded where a line is opened, or a gauge put onto a tap."""
    if question.arrangement == "vented" or question.item in OPENS_WATER:
        return [message("relieve-pressure"), message("keep-water-clean"), message("water-is-off")]
    return [message("keep-water-clean")] if question.whose else []


def evidence(visit: Visit) -> tuple[Message, ...]:
    """Return that the display is read before its power goes off, as long as nobody has."""
    too_late = visit.actions or any(reading.drive == "off" for reading in visit.readings)
    kept = any(reading.measure == "displayed-fault" for reading in visit.readings)
    return () if kept or too_late else (message("keep-the-evidence"),)


def how(system: System, question: Question) -> Message:
    """Return how a check is brought about."""
    if question.measure == "inspection":
        return message(f"how-look-{question.item}")
    if question.arrangement == "connected" and question.measure not in METER_MEASURES:
        return message(f"how-{question.named}")
    unit = None if question.source is None else system.unit
    return message(
        f"how-{question.arrangement}", measure=question.measure, red=question.red, black=question.black,
        source=question.source, source_unit=unit,
    )  # fmt: skip
