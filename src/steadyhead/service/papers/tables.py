"""Tables and lists that several reports share: readings, likely causes, what could not be done, what does not count."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from steadyhead.diagnosis.answer import Answer, Outcome, Suspect
from steadyhead.documents.paper import Block, Column, Heading, Line, Shown, Table, Traced
from steadyhead.figures import Figure
from steadyhead.messages import Message, message
from steadyhead.published.source import Source
from steadyhead.quantities.units import unit_named
from steadyhead.service.papers.occasion import Occasion, wall_time
from steadyhead.service.papers.one_unit import typed_turned
from steadyhead.service.papers.readings import (
    band_line,
    band_places,
    resistance_unit,
    value_line,
    what_line,
)
from steadyhead.service.record.views import Earlier, RowSeen
from steadyhead.visit.record import Reading, Visit

LISTED, MOST_LISTED = 0.01, 8
BAYES = Source(
    cite="T. Bayes, An Essay towards solving a Problem in the Doctrine of Chances, 1763", locator="proposition 5",
    seen="memory",
)  # fmt: skip
KIRCHHOFF = Source(
    cite="Kirchhoff's laws, solved for this loop with the meter in it", locator="docs/solver.md", seen="original"
)
FORETOLD = "what the loop gives with this cause in it, over its sizes and places, widened by the instrument"
SHARE = "weight of this cause after all readings / weight of all causes after all readings"


def section(head: Message, *blocks: Block) -> Iterator[Block]:
    """Yield a section under its head; nothing where it has nothing."""
    if blocks:
        yield Heading(says=head)
        yield from blocks


def all_readings(seen: Occasion, readings: Sequence[Reading], says: Message) -> Table:
    """Return every reading with its time, its healthy band and what is to be said of it."""
    rows = {row.number: row for row in seen.rows if row.number is not None}
    timed = bool(rows)
    columns = [Column(head=message("paper-head-number"), align="end")]
    columns += [Column(head=message("paper-head-time"))] if timed else []
    columns += [
        Column(head=message("paper-head-what"), share=4),
        Column(head=message("paper-head-read"), align="decimal"),
        Column(head=message("paper-head-healthy"), align="end"),
        Column(head=message("paper-head-note"), share=3),
    ]
    body = tuple(_reading_row(reading, rows.get(reading.number), seen, timed=timed) for reading in readings)
    return Table(says=says, columns=tuple(columns), rows=body)


def _reading_row(reading: Reading, row: RowSeen | None, seen: Occasion, *, timed: bool) -> tuple[Line, ...]:
    time: tuple[Line, ...] = ()
    if timed:
        at = wall_time(row.at, seen.zone)[11:] if row else ""
        time = ((message("paper-as-written", text=at),) if at else (),)
    number = (message("paper-number-of", number=reading.number),)
    value = value_line(reading, seen, beside=True)
    return (
        number,
        *time,
        what_line(reading),
        value,
        band_line(reading.number, seen),
        _listed(_notes(reading, row, seen)),
    )


def _listed(notes: Iterable[Message]) -> Line:
    """Return notes one after the other, with a semicolon between."""
    every = [part for note in notes for part in (message("paper-semicolon"), note)]
    return tuple(every[1:])


def _notes(reading: Reading, row: RowSeen | None, seen: Occasion) -> Iterator[Message]:
    """Yield what is to be said of a reading."""
    if reading.number <= seen.mended:
        yield message("paper-before-repair")
    if row is not None and row.history:
        yield message("paper-corrected", list=_typed(row, row.history, seen))
    if row is not None and len(seen.people) > 1 and row.author:
        yield message("paper-by", author=row.author)
    if row is not None and row.instrument:
        yield message("paper-with", instrument=seen.instruments.get(row.instrument) or row.instrument[-8:])
    for surprise in seen.answer.surprises if seen.answer else ():
        if surprise.reading == reading.number:
            yield surprise.text


def share(suspect: Suspect, readings: Sequence[Figure]) -> Figure:
    """Return how likely a cause is, as a figure."""
    return Figure(
        name="share",
        value=suspect.probability,
        dimension="percent",
        formula=SHARE,
        inputs=tuple(readings),
        source=BAYES,
    )


def causes(answer: Answer, readings: Sequence[Figure]) -> Table:
    """Return the likely causes with their odds."""
    columns = (Column(head=message("paper-head-cause"), share=4), Column(head=message("paper-head-odds"), align="end"))
    listed = [each for each in answer.suspects if each.probability >= LISTED][:MOST_LISTED]
    rows = tuple(
        (
            tuple(_cause(each)),
            (Traced(says=message("paper-odds", share=each.probability), figure=share(each, readings)),),
        )
        for each in listed
    )
    return Table(says=message("paper-causes"), columns=columns, rows=rows)


def _cause(suspect: Suspect) -> Iterator[Message]:
    yield message("paper-fault", fault=suspect.fault)
    if suspect.place:
        yield message("paper-place", place=suspect.place)
    if suspect.severity is not None and suspect.severity_unit is not None:
        yield message("paper-size", value=suspect.severity, unit=suspect.severity_unit)
    if suspect.cause is not None:
        yield message("paper-colon")
        yield suspect.cause


def declined(visit: Visit) -> tuple[Line, ...]:
    """Return what could not be done here, and why where somebody said it."""
    return tuple(
        (
            message(
                "paper-what", measure=each.named, red=each.red, black=each.black, item=each.item,
                arrangement=each.arrangement,
            ),
            *((message("paper-why", text=each.why),) if each.why else ()),
        )
        for each in visit.declined
    )  # fmt: skip


def beside(seen: Occasion) -> tuple[Line, ...]:
    """Return the readings that are no evidence, and why."""
    return tuple((_beside(row, seen),) for row in seen.rows if row.number is None)


def _typed(row: RowSeen, said: Iterable[Earlier], seen: Occasion) -> tuple[str, ...]:
    """Return what a reading said before, or what each of two devices says, in the paper's unit of pressure."""
    measure = str(row.body.get("measure", ""))
    return tuple(typed_turned(measure, each.value, seen.visit.pressure_unit) for each in said)


