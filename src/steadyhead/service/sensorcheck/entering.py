"""Use case: points entered one by one, as a conversation that any home can hold: a state, and what a line makes of it.

Rules
-----
1. A state is frozen; `hear` returns the next one with what is said. Who drives it saves where `Heard.changed` says so.
2. A point is asked for value by value: the reference, then the signal and the sensor's power, or the display.
3. A bare number has the unit that was asked for, which stands in the question; any other unit is typed with it.
4. ``again`` takes the value back that was just entered, or else the last point, and asks for it anew; ``undo`` takes
   the last point out; ``skip`` leaves a step; ``quit``, or no line any more, ends. Nothing that was kept is lost.
   ``fix 2`` asks for the values of point 2 anew, which keeps its place, and until all are there its old ones; ``list``
   shows the points.
5. The step that a point takes says its direction and its cycle. A point that lies nearer to another level, or that was
   reached from the wrong side, is kept and told.
6. A value that cannot be (`steadyhead.sensorcheck.plausible`) is refused at once, before the next one is asked for.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace

from steadyhead.errors import CheckFileError, InputError
from steadyhead.messages import Message, message
from steadyhead.sensorcheck.conformity import Rule
from steadyhead.sensorcheck.errors import point_errors
from steadyhead.sensorcheck.file import CheckFile
from steadyhead.sensorcheck.judging import tolerance_of
from steadyhead.sensorcheck.output import unusable
from steadyhead.sensorcheck.plausible import slips
from steadyhead.sensorcheck.points import Plan, Step
from steadyhead.sensorcheck.progress import next_step, steps_left
from steadyhead.sensorcheck.run import CheckRun, Point
from steadyhead.service.sensorcheck.looking import look
from steadyhead.service.sensorcheck.planning import Planned, planned
from steadyhead.visit.check_keys import POINT
from steadyhead.visit.kinds import Known
from steadyhead.visit.nearest import shown

#: Commands, and the words that mean them.
COMMANDS: Mapping[str, str] = {
    "again": "again", "undo": "undo", "back": "undo", "skip": "skip", "quit": "quit", "q": "quit", "exit": "quit",
    "help": "help", "?": "help", "list": "list", "fix": "fix",
}  # fmt: skip
WRONG_WAY = 0.002  #: of span: less than that is no way


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """Where the conversation stands.

    Parameters
    ----------
    check
        The file, with the points that were kept.
    planned
        What is to be taken.
    held
        Values of the point that is being entered, as a file spells them.
    skipped
        Numbers of the steps that were left.
    fixing
        Number of the point whose values are asked for anew; 0 where none is.
    rule
        How it will be decided.
    """

    check: CheckFile
    planned: Planned
    held: Mapping[str, str] = field(default_factory=dict)
    skipped: frozenset[int] = frozenset()
    fixing: int = 0
    rule: Rule = field(default_factory=Rule)

    @property
    def plan(self) -> Plan:
        """The plan without the steps that were left."""
        made = self.planned.plan
        return replace(made, steps=tuple(each for each in made.steps if each.number not in self.skipped))

    @property
    def step(self) -> Step | None:
        """What is taken now; None where all was taken."""
        return next_step(self.plan, self.check.run.points)

    @property
    def asks(self) -> str | None:
        """Which value is asked for now: a key of a point, or None where nothing is left to take."""
        if self.step is None and not self.fixing:
            return None
        return next(each for each in wanted(self.check.run) if each not in self.held)


@dataclass(frozen=True, slots=True, kw_only=True)
class Heard:
    """What came of a line: the next state, what is said, whether the file changed, whether it ended."""

    entry: Entry
    said: tuple[Message, ...] = ()
    changed: bool = False
    ended: bool = False


def wanted(run: CheckRun) -> tuple[str, ...]:
    """Return the values of a point in the order in which they are asked for."""
    if run.read_as == "displayed-pressure":
        return "reference", "shown"
    return ("reference", "signal", "supply") if run.sensor.signal.kind == "ratiometric" else ("reference", "signal")


def unit_of(key: str, check: CheckFile) -> str:
    """Return the unit that a bare number has."""
    if key == "supply":
        return "V"
    if key == "signal":
        return "mA" if check.run.sensor.signal.kind == "current" else "V"
    return check.pressure_unit


def begin(check: CheckFile, rule: Rule | None = None) -> Heard:
    """Return the first state: what this gauge can decide, what to heed, and the first step that is open.

    Raises
    ------
    SensorCheckError
        ``nothing-to-check``.
    """
    rule = rule or Rule()
    made = planned(check.run, check.allowed, check.purpose, unit=check.pressure_unit, rule=rule)
    entry = Entry(check=check, planned=made, rule=rule)
    begun = len(check.run.points)
    resumed = (message("enter-resumed", count=begun, left=made.left),) if begun else made.plan.cautions
    return Heard(entry=entry, said=(made.first, *resumed, *made.notes, *_asked(entry)))


def hear(entry: Entry, line: str | None) -> Heard:
    """Return what comes of a line; None: there is no more.

    Parameters
    ----------
    entry
        Where the conversation stands.
    line
        What was typed.
    """
    words = "" if line is None else " ".join(line.split())
    command = "quit" if line is None else COMMANDS.get(words.casefold(), "")
    word, _, rest = words.partition(" ")
    if COMMANDS.get(word.casefold()) == "fix":
        return _fix(entry, rest)
    if command:
        return _COMMANDS[command](entry)
    if entry.asks is None:
        return _quit(entry) if not words else Heard(entry=entry, said=(message("enter-all-taken"),))
    if not words:
        return Heard(entry=entry, said=(message("enter-help"),))
    return _value(entry, entry.asks, words)


def _asked(entry: Entry) -> tuple[Message, ...]:
    """Return what is said before a step's first value."""
    step = entry.step
    if step is None:
        return (message("enter-all-taken"),)
    count = len(entry.plan.steps)
    place = count - len(steps_left(entry.plan, entry.check.run.points)) + 1
    head = message("enter-step", place=place, count=count, cycle=step.cycle, cycles=entry.plan.purpose.cycles)
    return (head, *step.cautions, step.way)


