"""For a warranty: the readings that convict the part, how they convict it, and what it read before and after.

Rules
-----
1. What is claimed is what was found before the last repair: the part's own fault, or the likeliest cause of its repair.
2. A reading convicts where it made the fault at least `SPEAKS` times likelier against all else. What each would have
   shown with this fault, and with its strongest rival of that moment, stands beside it.
3. A part that no reading convicts is not claimed: the paper says so, and says it first.
4. Whoever replaced a part and read the same points before and after sees both.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from steadyhead.diagnosis.observing import Question, question_of
from steadyhead.diagnosis.reasons import Reason, Reasons
from steadyhead.documents.paper import (
    Blanks,
    Block,
    Bullets,
    Care,
    Column,
    Line,
    Paper,
    Paragraph,
    Particulars,
    Table,
    Traced,
)
from steadyhead.figures import Figure, given
from steadyhead.loop.faults import FAULTS
from steadyhead.messages import Message, message
from steadyhead.service.papers.occasion import Occasion
from steadyhead.service.papers.pictures import photo_blocks
from steadyhead.service.papers.pieces import Row, convicting, done_lines, head_of, invented, plate_rows
from steadyhead.service.papers.readings import (
    band_line,
    figures_read,
    gauge_inputs,
    plate,
    value_line,
    what_line,
)
from steadyhead.service.papers.system_facts import instruments, settings
from steadyhead.service.papers.tables import BAYES, outcome_line, section
from steadyhead.visit.record import Reading

KIND = "warranty"
#: Times likelier from which a reading is told to convict.
SPEAKS = 2.0
REMEDY_OF = {fault.id: fault.remedy for fault in FAULTS}
#: Repairs for which a part goes back to its maker.
PARTS = frozenset(
    ("replace-sensor", "replace-board", "replace-gauge", "replace-vessel", "replace-motor", "service-pump")
)
FACTOR = "odds of this fault after the reading / odds before it"


def warranty_report(seen: Occasion) -> Paper:
    """Return the paper that goes back with a part."""
    return replace(head_of(seen, KIND, message("paper-warranty")), blocks=tuple(_blocks(seen)))


def claimed(seen: Occasion) -> str:
    """Return the fault that is claimed; empty where nothing was judged."""
    if seen.visit.closed.fault:
        return seen.visit.closed.fault
    found = seen.found
    if found is None:
        return ""
    return next(each.fault for each in found.suspects if each.remedy == found.verdict.remedy)


def _blocks(seen: Occasion) -> Iterator[Block]:
    yield from invented(seen)
    fault, found = claimed(seen), seen.found
    if not fault or found is None:
        yield Paragraph(line=(message("paper-unjudged"),), tone="strong")
        yield Care(lines=((message("local-codes-first"),),))
        return
    why = seen.think.reasons(seen.before_repair, fault)
    speaking = [each for each in why.readings if each.factor >= SPEAKS]
    settled = found.verdict.settled or bool(seen.visit.closed.fault)
    yield Paragraph(line=(_claim(fault, speaking, settled=settled),), tone="strong")
    because = convicting(seen, found)
    yield Paragraph(line=because or (message("paper-not-proved"),))
    yield Particulars(rows=_part(seen))
    yield Blanks(
        names=(message("paper-serial"), message("paper-part-number"), message("paper-fitted"), message("paper-failed"))
    )
    if speaking:
        yield from section(message("paper-convict-head"), _convicting(seen, speaking))
    yield from section(message("paper-rivals-head"), *_rivals(why, seen))
    yield from section(message("paper-around-head"), *_around(seen))
    yield from section(message("paper-done-head"), *_done(seen))
    yield from photo_blocks(seen, KIND)
    yield Care(lines=((message("local-codes-first"),),))
    yield Blanks(names=(message("paper-sign-technician"), message("paper-sign-office")))


def _claim(fault: str, speaking: list[Reason], *, settled: bool) -> Message:
    """Return what is claimed; where the fault is none of a part, or no reading convicts it, that nothing is."""
    if not settled and not speaking:
        return message("paper-claim-open")
    if not {REMEDY_OF.get(part, "") for part in fault.split("+")} & PARTS:
        return message("paper-no-part", fault=fault)
    return message("paper-claim" if speaking else "paper-no-claim", fault=fault)


def _part(seen: Occasion) -> tuple[Row, ...]:
    rows = [(message("paper-site"), (message("paper-as-written", text=seen.site),))] if seen.site else []
    return (*rows, *plate_rows(seen))


def _convicting(seen: Occasion, speaking: list[Reason]) -> Table:
    """Return the readings that convict, with what this fault and its rival would have shown."""
    columns = (
        Column(head=message("paper-head-number"), align="end"),
        Column(head=message("paper-head-what"), share=4),
        Column(head=message("paper-head-read"), align="decimal"),
        Column(head=message("paper-head-if-so"), align="end"),
        Column(head=message("paper-head-else"), share=4),
        Column(head=message("paper-head-speaks"), align="end"),
    )
    return Table(
        says=message("paper-convict-table"), columns=columns,
        rows=tuple(_convicting_row(seen, each) for each in speaking),
    )  # fmt: skip


def _convicting_row(seen: Occasion, each: Reason) -> tuple[Line, ...]:
    reading = seen.visit.readings[each.reading - 1]
    inputs = (*gauge_inputs(seen), *plate(seen))
    after = given("share-after", each.probability, "percent", f"belief after reading {each.reading}")
    factor = Figure(
        name="likelier", value=each.factor, dimension="number", formula=FACTOR, inputs=(after,), source=BAYES
    )
    rival: Line = ()
    if each.rival is not None:
        rival = (
            *outcome_line(each.rival, reading.measure, inputs, seen.visit.pressure_unit),
            message("paper-with-fault", fault=each.rival.fault),
        )
    return (
        (message("paper-number-of", number=each.reading),),
        what_line(reading),
        value_line(reading, seen, beside=True),
        outcome_line(each.foretold, reading.measure, inputs, seen.visit.pressure_unit),
        rival,
        (Traced(says=message("paper-times", times=min(each.factor, 1000.0)), figure=factor),),
    )


def _rivals(why: Reasons, seen: Occasion) -> Iterator[Block]:
    """Yield what else could still be at fault, and how likely."""
    read = tuple(figures_read(seen))
    lines = []
    for rival in why.rivals:
        figure = Figure(
            name="share", value=rival.probability, dimension="percent", inputs=read, source=BAYES,
            formula="weight of this cause after all readings / weight of all causes after all readings",
        )  # fmt: skip
        odds = Traced(says=message("paper-odds", share=rival.probability), figure=figure)
        lines.append((message("paper-fault", fault=rival.fault), message("paper-colon"), odds))
    if lines:
        yield Bullets(lines=tuple(lines))


def _around(seen: Occasion) -> Iterator[Block]:
    """Yield what the part was read with, and what stood around it."""
    rows = (*instruments(seen), *settings(seen))
    if rows:
        yield Particulars(rows=rows)


def _done(seen: Occasion) -> Iterator[Block]:
    """Yield what was done, and the same points before and after."""
    done = done_lines(seen)
    yield Bullets(lines=done) if done else Paragraph(line=(message("paper-nothing-done"),))
    pairs = before_and_after(seen)
    if not pairs:
        return
    columns = (
        Column(head=message("paper-head-what"), share=4),
        Column(head=message("paper-head-before"), align="decimal"),
        Column(head=message("paper-head-after"), align="decimal"),
        Column(head=message("paper-head-healthy"), align="end"),
    )
    rows = tuple(
        (what_line(after), *(value_line(each, seen, beside=True) for each in pair), band_line(after.number, seen))
        for pair in pairs
        for after in pair[1:]
    )
    yield Table(says=message("paper-before-after"), columns=columns, rows=rows)


def before_and_after(seen: Occasion) -> list[tuple[Reading, Reading]]:
    """Return the last readings of each question that was asked both before and after the last repair."""
    before: dict[Question, Reading] = {}
    after: dict[Question, Reading] = {}
    for reading in seen.visit.readings:
        (after if seen.visit.actions and reading.number > seen.mended else before)[question_of(reading)] = reading
    return [(before[each], after[each]) for each in before if each in after]