def _beside(row: RowSeen, seen: Occasion) -> Message:
    measure = str(row.body.get("measure", ""))
    value = typed_turned(measure, str(row.body.get("value", "")), seen.visit.pressure_unit)
    if row.conflict:
        return message("paper-two-say", measure=measure, list=_typed(row, row.heads, seen))
    if row.withdrawn:
        return message("paper-taken-out", measure=measure, text=value)
    return message("paper-set-aside", measure=measure, text=value)


def outcome_line(found: Outcome | None, measure: str, inputs: tuple[Figure, ...], pressure_unit: str) -> Line:
    """Return what a cause would have shown: a band, a pressure in the paper's unit, or a word."""
    if found is None:
        return ()
    if found.value is not None:
        shown = message("paper-displayed", shown=found.value) if measure == "displayed-fault" else None
        return (shown or message("paper-found", found=found.value),)
    return tuple(_ends(found, found.unit or "", inputs, pressure_unit))


def _ends(
    found: Outcome, unit: str, inputs: tuple[Figure, ...], pressure_unit: str
) -> Iterator[Message | Shown]:
    """Yield the ends of a band."""
    known = unit_named(unit)
    factor, dimension = (known.factor, known.dimension) if known else (1.0, "number")
    low, high = (found.low or 0.0) * factor, None if found.high is None else found.high * factor
    unit = {"resistance": resistance_unit(high or low), "pressure": pressure_unit}.get(dimension, unit)
    places = band_places((low, high or low), unit)
    first = Shown(figure=_end("foretold-low", low, dimension, inputs), unit=unit, places=places, bare=high is not None)
    if high is None:
        yield from (message("paper-above"), first)
    else:
        last = Shown(figure=_end("foretold-high", high, dimension, inputs), unit=unit, places=places)
        yield from (first, message("paper-to"), last)


def _end(name: str, value: float, dimension: str, inputs: tuple[Figure, ...]) -> Figure:
    return Figure(name=name, value=value, dimension=dimension, formula=FORETOLD, inputs=inputs, source=KIRCHHOFF)