def _value(entry: Entry, key: str, words: str) -> Heard:
    """Take one value of the point; the last of them keeps it."""
    unit = unit_of(key, entry.check)
    try:
        spelled = _spelled(entry, key, words, unit)
    except InputError as error:
        return Heard(entry=entry, said=(error.message,))
    slipped = _slipped(entry, key, spelled)
    if slipped:
        return Heard(entry=entry, said=slipped)
    held = {**entry.held, key: spelled}
    if any(each not in held for each in wanted(entry.check.run)):
        return Heard(entry=replace(entry, held=held))
    return _fixed(entry, held) if entry.fixing else _kept(entry, held)


def _spelled(entry: Entry, key: str, words: str, unit: str) -> str:
    """Return a value as a file spells it: as it was typed, or with the unit that was asked for.

    Raises
    ------
    InputError
        It is no such value.
    """
    spelled = f"{words} {unit}" if words[-1].isdigit() or words[-1] in ".," else words
    _read(entry, key, spelled)
    return spelled


def _slipped(entry: Entry, key: str, spelled: str) -> tuple[Message, ...]:
    """Return why a value cannot be; nothing where it can."""
    name, value = _read(entry, key, spelled)
    run = entry.check.run
    return tuple(why for _, why in slips(run.sensor, {name: value}, run.reference.scale))


def _read(entry: Entry, key: str, spelled: str) -> tuple[str, object]:
    """Return a value under its name in the run.

    Raises
    ------
    InputError
        It is no such value.
    """
    found = next(each for each in POINT.keys if each.name == key)
    sensor = entry.check.run.sensor
    return found.attribute, found.kind.read(spelled, Known(sensor.signal.kind, sensor.reference == "absolute", {}))


def _kept(entry: Entry, held: Mapping[str, str]) -> Heard:
    """Keep a point whose values are all there."""
    step = entry.step
    assert step is not None  # noqa: S101 - a value is asked for only while a step is open
    row: dict[str, str | bool | int | tuple[str, ...]] = {**held, "direction": step.direction, "cycle": step.cycle}
    try:
        check = entry.check.with_point(row)
    except CheckFileError as error:
        return Heard(entry=replace(entry, held={}), said=tuple(each.message for each in error.problems))
    after = replace(entry, check=check, held={})
    said = (*_said_of_point(after, len(check.run.points)), *_strange(entry, after, step))
    return Heard(entry=after, said=(*said, *_asked_or_end(after)), changed=True)


def _fixed(entry: Entry, held: Mapping[str, str]) -> Heard:
    """Keep other values of a point that was kept before, in its place."""
    number, after = entry.fixing, replace(entry, held={}, fixing=0)
    try:
        check = entry.check.with_point_changed(number, held)
    except CheckFileError as error:
        return Heard(entry=after, said=(*(each.message for each in error.problems), *_asked(after)))
    after = replace(after, check=check)
    return Heard(entry=after, said=(*_said_of_point(after, number), *_asked_or_end(after)), changed=True)


def _asked_or_end(entry: Entry) -> tuple[Message, ...]:
    return _end(entry) if entry.step is None else _asked(entry)


def _said_of_point(entry: Entry, number: int) -> tuple[Message, ...]:
    """Return the error at a point that was just kept."""
    run = entry.check.run
    why = unusable(run, number)
    if why is not None:
        return (why,)
    last = next(each for each in point_errors(run) if each.number == number)
    error, tolerance = last.error.value, tolerance_of(run)[0].value
    if error < 0.0:
        return (message("enter-reads-low", number=number, error=-error, tolerance=tolerance),)
    return (message("enter-reads-high", number=number, error=error, tolerance=tolerance),)


