"""Pieces that several papers share: the head, the plate, the terminals, the cautions that belong to what was done.

Rules
-----
1. Local codes and a licensed person come first, and are named once on a paper.
2. A caution is told once, however many steps it belonged to.
"""

from __future__ import annotations

from collections.abc import Iterator

from steadyhead.diagnosis.answer import Answer
from steadyhead.diagnosis.cautions import cautions
from steadyhead.diagnosis.observing import question_of
from steadyhead.diagnosis.system import System
from steadyhead.documents.numbers import in_unit
from steadyhead.documents.paper import Block, Care, Line, Next, Paper, Paragraph, Shown
from steadyhead.messages import Message, message
from steadyhead.service.papers.occasion import Occasion
from steadyhead.service.papers.one_unit import limit_turned, own_unit
from steadyhead.service.papers.readings import places_for, plate, value_line, what_within
from steadyhead.service.repair_cautions import REPAIR_CAUTIONS, repair_cautions

Row = tuple[Message, Line]


def head_of(seen: Occasion, kind: str, title: Message) -> Paper:
    """Return a paper of a kind with its head, and nothing on it yet."""
    current = seen.visit.sensor.signal.kind == "current"
    return Paper(
        kind=kind, title=title, subject=subject(seen), dated=seen.dated, day=seen.day, number=seen.number(kind),
        link=seen.link,
        units=(("pressure", seen.visit.pressure_unit), ("current", "mA" if current else "A")),
    )  # fmt: skip


def subject(seen: Occasion) -> Message:
    """Return what a paper is about: the system by its name."""
    return message("paper-subject", name=seen.name) if seen.name else message("paper-nameless")


def invented(seen: Occasion) -> tuple[Block, ...]:
    """Return the line that says that a visit was made up to try things out, where it was."""
    return (Paragraph(line=(message("paper-invented"),), tone="strong"),) if seen.demo else ()


def plate_assumed(seen: Occasion) -> tuple[Block, ...]:
    """Return the line that says that a plate was not read, where its range and its signal are the usual ones."""
    return (Paragraph(line=(message("paper-plate-assumed"),), tone="strong"),) if seen.assumed else ()


def what_was_wrong(seen: Occasion) -> Message:
    """Return what was at fault, and how sure that is."""
    if seen.visit.closed.fault:
        return message("paper-closed", fault=seen.visit.closed.fault)
    found = seen.found
    if found is None:
        return message("paper-unjudged")
    verdict = found.verdict
    if not seen.visit.readings and not verdict.settled:
        return message("paper-nothing-known")
    fault = next(each.fault for each in found.suspects if each.remedy == verdict.remedy)
    if verdict.state == "proved":
        return message("paper-proved", fault=fault)
    return message("paper-likely" if verdict.settled else "paper-open", fault=fault)


def convicting(seen: Occasion, found: Answer) -> Line:
    """Return the reading that proves it, with what came out; an empty line where none does."""
    because = found.verdict.because
    number = because.values.get("reading")
    if not isinstance(number, int):
        return ()
    reading = seen.visit.readings[number - 1]
    told = (*what_within(reading), message("paper-colon"), *value_line(reading, seen))
    return (message("paper-reading", number=number), *told, message("paper-only-so"))


def done_lines(seen: Occasion) -> tuple[Line, ...]:
    """Return what was done, and after which reading."""
    return tuple(
        (message("paper-done", remedy=action.remedy), message("paper-after", after=action.after_reading))
        for action in seen.visit.actions
    )


def plate_rows(seen: Occasion) -> tuple[Row, ...]:
    """Return the sensor's plate: its range and its signal."""
    sensor = seen.visit.sensor
    low, high, first, last = plate(seen)[:4]
    unit, volts = seen.visit.pressure_unit, "mA" if sensor.signal.kind == "current" else "V"
    own = "" if seen.assumed else own_unit(seen.visit.plate_unit, unit)
    range_ = (
        Shown(
            figure=low, unit=unit, places=_fewest(low.value, unit), bare=not low.value, beside=bool(low.value), own=own
        ),
        message("paper-to"),
        Shown(figure=high, unit=unit, places=_fewest(high.value, unit), beside=True, own=own),
        message("paper-reference", reference=sensor.reference),
    )  # fmt: skip
    kind = sensor.signal.kind
    signal = (
        Shown(figure=first, unit=volts, places=_fewest(first.value, volts), bare=True), message("paper-to"),
        Shown(figure=last, unit=volts, places=_fewest(last.value, volts)),
        message("paper-ratiometric" if kind == "ratiometric" else "paper-wires", wires=sensor.signal.wires),
    )  # fmt: skip
    return ((message("paper-range"), range_), (message("paper-signal"), signal))


def _fewest(value: float, unit: str) -> int:
    """Return the fewest digits after the decimal sign that tell a plate's figure."""
    most = places_for(value, unit, 4)
    told = f"{in_unit(value, unit):.{most}f}"
    return len(told.rstrip("0").partition(".")[2]) if "." in told else 0


def left_temporary(seen: Occasion) -> tuple[Line, ...]:
    """Return what was left temporary, for what is to be done next; nothing where nothing was."""
    told = seen.temporary
    if not told:
        return ()
    values = {key: str(told.get(key, "")) for key in ("what", "why", "until", "watch")}
    lines: list[Line] = [(message("paper-temporary", **values),)]
    unit, named = seen.visit.pressure_unit, (("hertz", "hertz_most"), ("pressure", "pressure_most"))
    limits = {name: limit_turned(str(told.get(key, "")), unit) for name, key in named}
    if all(limits.values()):
        lines.append((message("paper-tonight-limits", **limits),))
    if told.get("lost"):
        lines.append((message("paper-temporary-lost", lost=tuple(str(each) for each in told["lost"])),))
    return tuple(lines)


def next_of(*lines: Line) -> tuple[Block, ...]:
    """Return what is to be done next, in one frame; nothing where nothing is."""
    return (Next(lines=lines),) if lines else ()


def told_cautions(seen: Occasion) -> Care:
    """Return every caution of the checks and the repairs that were made, each once, local codes first."""
    return Care(lines=tuple((told,) for told in {told.id: told for told in _cautions(seen)}.values()))


def _cautions(seen: Occasion) -> Iterator[Message]:
    system = System(seen.visit)
    yield message("local-codes-first")
    for reading in seen.visit.readings:
        told = cautions(system, question_of(reading))
        yield from (each for each in told if each.id != "keep-the-evidence")
    for action in seen.visit.actions:
        for part in action.remedy.split("+"):
            yield from repair_cautions(part) if part in REPAIR_CAUTIONS else ()
