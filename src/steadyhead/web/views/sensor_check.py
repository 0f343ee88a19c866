"""A sensor check as its page shows it: what comes next, the picture, the points so far.

Rules
-----
1. The error of a point has one function (`steadyhead.sensorcheck.errors`); here it is only turned into the shown unit.
2. Errors stand in the sensor's own unit of pressure, to about a thousandth of its span.
3. A point that does not count is listed apart, with why.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from math import ceil, log10
from typing import Any

from markupsafe import Markup

from steadyhead.errors import FitError
from steadyhead.messages import Message
from steadyhead.quantities import spell
from steadyhead.sensorcheck.at_sensor import pressure_at_sensor, range_here
from steadyhead.sensorcheck.errors import PointError, left_out, point_errors
from steadyhead.sensorcheck.from_facts import ToldCheck
from steadyhead.sensorcheck.run import Point
from steadyhead.service.record.check_pages import CheckSeen, PointSeen
from steadyhead.service.sensorcheck.planning import pascal
from steadyhead.visit.check_keys import DIRECTIONS
from steadyhead.visit.record import Sensor
from steadyhead.web import keypad
from steadyhead.web.plot.error_plot import ErrorPlot, PlotPoint, error_plot
from steadyhead.web.views.caring import CareView, care_view
from steadyhead.web.views.check_thought import CheckThought
from steadyhead.web.views.point_entry import EntryField
from steadyhead.words import Speaker
from steadyhead.words.saying import sentence

MARKS = {"up": "\u25b2", "down": "\u25bd"}


@dataclass(frozen=True, slots=True, kw_only=True)
class PointFields:
    """The form of one point: its fields, and the ways that the pressure may have come."""

    fields: Sequence[EntryField]
    ways: Sequence[tuple[str, str]]


@dataclass(frozen=True, slots=True, kw_only=True)
class PointRow:
    """One point of the list: its entity, its mark and place, what was read, and its error."""

    id: str
    mark: str
    where: str
    read: str
    error: str
    why: str = ""


def places_of(sensor: Sensor, unit: str) -> int:
    """Return how many figures after the decimal sign an error has: to about a thousandth of the span."""
    fine = 0.001 * sensor.range.width / pascal(unit)
    return max(0, min(6, ceil(-log10(fine) - 0.05)))


def signed(value_pa: float, told: ToldCheck) -> str:
    """Return an error with its sign, in the check's unit, without it."""
    places = places_of(told.run.sensor, told.pressure_unit)
    text = f"{value_pa / pascal(told.pressure_unit):+.{places}f}".replace("-", "\u2212")
    return text if any(sign in "123456789" for sign in text) else text[1:]


def errors_of(told: ToldCheck) -> dict[str, PointError]:
    """Return the error of each usable point, by its entity; none where no point is usable."""
    try:
        found = point_errors(told.run)
    except FitError:
        return {}
    return {told.points[each.number - 1]: each for each in found}


def point_fields(seen: CheckSeen, speaker: Speaker) -> PointFields:
    """Return the form of a point."""
    ways = [(way, f"{MARKS[way]} {speaker.name('direction', way)}") for way in DIRECTIONS]
    return PointFields(fields=entry_fields(seen, speaker), ways=ways)


def point_said(body: Mapping[str, Any]) -> str:
    """Return what a point says in one line.

    >>> point_said({"direction": "up", "reference": "40 psi", "signal": "2.13 V", "supply": "5.02 V"})
    '\u25b2 40 psi  2.13 V  5.02 V'
    """
    figures = [str(body[key]) for key in ("reference", "signal", "supply", "shown") if body.get(key)]
    return f"{MARKS.get(str(body.get('direction')), '')} {'  '.join(figures)}".strip()


def entry_fields(seen: CheckSeen, speaker: Speaker) -> list[EntryField]:
    """Return the fields of a point: the gauge, and what is read of the sensor."""
    told, last = seen.told, _last_units(seen)
    kind = told.run.sensor.signal.kind
    fields = [_field("reference", keypad.units("gauge-pressure", told.pressure_unit, "V"), last, speaker)]
    if told.run.read_as == "displayed-pressure":
        return [*fields, _field("shown", keypad.units("displayed-pressure", told.pressure_unit, "V"), last, speaker)]
    fields.append(_field("signal", ("mA",) if kind == "current" else ("V", "mV"), last, speaker))
    return [*fields, _field("supply", ("V",), last, speaker)] if kind == "ratiometric" else fields


