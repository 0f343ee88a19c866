"""How a visit ended, as its own page and lists say it: in a line, with what was said of it, and what comes back.

Rules
-----
1. Where two devices ended a visit differently, both endings are said, and one of them is chosen by a tap.
2. What comes back is said with its day and how far off that is; what is overdue is marked in words, not by a colour.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from steadyhead.service.record.follow_ups import Waits
from steadyhead.service.record.views import VisitSeen
from steadyhead.visit.fact_kinds import OPEN
from steadyhead.visit.pending import NIGHT
from steadyhead.words import Speaker
from steadyhead.words.due import stands, when
from steadyhead.words.saying import sentence

#: The keys of an ending that are texts, in the order in which they are said.
SAID = ("by", "offered", "told", "note")
LISTS = {"off": "ending-off", "notes": "ending-note"}


@dataclass(frozen=True, slots=True, kw_only=True)
class WaitView:
    """One thing that comes back: what it is, for what, when, whether that has passed, and where it leads."""

    says: str
    what: str
    when: str
    overdue: bool
    address: str
    name: str = ""
    demo: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class EndedView:
    """How a visit ended; `choices` (state, words) where two devices say different things."""

    head: str
    lines: Sequence[str]
    waits: Sequence[WaitView]
    choices: Sequence[tuple[str, str]]


def wait_view(each: Waits, speaker: Speaker) -> WaitView:
    """Return one thing that comes back, as a list shows it."""
    told = each.pending
    return WaitView(
        says=sentence(speaker.name("follow-up", told.kind)),
        what=told.what,
        when=when(told.due, each.days, speaker),
        overdue=each.overdue,
        address=address_of(told.kind, told.visit, told.about),
        name=each.name or speaker.tell("web-nameless"),
        demo=each.demo,
    )


def address_of(kind: str, visit: str, about: str) -> str:
    """Return where the next step of something that comes back is made."""
    return f"/visits/{visit}/night" if kind == NIGHT else f"/visits/{visit}/follow-ups/{about}"


def ended_view(seen: VisitSeen, waits: Sequence[Waits], speaker: Speaker) -> EndedView | None:
    """Return how a visit ended; None while it is open and waits for nothing."""
    states = next((c.values for c in seen.clashes if c.about == seen.id and c.key == "state"), ())
    choices = [(str(state), stands(str(state), speaker)) for state in states if state is not None]
    if seen.state == OPEN and not choices and not waits:
        return None
    if choices:
        head = speaker.tell("ending-two")
    elif seen.state == OPEN:
        head = speaker.tell("ending-still-open")
    else:
        head = stands(seen.state, speaker)
    return EndedView(
        head=head,
        lines=list(ending_lines(seen.ending, speaker)),
        waits=[wait_view(each, speaker) for each in waits],
        choices=choices,
    )


def ending_lines(ending: Mapping[str, Any], speaker: Speaker) -> Iterator[str]:
    """Yield what was said of an ending, line by line."""
    for key, kind in LISTS.items():
        words = [speaker.name(kind, str(each)) for each in ending.get(key) or ()]
        if words:
            yield _line(key, ", ".join(words), speaker)
    for key in SAID:
        if ending.get(key):
            yield _line(key, speaker.printable(str(ending[key])), speaker)
    if ending.get("locked"):
        yield speaker.tell("ending-locked")
    if ending.get("risk_told"):
        yield speaker.tell("ending-risk-told")


def _line(key: str, text: str, speaker: Speaker) -> str:
    return speaker.tell("ending-line", key=sentence(speaker.name("ending-key", key)), text=text)
