"""What every paper of a visit is made from: the visit, what was thought of it, and what the record knows beside.

Rules
-----
1. It is made of a visit of the record, or of a visit file alone; a paper never asks which.
2. What was at fault is asked of the visit as it stood before its last repair: after it, nothing is at fault any more.
3. A time is told by the clock on the site's wall, as year, month, day: it reads the same in every region.
4. The way back to the record is ``steadyhead:visit/`` and the visit's id; of a file, ``steadyhead:file/`` and the first
   digits of its SHA-256.
"""

from __future__ import annotations

import hashlib
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import datetime
from typing import Any
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

from steadyhead.diagnosis.answer import Answer, Band
from steadyhead.diagnosis.diagnose import diagnose
from steadyhead.diagnosis.estimates import SHIPPED, Estimates
from steadyhead.diagnosis.memory import Memory
from steadyhead.diagnosis.reasons import Reasons
from steadyhead.figures import Figure
from steadyhead.service.healthy import healthy_bands
from steadyhead.service.record.night import night_kept, night_of
from steadyhead.service.record.temporary import LEFT_OFF, LEFT_TEMPORARY
from steadyhead.service.record.views import Beside, RowSeen, VisitSeen
from steadyhead.service.why import why_suspected
from steadyhead.visit import VisitFile
from steadyhead.visit.fact_kinds import FOLLOW_UPS, STATES
from steadyhead.visit.pending import NIGHT, WHILE
from steadyhead.visit.record import Closed, Visit
from steadyhead.water.night import Judged, judge
from steadyhead.water.tonight import MADE_SAFE
from steadyhead.words import Manner

#: Digits of a visit's id that stand in a paper's number.
NUMBERED = 8
#: Digits of a file's SHA-256 that stand for it.
FILED = 26


@dataclass(frozen=True, slots=True, kw_only=True)
class Thinking:
    """Works out what a paper needs beside the visit's own answer, when it is asked: each takes the engine a while."""

    answer: Callable[[Visit], Answer]
    reasons: Callable[[Visit, str], Reasons]


