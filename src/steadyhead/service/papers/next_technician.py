"""For the next technician: what to expect, what was odd, how it is set, what could not be done, where to go on."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from steadyhead.documents.paper import Block, Bullets, Column, Line, Paper, Paragraph, Particulars, Table
from steadyhead.messages import Message, message
from steadyhead.service.expecting import expect
from steadyhead.service.papers.customer import last_readings
from steadyhead.service.papers.left import ending_blocks, repair_lines
from steadyhead.service.papers.occasion import Occasion
from steadyhead.service.papers.pictures import photo_blocks
from steadyhead.service.papers.pieces import (
    head_of,
    invented,
    left_temporary,
    next_of,
    plate_assumed,
    plate_rows,
    told_cautions,
    what_was_wrong,
)
from steadyhead.service.papers.readings import (
    band_line,
    band_shown,
    figures_read,
    gauge_inputs,
    plate,
    value_line,
    what_line,
    what_within,
)
from steadyhead.service.papers.system_facts import labels, settings
from steadyhead.service.papers.tables import beside, causes, declined, section

KIND = "next"
LOOP = "loop"


def next_report(seen: Occasion) -> Paper:
    """Return what the next technician should know."""
    return replace(head_of(seen, KIND, message("paper-next-technician")), blocks=tuple(_blocks(seen)))


def _blocks(seen: Occasion) -> Iterator[Block]:
    yield from invented(seen)
    yield from plate_assumed(seen)
    yield Paragraph(line=(what_was_wrong(seen),), tone="strong")
    done = repair_lines(seen)
    yield Bullets(lines=done) if done else Paragraph(line=(message("paper-nothing-done"),))
    if seen.state:
        yield Paragraph(line=(message("paper-stands", state=seen.state),))
    yield from ending_blocks(seen)
    yield from _go_on(seen)
    yield from section(message("paper-left-head"), *_left(seen))
    yield from section(message("paper-expect-head"), *_expected(seen))
    odd = tuple(_odd(seen))
    nothing = Paragraph(line=(message("paper-nothing-odd" if seen.visit.readings else "paper-nothing-read"),))
    yield from section(message("paper-odd-head"), Bullets(lines=odd) if odd else nothing)
    yield from section(message("paper-system-head"), Particulars(rows=(*plate_rows(seen), *settings(seen))))
    yield from section(message("paper-labels-head"), *_labels(seen))
    lines = declined(seen.visit)
    yield from section(message("paper-declined-head"), *((Bullets(lines=lines),) if lines else ()))
    yield from photo_blocks(seen, KIND)
    yield told_cautions(seen)


def _go_on(seen: Occasion) -> Iterator[Block]:
    """Yield what was left temporary, and the check that is worth its minutes next, where it is not settled."""
    answer = seen.answer
    if answer is None or answer.verdict.settled or seen.visit.closed.fault:
        yield from next_of(*left_temporary(seen))
        return
    first = answer.next_checks[:1]
    checks = [(*what_line(each.question), message("paper-about", minutes=each.minutes)) for each in first]
    yield from next_of(*left_temporary(seen), *checks)
    yield causes(answer, figures_read(seen))


def _left(seen: Occasion) -> Iterator[Block]:
    """Yield how the system was left: the last readings of the loop as it is used."""
    columns = (
        Column(head=message("paper-head-what"), share=4),
        Column(head=message("paper-head-read"), align="decimal"),
        Column(head=message("paper-head-healthy"), align="end"),
    )
    last = last_readings(seen)
    rows = tuple((what_line(r), value_line(r, seen, beside=True), band_line(r.number, seen)) for r in last)
    if rows:
        yield Table(says=message("paper-left-table"), columns=columns, rows=rows)


def _expected(seen: Occasion) -> Iterator[Block]:
    """Yield what every point should read at the pressure that the gauge showed last."""
    found = expect(seen.visit)
    inputs = (*gauge_inputs(seen), *plate(seen))
    if found.pressure_pa is None:
        yield Paragraph(line=(message("paper-no-gauge"),))
        return
    columns = (
        Column(head=message("paper-head-point"), share=4),
        Column(head=message("paper-head-healthy"), align="end"),
    )
    rows: list[tuple[Line, ...]] = [
        ((_point(id_),), band_shown(band, seen, inputs)) for id_, band in found.points.items()
    ]
    if found.display is not None:
        rows.append(((message("paper-the-display"),), band_shown(found.display, seen, inputs)))
    says = message("paper-expect-table", pressure=found.pressure_pa)
    yield Table(says=says, columns=columns, rows=tuple(rows))


def _point(id_: str) -> Message:
    return message("paper-the-loop") if id_ == LOOP else message("paper-point", red=id_)


def _odd(seen: Occasion) -> Iterator[Line]:
    """Yield what did not fit, what does not count, what may be hidden behind it."""
    for surprise in seen.answer.surprises if seen.answer else ():
        reading = seen.visit.readings[surprise.reading - 1]
        yield (
            message("paper-reading", number=surprise.reading),
            *what_within(reading),
            message("paper-colon"),
            *value_line(reading, seen),
            message("paper-semicolon"),
            surprise.text,
        )
    yield from beside(seen)
    for told in seen.answer.besides if seen.answer else ():
        yield (told,)
    for clash in seen.visit.readings:
        if clash.drive not in {"auto", "stopped", "off"}:
            yield (message("paper-reading", number=clash.number), message("paper-drive", drive=clash.drive))


def _labels(seen: Occasion) -> Iterator[Block]:
    rows = labels(seen.visit)
    if rows:
        yield Particulars(rows=rows)