def _field(name: str, units: tuple[str, ...], last: Mapping[str, str], speaker: Speaker) -> EntryField:
    unit = last.get(name, "")
    return EntryField(
        name=name, says=speaker.name("point-field", name), units=units, unit=unit if unit in units else units[0]
    )


def _last_units(seen: CheckSeen) -> dict[str, str]:
    """Return the units in which the last point was typed, by its keys; before the first, that of the gauge's scale."""
    body = next((point.body for point in reversed(seen.points) if not point.withdrawn), None)
    if body is None:
        scale = seen.body.get("reference", {}).get("range", "")
        return {"reference": str(scale).rpartition(" ")[2]}
    return {key: str(text).rpartition(" ")[2] for key, text in body.items()}


def rows_of(seen: CheckSeen, speaker: Speaker) -> tuple[list[PointRow], list[PointRow]]:
    """Return the points that count, and those that do not."""
    errors = errors_of(seen.told)
    why = {aside.fact: speaker.say(aside.why) for aside in seen.told.set_aside}
    counted = [_row(point, errors[point.id], seen) for point in seen.points if point.id in errors]
    unused = dict(zip(_left_out(seen.told), map(speaker.say, left_out(seen.told.run)), strict=True))
    beside = [
        _beside(point, why.get(_head(seen, point.id)) or unused.get(point.id, ""), speaker)
        for point in seen.points
        if point.id not in errors
    ]
    return counted, beside


def _head(seen: CheckSeen, point: str) -> str:
    return seen.told.entities[point].head.id


def _left_out(told: ToldCheck) -> list[str]:
    usable = errors_of(told)
    return [id_ for id_ in told.points if id_ not in usable]


def _row(point: PointSeen, error: PointError, seen: CheckSeen) -> PointRow:
    return PointRow(
        id=point.id, mark=MARKS[error.direction], where=_text(point, "reference"), read=_read(point, seen),
        error=signed(error.error.value, seen.told),
    )  # fmt: skip


def _beside(point: PointSeen, why: str, speaker: Speaker) -> PointRow:
    if point.withdrawn:
        why = speaker.tell("web-taken-out")
    if point.heads:
        texts = (" ".join(_text_of(body, key) for key in ("reference", "signal", "shown")) for body in point.heads)
        why = speaker.tell("web-disagree", list=" / ".join(texts))
    mark = MARKS.get(str(point.body.get("direction")), "")
    return PointRow(id=point.id, mark=mark, where=_text(point, "reference"), read="", error="", why=why)


def _read(point: PointSeen, seen: CheckSeen) -> str:
    return _text(point, "shown" if seen.told.run.read_as == "displayed-pressure" else "signal")


def _text(point: PointSeen, key: str) -> str:
    return _text_of(point.body, key)


def _text_of(body: Mapping[str, Any], key: str) -> str:
    return str(body.get(key, ""))


def plot_of(
    seen: CheckSeen, speaker: Speaker, known_within: Mapping[str, float], next_pa: float | None = None
) -> Markup:
    """Return the picture of a check.

    Parameters
    ----------
    seen
        The check.
    speaker
        Whose words.
    known_within
        Expanded uncertainty of each point's error [Pa], by its entity.
    next_pa
        Pressure on the gauge that comes next [Pa]; it stands where the sensor feels it.
    """
    told, sensor = seen.told, seen.told.run.sensor
    unit, factor = told.pressure_unit, pascal(told.pressure_unit)
    points = [
        PlotPoint(
            pressure=each.true.value / factor, error=each.error.value / factor, direction=each.direction,
            cycle=each.cycle, known_within=known_within[id_] / factor if id_ in known_within else None,
        )
        for id_, each in errors_of(told).items()
    ]  # fmt: skip
    allowed = None if sensor.accuracy is None else sensor.accuracy * sensor.range.width
    ends = range_here(sensor, told.run.conditions)
    words = {
        "error": speaker.tell("sensor-plot-error", unit=unit),
        "pressure": speaker.tell("sensor-plot-pressure", unit=unit),
        "allowed": speaker.tell("sensor-plot-allowed", allowed=shown_size(allowed or 0.0, told)),
        "next": "" if next_pa is None else speaker.tell("sensor-plot-next", pressure=next_pa),
        "up": speaker.tell("sensor-plot-up"), "down": speaker.tell("sensor-plot-down"),
        "bar": speaker.tell("sensor-plot-bar"),
    }  # fmt: skip
    return error_plot(ErrorPlot(
        points=points, range=(ends.low / factor, ends.high / factor),
        allowed=None if allowed is None else allowed / factor,
        next=None if next_pa is None else at_sensor(told, next_pa) / factor, words=words,
        title=speaker.tell("sensor-plot-title"), told=_told(seen, speaker),
    ))  # fmt: skip


