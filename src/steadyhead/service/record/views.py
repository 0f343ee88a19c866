"""What pages show of the record: frozen values, ready to be rendered; times UTC, bodies in the visit file's words."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from steadyhead.visit.from_facts import Clash, SetAside
from steadyhead.visit.record import Visit

Row = Mapping[str, Any]


@dataclass(frozen=True, slots=True, kw_only=True)
class VisitLine:
    """One visit of a list: where, when it was last written (UTC), what was wrong, how many readings it has."""

    id: str
    name: str
    at: str
    complaint: str
    readings: int
    state: str
    demo: bool = False
    photos: int = 0
    conflict: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class SystemLine:
    """One system of a list."""

    id: str
    name: str
    signal: str = ""
    range: str = ""
    visits: int = 0
    open_visits: int = 0
    conflict: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Today:
    """Open visits, the last first; ended ones; systems that are known."""

    visits: Sequence[VisitLine] = ()
    ended: Sequence[VisitLine] = ()
    systems: Sequence[SystemLine] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Earlier:
    """What a reading said before it was corrected, or what one of two heads says."""

    value: str
    at: str
    author: str = ""
    fact: str = ""
    withdrawn: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class RowSeen:
    """One reading of a visit.

    Parameters
    ----------
    id
        Its entity.
    number
        Its number in the visit; None where it is no evidence (taken out, in conflict, set aside).
    body
        Its keys.
    history
        What it said before, the oldest first.
    conflict
        Whether two devices disagree on it; `heads` has what each says.
    at, author, instrument
        Of its first fact.
    """

    id: str
    number: int | None
    body: Row
    history: Sequence[Earlier] = ()
    conflict: bool = False
    heads: Sequence[Earlier] = ()
    withdrawn: bool = False
    at: str = ""
    author: str = ""
    instrument: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Beside:
    """A photo, a note, a repair or a declined check of a visit."""

    id: str
    body: Row
    at: str
    author: str


@dataclass(frozen=True, slots=True, kw_only=True)
class VisitSeen:
    """A visit as it stands.

    Parameters
    ----------
    id, system_id, site_id, name, site
        What is visited; `name` is the system's, or its site's.
    state
        One of `steadyhead.visit.fact_kinds.STATES`.
    visit
        The visit as the engine takes it.
    key
        Changes with every fact that is added or emptied, and with nothing else.
    evidence
        Changes with every fact that the engine reads, and not with photos, notes and cautions that were read.
    at, saved, zone
        When it began and was last written, UTC, and the site's zone.
    assumed
        Keys that nobody read: ``sensor.signal``, ``sensor.range``.
    rows
        Every reading, those that are no evidence too.
    clashes, set_aside
        What two devices disagree on; what this version cannot use.
    tables
        The visit as a visit file spells it.
    photos, notes, actions, declined, temporary, follow_ups
        What else was kept, in order.
    ending
        What is said of how it ended: keys of `steadyhead.visit.fact_kinds.ENDING`.
    tapped
        What was tapped when it began, as the page had it.
    instrument_names
        Names of the instruments that readings were taken with, by their ids.
    cautions
        Ids of the cautions that were read.
    depends, access
        Who depends on the system's water, and how to get in.
    first_minute
        How the first minute ended: a word of `steadyhead.visit.fact_kinds.FIRST_MINUTES`, or empty.
    people
        Who wrote any of it.
    instruments
        Ids of the gauge and the meter that the visit names.
    demo
        Whether it is the invented one.
    """

    id: str
    system_id: str
    name: str
    state: str
    visit: Visit
    key: str
    at: str
    saved: str
    zone: str = "UTC"
    assumed: Sequence[str] = ()
    rows: Sequence[RowSeen] = ()
    demo: bool = False
    site_id: str | None = None
    site: str = ""
    clashes: Sequence[Clash] = ()
    set_aside: Sequence[SetAside] = ()
    tables: Mapping[str, Any] = field(default_factory=dict)
    photos: Sequence[Beside] = ()
    notes: Sequence[Beside] = ()
    actions: Sequence[Beside] = ()
    declined: Sequence[Beside] = ()
    temporary: Sequence[Beside] = ()
    follow_ups: Sequence[Beside] = ()
    ending: Row = field(default_factory=dict)
    tapped: str = ""
    instrument_names: Mapping[str, str] = field(default_factory=dict)
    cautions: frozenset[str] = frozenset()
    people: Sequence[str] = ()
    instruments: Sequence[str] = ()
    first_minute: str = ""
    evidence: str = ""
    depends: Sequence[str] = ()
    access: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class SystemSeen:
    """A system as it is known: its tables, as a visit file spells them, its site and its visits, the last first."""

    id: str
    name: str
    tables: Mapping[str, Row] = field(default_factory=dict)
    visits: Sequence[VisitLine] = ()
    site_id: str | None = None
    site: Row = field(default_factory=dict)
    clashes: Mapping[str, tuple[Any, ...]] = field(default_factory=dict)
    changes: Sequence[Beside] = ()