def _strange(before: Entry, after: Entry, step: Step) -> tuple[Message, ...]:
    """Return what is strange about the point that was just kept: another level, or the wrong side."""
    found = []
    points, span = after.check.run.points, after.check.run.sensor.range.width
    if step in steps_left(after.plan, points):
        found.append(message("enter-another-level", pressure=points[-1].reference_pa, wanted=step.pressure_pa))
    if len(points) > 1 and before.check.run.points:
        moved = points[-1].reference_pa - points[-2].reference_pa
        if (moved < -WRONG_WAY * span) if step.direction == "up" else (moved > WRONG_WAY * span):
            found.append(message("enter-wrong-way-up" if step.direction == "up" else "enter-wrong-way-down"))
    return tuple(found)


def _end(entry: Entry) -> tuple[Message, ...]:
    """Return what is said when all was taken: the five lines, and how to go back."""
    return (*_lines(entry), message("enter-all-taken"))


def _lines(entry: Entry) -> tuple[Message, ...]:
    try:
        return look(entry.check.run, entry.rule, scaled=entry.check.controller.scaled).lines
    except InputError as error:
        return (error.message,)


# ------------------------------------------------------------ commands


def _again(entry: Entry) -> Heard:
    if entry.held:
        held = dict(list(entry.held.items())[:-1])
        return Heard(entry=replace(entry, held=held), said=(message("enter-value-again"),))
    return _undo(entry)


def _undo(entry: Entry) -> Heard:
    if entry.fixing:
        return _left(entry)
    if entry.held:
        return Heard(entry=replace(entry, held={}), said=_asked(replace(entry, held={})))
    count = len(entry.check.run.points)
    if not count:
        return Heard(entry=entry, said=(message("enter-nothing-to-undo"),))
    after = replace(entry, check=entry.check.without_point(count))
    return Heard(entry=after, said=(message("enter-undone", number=count), *_asked(after)), changed=True)


def _left(entry: Entry) -> Heard:
    """Leave a point that was to be entered anew as it was."""
    after = replace(entry, held={}, fixing=0)
    return Heard(entry=after, said=(message("enter-fix-left", number=entry.fixing), *_asked_or_end(after)))


def _fix(entry: Entry, rest: str) -> Heard:
    """Ask for the values of a point anew; without its number, show the points."""
    count = len(entry.check.run.points)
    if not count:
        return Heard(entry=entry, said=(message("enter-nothing-to-undo"),))
    if not rest:
        return Heard(entry=entry, said=(*_listed(entry.check.run), message("enter-fix-how")))
    if not rest.isdecimal() or not 1 <= int(rest) <= count:
        return Heard(entry=entry, said=(message("enter-fix-which", got=shown(rest), count=count),))
    number = int(rest)
    pressure = entry.check.run.points[number - 1].reference_pa
    said = message("enter-fix", number=number, pressure=pressure)
    return Heard(entry=replace(entry, held={}, fixing=number), said=(said,))


def _list(entry: Entry) -> Heard:
    found = _listed(entry.check.run)
    return Heard(entry=entry, said=found or (message("enter-nothing-to-undo"),))


def _listed(run: CheckRun) -> tuple[Message, ...]:
    """Return each point that is kept, in a line."""
    return tuple(_line_of(number, each, run) for number, each in enumerate(run.points, start=1))


def _line_of(number: int, point: Point, run: CheckRun) -> Message:
    told = {"number": number, "pressure": point.reference_pa}
    if point.signal is None:
        return message("enter-listed-shown", **told, displayed=point.shown_pa or 0.0)
    if run.sensor.signal.kind == "current":
        return message("enter-listed-milliamps", **told, signal=point.signal)
    return message("enter-listed-volts", **told, signal=point.signal)


def _skip(entry: Entry) -> Heard:
    if entry.fixing:
        return _left(entry)
    step = entry.step
    if step is None:
        return Heard(entry=entry, said=(message("enter-all-taken"),))
    after = replace(entry, skipped=entry.skipped | {step.number}, held={})
    return Heard(entry=after, said=_end(after) if after.step is None and after.check.run.points else _asked(after))


def _quit(entry: Entry) -> Heard:
    left = len(steps_left(entry.plan, entry.check.run.points))
    said = message("enter-quit-open", count=len(entry.check.run.points), left=left, file=entry.check.name)
    done = message("enter-quit-done", count=len(entry.check.run.points), file=entry.check.name)
    return Heard(entry=entry, said=(said if left else done,), ended=True)


def _help(entry: Entry) -> Heard:
    return Heard(entry=entry, said=(message("enter-help"),))


_COMMANDS = {"again": _again, "undo": _undo, "skip": _skip, "quit": _quit, "help": _help, "list": _list}
