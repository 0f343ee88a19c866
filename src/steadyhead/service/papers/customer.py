"""The customer's report: one page, plain words. What was wrong, what was done, what it shows now, what to watch.

Everything that affects what a customer is asked to watch lives in this file.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from steadyhead.diagnosis.answer import Verdict
from steadyhead.diagnosis.observing import Question, question_of
from steadyhead.documents.paper import (
    Blanks,
    Block,
    Bullets,
    Care,
    Column,
    Heading,
    Line,
    Paper,
    Paragraph,
    Table,
)
from steadyhead.messages import Message, message
from steadyhead.service.after_repair import reads_right
from steadyhead.service.papers.left import called_for, done_for_customer, ending_blocks
from steadyhead.service.papers.occasion import Occasion
from steadyhead.service.papers.pictures import photo_blocks
from steadyhead.service.papers.pieces import head_of, invented, left_temporary, next_of, what_was_wrong
from steadyhead.service.papers.readings import band_line, value_line, what_line
from steadyhead.visit.fact_kinds import OPEN
from steadyhead.visit.record import Reading

KIND = "customer"
MOST_ROWS = 5
#: What a customer can see of a fault that comes back, by what was mended; for any other repair, `USUAL`.
SIGNAL, PRESSURE = message("paper-watch-signal"), message("paper-watch-pressure")
STARTS, WATER = message("paper-watch-starts"), message("paper-watch-water")
USUAL = (SIGNAL, PRESSURE, STARTS)
WATCH: dict[str, tuple[Message, ...]] = {
    "repair-cable": (SIGNAL, WATER),
    "correct-wiring": (SIGNAL,),
    "reroute-cable": (SIGNAL,),
    "replace-sensor": (SIGNAL, PRESSURE, WATER),
    "clear-port": (PRESSURE, WATER),
    "open-cock": (PRESSURE,),
    "move-tap": (PRESSURE, STARTS, WATER),
    "replace-board": (SIGNAL, PRESSURE),
    "correct-setting": (PRESSURE,),
    "clear-vacuum": (SIGNAL, STARTS),
}
CAUTIONS = (message("local-codes-first"), message("paper-leave-panel"))


def customer_report(seen: Occasion) -> Paper:
    """Return the customer's report of a visit."""
    return replace(head_of(seen, KIND, message("paper-customer")), blocks=tuple(_blocks(seen)))


def _blocks(seen: Occasion) -> Iterator[Block]:
    yield from invented(seen)
    called = called_for(seen)
    if called:
        yield Paragraph(line=called)
    yield Heading(says=message("paper-wrong-head"))
    yield Paragraph(line=(what_was_wrong(seen),), tone="strong")
    yield Heading(says=message("paper-done-head"))
    done = done_for_customer(seen)
    yield Bullets(lines=done) if done else Paragraph(line=(message("paper-nothing-done"),))
    yield Heading(says=message("paper-now-head"))
    yield from _now(seen)
    yield from _then(seen)
    if seen.state not in {"", OPEN}:
        yield Paragraph(line=(message("paper-stands", state=seen.state),), tone="strong")
    yield from ending_blocks(seen, customer=True)
    yield from photo_blocks(seen, KIND)
    yield Care(lines=tuple((told,) for told in CAUTIONS))
    yield Blanks(names=(message("paper-sign-technician"), message("paper-sign-customer")))


def _then(seen: Occasion) -> Iterator[Block]:
    """Yield what is to be watched after a repair; where none was made, what is still to be done."""
    if seen.visit.actions:
        yield Heading(says=message("paper-watch-head"))
        yield Bullets(lines=tuple((each,) for each in _watch(seen)))
        yield from next_of(*left_temporary(seen), (message("paper-watch-call"),))
    elif left_temporary(seen):
        yield from next_of(*left_temporary(seen))
    elif seen.answer is not None:
        yield from next_of(*_still(seen.answer.verdict))


def _still(verdict: Verdict) -> tuple[Line, ...]:
    """Return what is still to be done: a repair only where it is settled which one."""
    if not verdict.settled:
        return ((message("paper-still-find"),),)
    return () if verdict.remedy in {"none", "look-further"} else ((message("paper-still", remedy=verdict.remedy),),)


def _now(seen: Occasion) -> Iterator[Block]:
    """Yield the last reading of each kind since the last repair, and whether all of it is right."""
    last = last_readings(seen)
    if not last:
        yield Paragraph(line=(message("paper-not-read-since" if seen.visit.actions else "paper-nothing-read"),))
        return
    columns = (
        Column(head=message("paper-head-what"), share=3),
        Column(head=message("paper-head-shows"), align="decimal"),
        Column(head=message("paper-head-should"), align="end"),
    )
    rows = tuple((what_line(r), value_line(r, seen, beside=True), band_line(r.number, seen)) for r in last[:MOST_ROWS])
    yield Table(says=message("paper-now-table"), columns=columns, rows=rows)
    if reads_right(seen.visit):
        yield Paragraph(line=(message("paper-reads-right"),))


def last_readings(seen: Occasion) -> list[Reading]:
    """Return the last reading of each question that was asked of the loop as it is used, since the last repair."""
    found: dict[Question, Reading] = {}
    for reading in seen.visit.readings:
        in_use = reading.arrangement == "connected" and reading.measure != "inspection"
        if in_use and (reading.number > seen.mended or not seen.visit.actions):
            found.pop(question_of(reading), None)
            found[question_of(reading)] = reading
    return list(found.values())


def _watch(seen: Occasion) -> list[Message]:
    parts = [part for action in seen.visit.actions for part in action.remedy.split("+")]
    told = [each for part in parts for each in WATCH.get(part, USUAL)] or USUAL
    return list({each.id: each for each in told}.values())
