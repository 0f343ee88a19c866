"""The office's report: all of a visit. Who, when, with what; every reading; what was found, done, left, needed.

Everything that affects which parts a repair is told to need lives in `steadyhead.diagnosis.shipped_parts`.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from steadyhead.diagnosis.shipped_parts import NEEDS, UNFORESEEN
from steadyhead.documents.paper import Blanks, Block, Bullets, Line, Paper, Paragraph, Particulars
from steadyhead.messages import Message, message
from steadyhead.service.papers.left import called_for, ending_blocks, repair_lines
from steadyhead.service.papers.occasion import Occasion, wall_time
from steadyhead.service.papers.one_unit import pressures_turned
from steadyhead.service.papers.pictures import photo_blocks
from steadyhead.service.papers.pieces import (
    Row,
    convicting,
    head_of,
    invented,
    left_temporary,
    next_of,
    plate_assumed,
    plate_rows,
    told_cautions,
    what_was_wrong,
)
from steadyhead.service.papers.readings import figures_read
from steadyhead.service.papers.system_facts import instruments
from steadyhead.service.papers.tables import all_readings, beside, causes, declined, section

KIND = "office"


def office_report(seen: Occasion) -> Paper:
    """Return the office's report of a visit."""
    return replace(head_of(seen, KIND, message("paper-office")), blocks=tuple(_blocks(seen)))


def _blocks(seen: Occasion) -> Iterator[Block]:
    yield from invented(seen)
    yield from plate_assumed(seen)
    yield Particulars(rows=tuple(_who_and_when(seen)))
    yield from section(message("paper-call-head"), *_call(seen))
    yield from section(message("paper-wrong-head"), *_found(seen))
    done = repair_lines(seen)
    nothing = Paragraph(line=(message("paper-nothing-done"),))
    yield from section(message("paper-done-head"), Bullets(lines=done) if done else nothing)
    yield from section(message("paper-ended-head"), *ending_blocks(seen))
    yield from next_of(*left_temporary(seen))
    yield from section(message("paper-parts-head"), *_parts(seen))
    if seen.visit.readings:
        says = message("paper-readings-table")
        yield from section(message("paper-readings-head"), all_readings(seen, seen.visit.readings, says))
    yield from section(message("paper-beside-head"), *_bullets(beside(seen)))
    yield from section(message("paper-declined-head"), *_bullets(declined(seen.visit)))
    yield from section(message("paper-notes-head"), *_notes(seen))
    yield from photo_blocks(seen, KIND)
    yield told_cautions(seen)
    yield from _assumed(seen)
    yield Blanks(names=(message("paper-sign-technician"), message("paper-sign-office")))


def _bullets(lines: tuple[Line, ...]) -> Iterator[Block]:
    if lines:
        yield Bullets(lines=lines)


def _who_and_when(seen: Occasion) -> Iterator[Row]:
    """Yield where, when, by whom, with what."""
    told: tuple[tuple[Message, str], ...] = (
        (message("paper-site"), seen.site), (message("paper-visit"), seen.id), (message("paper-began"), seen.dated),
        (message("paper-written-last"), wall_time(seen.saved, seen.zone)),
        (message("paper-zone"), seen.zone if seen.at else ""), (message("paper-people"), "; ".join(seen.people)),
    )  # fmt: skip
    for name, text in told:
        if text:
            yield name, (message("paper-as-written", text=text),)
    if seen.state:
        yield message("paper-state"), (message("paper-state-is", state=seen.state),)
    yield from plate_rows(seen)
    yield from instruments(seen)
    took = [reading.took_s for reading in seen.visit.readings if reading.took_s is not None]
    if took:
        yield message("paper-took"), (message("paper-minutes", minutes=sum(took) / 60.0),)


def _call(seen: Occasion) -> Iterator[Block]:
    """Yield what was said when it was called in."""
    said = seen.visit.complaint
    words = [f"shown:{each}" for each in said.shown]
    words += [f"since:{said.since}"] if said.since else []
    words += [f"when:{said.when}"] if said.when else []
    words += [f"changed:{each}" for each in said.changed]
    called = called_for(seen, quote="paper-quote")
    if called:
        yield Paragraph(line=called)
    if words:
        yield Bullets(lines=tuple((message("paper-complaint", complaint=each),) for each in words))


def _found(seen: Occasion) -> Iterator[Block]:
    """Yield what was at fault, the reading that proves it, and the likely causes where it is not proved."""
    yield Paragraph(line=(what_was_wrong(seen),), tone="strong")
    found = seen.found
    if found is None:
        return
    because = convicting(seen, found)
    if because:
        yield Paragraph(line=because)
    elif not seen.visit.closed.fault:
        yield causes(found, figures_read(seen))


def _parts(seen: Occasion) -> Iterator[Block]:
    """Yield the parts that the repairs made took, or that the one still to be made will."""
    parts = [part for action in seen.visit.actions for part in action.remedy.split("+")]
    if parts:
        yield from _bullets(tuple((message("paper-part-used", part=each),) for each in needed(parts)))
    elif seen.answer is not None and seen.answer.verdict.settled:
        wanted = needed(seen.answer.verdict.remedy.split("+"))
        yield from _bullets(tuple((message("paper-part-needed", part=each),) for each in wanted))


def needed(remedies: list[str]) -> list[str]:
    """Return the parts that repairs may take, each once.

    >>> needed(["replace-sensor"])
    ['sensor', 'fitting', 'plug-kit']
    """
    rows = (row.split("/") for remedy in remedies for row in NEEDS if row.split("/")[0] == remedy)
    return list(dict.fromkeys(row[-1] for row in rows if row[-1] != UNFORESEEN))


def _notes(seen: Occasion) -> Iterator[Block]:
    lines = [(message("paper-quote", text=str(each.body.get("text", ""))),) for each in seen.notes]
    yield from _bullets(tuple(lines))


def _assumed(seen: Occasion) -> Iterator[Block]:
    """Yield what was assumed because nobody said."""
    told = [each.values for each in seen.answer.defaults] if seen.answer else []
    unit = seen.visit.pressure_unit
    lines = tuple(
        (message("paper-assumed", key=str(each["key"]), value=pressures_turned(str(each["value"]), unit)),)
        for each in told
    )
    yield from section(message("paper-assumed-head"), *_bullets(lines))
