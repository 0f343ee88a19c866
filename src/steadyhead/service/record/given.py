"""What every use case of the record is given: a store, ids, a clock, and who writes."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import UTC, date, datetime
from zoneinfo import ZoneInfo

from steadyhead import __version__
from steadyhead.service.ports import CopiesAll, MakesIds, MeasuresAll, SetsPdf, UnitOfWork, WorkMaker
from steadyhead.visit.ids import Clock
from steadyhead.visit.pen import Pen

#: The name of the setting that holds the name asked once.
AUTHOR = "author"
LONGEST_NAME = 100


@dataclass(frozen=True, slots=True, kw_only=True)
class Given:
    """What every use case of the record is given.

    Parameters
    ----------
    reading, writing
        Make units of work: to look, to change.
    ids
        Makes ids.
    clock
        Milliseconds since 1970, UTC.
    zone
        IANA name of the time zone here.
    author
        Who writes; None for the name that was asked once on this device.
    program
        Version of this program.
    pdf
        Sets a paper as PDF; None where this home cannot.
    copy
        Copies the whole record into one file's bytes; None where the record lives on a server.
    size
        Tells how much the record holds; None where nobody can.
    """

    reading: WorkMaker = field(repr=False)
    writing: WorkMaker = field(repr=False)
    ids: MakesIds = field(repr=False)
    clock: Clock = field(repr=False)
    zone: str = "UTC"
    author: str | None = None
    program: str = __version__
    pdf: SetsPdf | None = field(default=None, repr=False)
    copy: CopiesAll | None = field(default=None, repr=False)
    size: MeasuresAll | None = field(default=None, repr=False)

    def pen(self, work: UnitOfWork) -> Pen:
        """Return what writes the facts of one unit of work."""
        author = work.setting(AUTHOR) or "" if self.author is None else self.author
        return Pen(new_id=self.ids.new, clock=self.clock, zone=self.zone, author=author, program=self.program)


def today_of(given: Given) -> date:
    """Return the day on the wall here."""
    return datetime.fromtimestamp(given.clock() / 1000.0, UTC).astimezone(ZoneInfo(given.zone)).date()


def mint(given: Given) -> str:
    """Return an id for a fact that a form will make."""
    return given.ids.new()


def author(given: Given) -> str:
    """Return the name that was asked once; empty where it was not."""
    with given.reading() as work:
        return work.setting(AUTHOR) or ""


def set_author(given: Given, name: str) -> None:
    """Keep the name that everything from now on is written under."""
    with given.writing() as work:
        plain = "".join(sign if sign.isprintable() else " " for sign in name)
        work.set_setting(AUTHOR, " ".join(plain.split())[:LONGEST_NAME])
        work.commit()