def at_sensor(told: ToldCheck, reference_pa: float) -> float:
    """Return the pressure at the sensor [Pa] where the gauge shows so much."""
    reading = Point(direction="up", reference_pa=reference_pa)
    return pressure_at_sensor(replace(told.run, points=(reading,)), 1).value


def _told(seen: CheckSeen, speaker: Speaker) -> str:
    """Return what the picture shows, in words, point by point."""
    rows, _ = rows_of(seen, speaker)
    if not rows:
        return speaker.tell("sensor-plot-empty")
    unit = seen.told.pressure_unit
    return " ".join(
        sentence(speaker.tell("sensor-plot-point", where=row.where, error=f"{row.error} {unit}")) for row in rows
    )


def shown_size(value_pa: float, told: ToldCheck) -> str:
    """Return a width in the check's unit: ``1 psi``.

    Zeros at the end are left out.
    """
    return spell(value_pa, told.pressure_unit, digits=2)


@dataclass(frozen=True, slots=True, kw_only=True)
class CheckView:
    """A check, ready to be laid out.

    Parameters
    ----------
    first
        What can be decided at all; empty where that cannot be told, and then `problems` says why.
    asks, way, progress
        What is taken next: its head, how to come to it, how far the plan is; empty heads where all was taken.
    care
        What to heed now, and what was read before.
    fields, ways, direction, cycle
        The form of a point.
    plot
        The picture.
    rows, beside
        The points that count, and those that do not.
    lines
        The result, in the words of a house call.
    notes
        What the plan cannot reach, and what was assumed.
    """

    first: str
    problems: Sequence[str]
    asks: str
    way: str
    progress: str
    care: CareView
    fields: Sequence[EntryField]
    ways: Sequence[tuple[str, str]]
    direction: str
    cycle: int
    plot: Markup
    rows: Sequence[PointRow]
    beside: Sequence[PointRow]
    lines: Sequence[str]
    notes: Sequence[str]


def check_view(seen: CheckSeen, found: CheckThought, speaker: Speaker) -> CheckView:
    """Return a check as its page shows it."""
    step, ahead, form = found.step, found.planned, point_fields(seen, speaker)
    counted, beside = rows_of(seen, speaker)
    at_start = ahead.plan.cautions if ahead else ()
    read = seen.cautions.union(each.id for each in at_start if seen.told.points)
    last = seen.told.run.points[-1] if seen.told.points else None
    return CheckView(
        first=speaker.say(ahead.first) if ahead and ahead.decidable else "",
        problems=[speaker.say(each) for each in _missing(found)],
        asks=speaker.tell("sensor-next", mark=MARKS[step.direction], pressure=step.pressure_pa) if step else "",
        way=speaker.say(step.way) if step else "",
        progress=_progress(found, speaker),
        care=care_view((*at_start, *(step.cautions if step else ())), read, speaker),
        fields=form.fields, ways=form.ways,
        direction=step.direction if step else last.direction if last else "up",
        cycle=step.cycle if step else last.cycle if last else 1,
        plot=plot_of(seen, speaker, found.known_within, step.pressure_pa if step else None),
        rows=counted, beside=beside,
        lines=[speaker.say(each) for each in found.looked.lines] if found.looked else (),
        notes=[speaker.say(each) for each in _notes(found)],
    )  # fmt: skip


def _missing(found: CheckThought) -> Iterator[Message]:
    """Yield what must be said before anything can be decided."""
    if found.planned is not None and not found.planned.decidable:
        yield found.planned.first
    yield from found.problems


def _progress(found: CheckThought, speaker: Speaker) -> str:
    if found.planned is None or found.step is None:
        return ""
    return speaker.tell("sensor-progress", number=found.step.number, count=len(found.planned.plan.steps))


def _notes(found: CheckThought) -> Iterator[Message]:
    ahead, after = found.planned, found.looked
    yield from dict.fromkeys((*(ahead.notes if ahead else ()), *(after.notes if after else ())))
