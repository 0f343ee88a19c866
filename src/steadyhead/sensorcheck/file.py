"""A sensor check as a file of its own: a text, the check that it says, and every way in which it can be refused.

Rules
-----
1. The file is TOML in the visit file's language: the same quantities as text, the same ``[sensor]`` and
   ``[controller]``, and the tables of `steadyhead.visit.check_keys` beside them.
2. It is read whole or not at all: every problem is told, with its key and its line.
3. Editing changes what it must and no other byte; comments stay (`steadyhead.visit.edit`).
4. A file without a point is sound: a check that is planned, and not begun.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from steadyhead.errors import CheckFileError, Problem
from steadyhead.messages import Message, message
from steadyhead.sensorcheck.instruments import meter_of, reference_of
from steadyhead.sensorcheck.plausible import slips
from steadyhead.sensorcheck.points import Allowed, PurposeId
from steadyhead.sensorcheck.run import Certificate, CheckRun, Conditions, Point, Reference, SignalMeter
from steadyhead.visit import edit
from steadyhead.visit.build import pressure_unit_of, unit_spelled
from steadyhead.visit.check_keys import CHECK_FILE
from steadyhead.visit.checked_text import checked_text
from steadyhead.visit.keys import Table
from steadyhead.visit.layout import Path as KeyPath
from steadyhead.visit.record import Controller, Interval, Sensor, Signal
from steadyhead.visit.save import save_bytes
from steadyhead.visit.toml_text import read_bytes
from steadyhead.visit.walk import BROKEN, Row, Rule, Walked, usable

Value = str | bool | int | tuple[str, ...]

_TABLES: Mapping[str, Table] = {table.name: table for table in CHECK_FILE.tables}
POINT = "point"


@dataclass(frozen=True, slots=True)
class CheckFile:
    """A sensor check and the very text that says it.

    Parameters
    ----------
    run
        The check, with the points that were taken.
    text
        Text of the file, with its comments, its order and its line ends.
    name
        What the file is called in messages.
    purpose
        How thorough it is to be.
    allowed
        What the place allows.
    controller
        The drive's input as found: its range setting.
    by
        Who made the check, or empty.
    pressure_unit
        Unit in which the sensor's range is spelled.
    dial_unit, set_unit
        Units in which the reference's scale and the drive's range setting are spelled; empty where nobody said either.
    """

    run: CheckRun
    text: str
    name: str
    purpose: PurposeId = "full"
    allowed: Allowed = field(default_factory=Allowed)
    controller: Controller = field(default_factory=Controller)
    by: str = ""
    pressure_unit: str = field(default="psi", compare=False)
    dial_unit: str = field(default="", compare=False)
    set_unit: str = field(default="", compare=False)

    def with_point(self, point: Mapping[str, Value]) -> CheckFile:
        """Return the file with a point after its last one.

        Parameters
        ----------
        point
            Its keys and values as a file spells them: ``{"reference": "40 psi", "signal": "2.1 V", ...}``.

        Raises
        ------
        CheckFileError
            The point is refused; its problems have the lines of the new text.
        """
        return self._edited(edit.with_row(self.text, POINT, point))

    def without_point(self, number: int) -> CheckFile:
        """Return the file without its point `number` (from 1).

        Raises
        ------
        CheckFileError
            ``check-point-not-here``: there is no such point.
        """
        self._must_have(number)
        return self._edited(edit.without_row(self.text, POINT, number))

    def with_point_changed(self, number: int, values: Mapping[str, Value]) -> CheckFile:
        """Return the file with other values in its point `number` (from 1); its other keys stay.

        Raises
        ------
        CheckFileError
            ``check-point-not-here``: there is no such point; or the values are refused.
        """
        self._must_have(number)
        return self._edited(edit.with_row_values(self.text, POINT, number, values))

    def _must_have(self, number: int) -> None:
        if not 1 <= number <= len(self.run.points):
            raise _refused(self.name, (Problem(message("check-point-not-here", got=number), "[[point]]", None),))

    def with_value(self, table: str, key: str, value: Value) -> CheckFile:
        """Return the file with another value of a key, in a table that stands once: ``check``, ``conditions``, ...

        Raises
        ------
        CheckFileError
            There is no such table or key, or it cannot have that value.
        """
        return self._edited(edit.with_value(self.text, table, key, value))

    def _edited(self, text: str | None) -> CheckFile:
        if text is None:
            raise _refused(self.name, (Problem(message("rows-written-inline"), "[[point]]", None),))
        return parse_check(text, self.name)


def load_check(path: Path | str) -> CheckFile:
    """Return the check file at `path`.

    Raises
    ------
    FileUnreadableError
        No file, a folder, larger than 1 MiB, or no UTF-8 text.
    CheckFileError
        Text that is no check file; `problems` holds everything that is wrong.
    """
    return parse_check(read_bytes(Path(path)), str(path))


def parse_check(text: str | bytes, name: str = "check.toml") -> CheckFile:
    r"""Return the check file that a text, or the bytes of one, says.

    Raises
    ------
    FileUnreadableError
        Larger than 1 MiB, or no UTF-8 text.
    CheckFileError
        `problems` holds everything that is wrong, in the order of the file.

    Examples
    --------
    >>> text = 'schema = 1\n[sensor]\nsignal = "4..20 mA"\nrange = "0..16 bar"\n'
    >>> text += '[[point]]\nreference = "8 bar"\nsignal = "12 mA"\ndirection = "up"\n'
    >>> parse_check(text).run.points[0].signal
    0.012
    """
    found = checked_text(text, name, CHECK_FILE, RULES)
    if found.walked is None:
        raise _refused(name, found.problems)
    return _built(found.walked, found.text, name)


def save_check(check: CheckFile, path: Path | str) -> None:
    """Write a check file so that a power cut leaves either the old one or the new one, whole.

    Raises
    ------
    FileUnreadableError
        It is a folder, or cannot be written there.
    """
    save_bytes(check.text.encode("utf-8"), path)


def _refused(name: str, problems: tuple[Problem, ...]) -> CheckFileError:
    return CheckFileError(message("check-file-refused", file=name, problems=len(problems)), problems)


# ------------------------------------------------------------ what one key alone does not show

Found = Iterator[tuple[KeyPath, Message]]


def _points_that_say_nothing(walked: Walked) -> Found:
    for index, row in enumerate(walked.tables[POINT]):
        if "signal" not in row and "shown" not in row:
            yield (POINT, index), message("check-point-says-nothing")


def _corrections_that_do_not_fit(walked: Walked) -> Found:
    """Yield certificates whose corrections are not one for each reading that they belong to."""
    for table in ("reference", "meter"):
        row = usable(walked.tables[table], "certificate") or {}
        corrections, at = usable(row, "correction"), usable(row, "at") or ()
        must_be = max(len(at), 1)
        if "correction" in row and corrections is not None and len(corrections) != must_be:
            told = message("corrections-do-not-fit", got=len(corrections), must_be=must_be)
            yield (table, "certificate", "correction"), told
        elif at and "correction" not in row:
            yield (table, "certificate", "at"), message("corrections-do-not-fit", got=0, must_be=must_be)


def _points_that_slipped(walked: Walked) -> Found:
    """Yield values so far off the plate, or off the gauge's scale, that they are slips."""
    sensor, reference = walked.tables["sensor"], walked.tables["reference"]
    scale = None if "certificate" in reference else usable(reference, "range")
    if not isinstance(usable(sensor, "signal"), Signal) or not isinstance(usable(sensor, "range"), Interval):
        return
    plate = Sensor(signal=sensor["signal"], range=sensor["range"])
    for index, row in enumerate(walked.tables[POINT]):
        sound = {key: value for key, value in row.items() if value is not BROKEN}
        for key, told in slips(plate, _named(POINT, sound), scale if isinstance(scale, Interval) else None):
            yield (POINT, index, key), told