def thinking(estimates: Estimates = SHIPPED, memory: Memory | None = None) -> Thinking:
    """Return the thinking of the engine with these estimates; `memory` knows the visit."""
    known = Memory() if memory is None else memory
    return Thinking(
        answer=lambda visit: diagnose(visit, estimates, known),
        reasons=lambda visit, fault: why_suspected(visit, fault, estimates, known),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Occasion:
    """A visit, as papers are made from it.

    Parameters
    ----------
    visit
        The visit.
    answer
        What was thought of it; None where nobody read the plate.
    bands
        The healthy band of each reading that has one, by its number.
    id
        Its id in the record, or the SHA-256 of its file.
    link
        Leads back to it.
    name, site
        What the system and its site are called; empty where nobody said.
    state
        How it stands, one of `steadyhead.visit.fact_kinds.STATES`.
    at, saved, zone
        When it began and was last written, UTC, and the site's zone; empty where nobody knows.
    rows, notes, photos
        What the record keeps of it.
    people
        Who wrote any of it.
    assumed
        Keys of the plate that nobody read.
    demo
        Whether it is the invented one.
    temporary
        What was left temporary: the keys of the fact of that kind; empty where nothing was.
    ending
        What is said of how it ended.
    night
        Its night's test: the keys of that fact; empty where there was none.
    told
        What the night told; None while it has told nothing.
    repairs
        What was mended, with all that is said of it.
    waits
        What comes back by itself: the bodies of those facts.
    tapped
        What was tapped when it began; a complaint that says just that was nobody's words.
    instruments
        Names of the instruments that readings were taken with, by their ids.
    think
        Works out what the answer does not have.
    """

    visit: Visit
    answer: Answer | None
    bands: Mapping[int, Band]
    id: str
    link: str
    name: str = ""
    site: str = ""
    state: str = ""
    at: str = ""
    saved: str = ""
    zone: str = "UTC"
    rows: Sequence[RowSeen] = ()
    notes: Sequence[Beside] = ()
    photos: Sequence[Beside] = ()
    people: Sequence[str] = ()
    assumed: Sequence[str] = ()
    demo: bool = False
    temporary: Mapping[str, Any] = field(default_factory=dict)
    ending: Mapping[str, Any] = field(default_factory=dict)
    night: Mapping[str, Any] = field(default_factory=dict)
    told: Judged | None = None
    repairs: Sequence[Beside] = ()
    waits: Sequence[Mapping[str, Any]] = ()
    tapped: str = ""
    instruments: Mapping[str, str] = field(default_factory=dict)
    think: Thinking = field(default_factory=thinking, compare=False, repr=False)
    #: Figures that were made already, so that one reading is one figure wherever it stands.
    figures: dict[object, Figure] = field(default_factory=dict, compare=False, repr=False)
    #: What was thought already, so that it is thought once.
    thoughts: dict[str, Answer] = field(default_factory=dict, compare=False, repr=False)

    def in_unit_of(self, manner: Manner) -> Occasion:
        """Return the same occasion with its pressures in a reader's unit; in the plate's where that names none."""
        unit = manner.unit or self.visit.pressure_unit
        return replace(self, visit=replace(self.visit, pressure_unit=unit))

    @property
    def dated(self) -> str:
        """The day and time at which it began, at the site."""
        return wall_time(self.at, self.zone)

    @property
    def day(self) -> str:
        """The day on which it began, at the site."""
        return self.dated[:10]

    def number(self, kind: str) -> str:
        """Return what a paper of a kind goes by."""
        return f"{self.id[-NUMBERED:].upper()}-{kind}"

    @property
    def found(self) -> Answer | None:
        """What was thought of the visit before its last repair; None where nobody read the plate."""
        if self.answer is None or not self.visit.actions:
            return self.answer
        if "found" not in self.thoughts:
            self.thoughts["found"] = self.think.answer(self.before_repair)
        return self.thoughts["found"]

    @property
    def before_repair(self) -> Visit:
        """The visit as it stood before its last repair."""
        if not self.visit.actions:
            return self.visit
        *earlier, last = sorted(self.visit.actions, key=lambda action: action.after_reading)
        read = self.visit.readings[: last.after_reading]
        return replace(self.visit, readings=read, actions=tuple(earlier), closed=Closed())

    @property
    def mended(self) -> int:
        """The last reading before the last repair; 0 where none was made."""
        return max((action.after_reading for action in self.visit.actions), default=0)


def of_record(
    seen: VisitSeen, answer: Answer | None, bands: Mapping[int, Band], think: Thinking | None = None
) -> Occasion:
    """Return what papers are made from, of a visit of the record."""
    night = night_of(seen)
    return Occasion(
        visit=seen.visit, answer=answer, bands=bands, id=seen.id, link=f"steadyhead:visit/{seen.id}", name=seen.name,
        site=seen.site, state=seen.state if seen.state in STATES else "", at=seen.at, saved=seen.saved, zone=seen.zone,
        rows=seen.rows,
        notes=seen.notes, photos=seen.photos, people=seen.people, assumed=seen.assumed, demo=seen.demo,
        temporary=_latest(seen), ending=seen.ending, night=night_kept(seen), told=judge(night) if night else None,
        repairs=seen.actions, waits=tuple(_waits(seen)), tapped=seen.tapped, instruments=seen.instrument_names,
        think=think or thinking(),
    )  # fmt: skip


def _waits(seen: VisitSeen) -> Iterator[Mapping[str, Any]]:
    """Yield what a visit waits for, while it stands so."""
    for each in seen.follow_ups:
        kind = str(each.body.get("kind", ""))
        told = kind == NIGHT and each.body.get("reading")
        if kind in FOLLOW_UPS and not each.body.get("ended") and WHILE.get(kind, seen.state) == seen.state and not told:
            yield each.body


def _latest(seen: VisitSeen) -> Mapping[str, Any]:
    """Return what was left temporary last, while the visit stands so."""
    left = [each.body for each in seen.temporary]
    if not left or seen.state not in {LEFT_TEMPORARY, LEFT_OFF}:
        return {}
    off = left[-1].get("mode") == MADE_SAFE
    return left[-1] if off == (seen.state == LEFT_OFF) else {}


def of_file(file: VisitFile, answer: Answer | None, think: Thinking | None = None) -> Occasion:
    """Return what papers are made from, of a visit file."""
    digest = hashlib.sha256(file.text.encode()).hexdigest()
    site = file.visit.site.name or ""
    link = f"steadyhead:file/{digest[:FILED]}"
    bands = healthy_bands(file.visit)
    return Occasion(
        visit=file.visit,
        answer=answer,
        bands=bands,
        id=digest,
        link=link,
        name=site,
        site=site,
        think=think or thinking(),
    )


def wall_time(at: str, zone: str) -> str:
    """Return a time of the record as the site's wall clock shows it; nothing where nobody knows it.

    >>> wall_time("2026-05-04T07:09:31.250Z", "Europe/Madrid"), wall_time("", "UTC")
    ('2026-05-04 09:09', '')
    """
    if not at:
        return ""
    moment = datetime.fromisoformat(at)
    try:
        return moment.astimezone(ZoneInfo(zone)).strftime("%Y-%m-%d %H:%M")
    except ZoneInfoNotFoundError:
        return moment.strftime("%Y-%m-%d %H:%M")
