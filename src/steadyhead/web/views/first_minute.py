"""The first minute as its page shows it: one step at a time, in the order of a minute, and what was seen so far.

Rules
-----
1. One step stands open, always at the same place for the thumb; the list below it opens any other.
2. A step that is left out is no fact: "not seen" only leads on.
3. What was kept already is shown in the list. A reading there leads to its own page, where it is corrected.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from steadyhead.diagnosis.observing import Question
from steadyhead.service.record.views import RowSeen, VisitSeen
from steadyhead.visit.record import Reading
from steadyhead.web.views.checks import Entry, entry_view
from steadyhead.web.views.known import value_text
from steadyhead.words import Speaker
from steadyhead.words.complaint_names import COMPLAINT
from steadyhead.words.saying import sentence

#: Steps that are readings, and what is read.
READS: Mapping[str, str] = {
    "fault": "displayed-fault",
    "setpoint": "displayed-setpoint",
    "hours": "displayed-hours",
    "starts": "displayed-starts",
    "gauge": "gauge-pressure",
    "display": "displayed-pressure",
}
#: Steps that are taps on the complaint: its keys, and whether several words of one may hold.
TAPS: Mapping[str, Mapping[str, bool]] = {
    "history": {"shown": True},
    "changed": {"changed": True},
    "call": {"since": False, "when": False},
}
STEPS = ("photo", "fault", "history", "setpoint", "hours", "starts", "changed", "call", "gauge", "display")
WHOSE = ("site", "own")


@dataclass(frozen=True, slots=True, kw_only=True)
class Group:
    """Taps on one key of the complaint: its name, what it is called, and its words (value, text, whether chosen)."""

    name: str
    head: str
    kind: str
    choices: Sequence[tuple[str, str, bool]]


@dataclass(frozen=True, slots=True, kw_only=True)
class StepLine:
    """One step of the list: what was seen, and where it is opened or corrected."""

    id: str
    name: str
    value: str
    href: str
    now: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class FirstView:
    """The page: the open step, what it asks, its form, the step after it (empty after the last), and the list."""

    step: str
    head: str
    asks: str
    entry: Entry | None
    groups: Sequence[Group]
    whose: Sequence[tuple[str, str]]
    after: str
    lines: Sequence[StepLine]


def first_view(seen: VisitSeen, step: str, speaker: Speaker) -> FirstView:
    """Return the page of the first minute with a step open."""
    lines = [_line(seen, each, step, speaker) for each in STEPS]
    return FirstView(
        step=step,
        head=sentence(speaker.name("first-step", step)),
        asks=speaker.name("first-ask", step),
        entry=_entry(seen, step, speaker) if step in READS else None,
        groups=[_group(seen, key, several, speaker) for key, several in TAPS.get(step, {}).items()],
        whose=[(word, speaker.name("gauge-owner", word)) for word in WHOSE] if step == "gauge" else (),
        after=next_step(step),
        lines=lines,
    )


def first_open(seen: VisitSeen) -> str:
    """Return the step that stands open at first: the first look or reading that nobody has made yet."""
    looks = (step for step in STEPS if step not in TAPS)
    return next((step for step in looks if not _value(seen, step, None)), STEPS[0])


def next_step(step: str) -> str:
    """Return the step that comes after one; empty after the last.

    >>> next_step("photo"), next_step("display")
    ('fault', '')
    """
    return next(iter(STEPS[STEPS.index(step) + 1 :]), "")


def _line(seen: VisitSeen, step: str, now: str, speaker: Speaker) -> StepLine:
    read = _read(seen, step) if step in READS else None
    here = f"/visits/{seen.id}/first-minute?at={step}"
    return StepLine(
        id=step,
        name=sentence(speaker.name("first-step", step)),
        value=_value(seen, step, speaker) or speaker.tell("first-empty"),
        href=here if read is None else f"/visits/{seen.id}/readings/{read[1].id}",
        now=step == now,
    )


def _value(seen: VisitSeen, step: str, speaker: Speaker | None) -> str:
    """Return what is known of a step, empty where nothing is; without a speaker only whether something is."""
    if step in READS:
        read = _read(seen, step)
        return "" if read is None else value_text(read[0], speaker) if speaker else step
    if step == "photo":
        count = sum(photo.body.get("shows") == "display" for photo in seen.photos)
        return "" if not count else speaker.tell("first-photos", count=count) if speaker else step
    words = [f"{key}:{word}" for key in TAPS[step] for word in said(seen, key)]
    named = [speaker.name("complaint", word) for word in words] if speaker else words
    return sentence("; ".join(named))


def said(seen: VisitSeen, key: str) -> list[str]:
    """Return the words of the complaint at a key."""
    found = getattr(seen.visit.complaint, key)
    return [found] if isinstance(found, str) else list(found or ())


def _read(seen: VisitSeen, step: str) -> tuple[Reading, RowSeen] | None:
    """Return the first reading of a step's measure that counts, with its row."""
    rows = {row.number: row for row in seen.rows if row.number is not None}
    found = (each for each in seen.visit.readings if each.measure == READS[step] and each.number in rows)
    return next(((each, rows[each.number]) for each in found if each.arrangement == "connected"), None)


def _entry(seen: VisitSeen, step: str, speaker: Speaker) -> Entry:
    """Return the form for a step's reading; what it answers is the step."""
    made = entry_view(seen.visit, Question(READS[step]), speaker)
    return replace(made, check=step, asks=speaker.name("first-ask", step))


def _group(seen: VisitSeen, key: str, several: bool, speaker: Speaker) -> Group:  # noqa: FBT001 - a row of a table
    chosen = said(seen, key)
    words = [id_.partition(":")[2] for id_ in COMPLAINT if id_.startswith(f"{key}:")]
    return Group(
        name=key,
        head=speaker.name("call-key", key),
        kind="checkbox" if several else "radio",
        choices=[(word, sentence(speaker.name("complaint", f"{key}:{word}")), word in chosen) for word in words],
    )
