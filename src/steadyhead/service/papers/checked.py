"""What a certificate is made from: a sensor check as it was looked at, and what is known of who, when and where.

Rules
-----
1. It is made of a check of the record, or of a check file alone; a certificate never asks which.
2. A check as-left is compared with the as-found one of the same sensor, where both are known.
"""

from __future__ import annotations

import hashlib
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import cached_property

from steadyhead.figures import Figure
from steadyhead.sensorcheck.comparing import of_one_sensor
from steadyhead.sensorcheck.file import CheckFile
from steadyhead.sensorcheck.from_facts import ToldCheck
from steadyhead.sensorcheck.run import CheckRun
from steadyhead.service.papers.occasion import FILED, NUMBERED, wall_time
from steadyhead.service.record.check_pages import CheckSeen
from steadyhead.service.sensorcheck.looking import Looked, look
from steadyhead.words import Manner, Speaker


@dataclass(frozen=True, kw_only=True)
class Checked:
    """A sensor check, as its certificate is made from it.

    Parameters
    ----------
    looked
        What its points say.
    other
        What the same sensor said at the other stage; None where that is not known.
    id, link
        Its id in the record, or the SHA-256 of its file; leads back to it.
    name
        What its system is called; empty where nobody said.
    at, day, zone
        When it began: UTC and the site's zone, or the day alone; empty where nobody knows.
    people
        Who made it.
    pressure_unit
        Unit in which its pressures are shown.
    plate_unit
        Unit in which the sensor's plate spells its range; empty where nobody knows.
    dial_unit
        Unit of the reference's dial; empty where its scale is not known.
    """

    looked: Looked
    other: Looked | None = None
    id: str
    link: str
    name: str = ""
    at: str = ""
    day: str = ""
    zone: str = "UTC"
    people: Sequence[str] = ()
    pressure_unit: str = "psi"
    plate_unit: str = ""
    dial_unit: str = ""

    @property
    def run(self) -> CheckRun:
        """The check itself."""
        return self.looked.run

    @property
    def dated(self) -> str:
        """Day and time at which it began, at the site; the day alone where only that is known."""
        return wall_time(self.at, self.zone) or self.day

    @cached_property
    def expanded(self) -> tuple[Figure, ...]:
        """Expanded uncertainty of the mean error at each level, with its descent; worked out once."""
        coverage = self.looked.rule.coverage
        return tuple(each.point.budget.expanded(coverage).figure for each in self.looked.judged.levels)

    def speaker(self, manner: Manner) -> Speaker:
        """Return who speaks of it: in its unit of pressure."""
        return manner.speaker(pressure_unit=self.pressure_unit, wires=self.run.sensor.signal.wires)

    def number(self, kind: str) -> str:
        """Return what the certificate goes by."""
        return f"{self.id[-NUMBERED:].upper()}-{kind}"


def check_of_record(seen: CheckSeen, looked: Looked, earlier: Iterable[ToldCheck] = ()) -> Checked:
    """Return what a certificate is made from, of a check of the record; `earlier` are those of its serial number."""
    told = seen.told
    return Checked(
        looked=looked, other=_other(told.run, [each.run for each in earlier]), id=seen.id,
        link=f"steadyhead:check/{seen.id}", name=seen.name, at=seen.at, zone=seen.zone, people=seen.people,
        pressure_unit=told.pressure_unit, plate_unit="" if told.assumed else told.plate_unit,
        dial_unit=told.dial_unit,
    )  # fmt: skip


def check_of_file(file: CheckFile) -> Checked:
    """Return what a certificate is made from, of a check file.

    Raises
    ------
    FitError
        ``no-usable-point``: not one point is usable.
    SensorCheckError
        Nothing can be decided: the reference's accuracy is not known, or it was off its scale.
    """
    digest = hashlib.sha256(file.text.encode()).hexdigest()
    return Checked(
        looked=look(file.run, scaled=file.controller.scaled), id=digest, link=f"steadyhead:file/{digest[:FILED]}",
        day=file.run.began[:10], people=(file.by,) if file.by else (), pressure_unit=file.pressure_unit,
        plate_unit=file.pressure_unit, dial_unit=file.dial_unit,
    )  # fmt: skip


def _other(run: CheckRun, runs: Sequence[CheckRun]) -> Looked | None:
    """Return the same sensor at the other stage: as it was found last before, or as it was left first after."""
    if not run.serial:
        return None
    mine = [each for each in of_one_sensor(runs, run.serial) if each.stage != run.stage and each.points]
    if run.stage == "as-left":
        before = [each for each in mine if each.began <= run.began]
        return look(before[-1]) if before else None
    after = [each for each in mine if each.began >= run.began]
    return look(after[0]) if after else None