RULES: tuple[Rule, ...] = (_points_that_say_nothing, _corrections_that_do_not_fit, _points_that_slipped)


# ------------------------------------------------------------ from sound rows to the check


def _built(walked: Walked, text: str, name: str) -> CheckFile:
    tables = walked.tables
    check = _named("check", tables["check"])
    purpose, by = check.pop("purpose", "full"), check.pop("by", "")
    plate = {name: value for name, value in _named("sensor", tables["sensor"]).items() if name != "wires"}
    sensor = Sensor(**plate)
    absolute = sensor.reference == "absolute"
    run = CheckRun(
        sensor=sensor, reference=_reference(tables["reference"]), meter=_meter(tables["meter"], sensor),
        conditions=Conditions(**_named("conditions", tables["conditions"])),
        points=tuple(Point(**_named(POINT, row)) for row in tables[POINT]), **check,
    )  # fmt: skip
    return CheckFile(
        run, text, name, purpose=purpose, allowed=_allowed(tables["allowed"], run), by=by,
        controller=Controller(**_named("controller", tables["controller"])),
        pressure_unit=pressure_unit_of(walked.raw["sensor"]["range"], absolute=absolute),
        dial_unit=unit_spelled(walked.raw, "reference", "range"),
        set_unit=unit_spelled(walked.raw, "controller", "scaled", absolute=absolute),
    )  # fmt: skip


def _named(table: str, row: Row) -> dict[str, Any]:
    """Return a row's values under their names in the run; inner tables are left out."""
    return {key.attribute: row[key.name] for key in _TABLES[table].keys if key.name in row}


def _reference(row: Row) -> Reference:
    return reference_of(_named("reference", row), _certificate(row))


def _meter(row: Row, sensor: Sensor) -> SignalMeter:
    return meter_of(_named("meter", row), _certificate(row), current=sensor.signal.kind == "current")


def _certificate(row: Row) -> Certificate | None:
    return None if "certificate" not in row else Certificate(**row["certificate"])


def _allowed(row: Row, run: CheckRun) -> Allowed:
    return Allowed(gauge=run.reference.gauge.range, **_named("allowed", row))
