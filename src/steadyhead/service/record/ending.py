"""Use case: how a visit ends, with the one or two facts that each ending needs, and what then comes back by itself.

Everything that affects what an ending must say lives in this file.

Rules
-----
1. Proved on site needs nothing; it counts as proved where all that must be right was read since the repair and is.
2. Night pending and watching name the day on which they come back.
3. Made safe names what is off and who was told; declined names who did, and what was offered.
4. Left temporary is said with its own facts (`steadyhead.service.record.temporary`).
5. Where two devices ended a visit differently, one of the endings is chosen, with what was said of it.
6. Whatever is not known may be left out elsewhere: a visit can always be ended.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from steadyhead.errors import RecordError, UnknownWordError
from steadyhead.messages import message
from steadyhead.service.record.follow_ups import checked, made
from steadyhead.service.record.given import Given
from steadyhead.service.record.tokens import Slot
from steadyhead.service.record.visits import end_visit
from steadyhead.service.record.whole import said, told
from steadyhead.visit.fact_kinds import NOTES, OFF, SHUT, STATES
from steadyhead.visit.facts import Fact
from steadyhead.visit.from_facts import ToldVisit
from steadyhead.visit.kinds import LONGEST_TEXT
from steadyhead.visit.nearest import nearest_first, shown
from steadyhead.visit.pen import Pen
from steadyhead.visit.pending import NIGHT, WATCH

_, PROVED, WATCHING, LEFT_TEMPORARY, MADE_SAFE, DECLINED, NIGHT_PENDING = STATES
#: The endings that this use case keeps, in the order in which a page offers them.
ENDINGS = (PROVED, NIGHT_PENDING, WATCHING, MADE_SAFE, DECLINED)
#: The endings after which something was at fault, and is mended.
MENDED = (PROVED, NIGHT_PENDING)
#: What must be said of each.
NEEDS: Mapping[str, tuple[str, ...]] = {MADE_SAFE: ("off", "told"), DECLINED: ("by", "offered")}
#: What comes back after each, and after how many days where nobody says when (common practice).
COMES_BACK: Mapping[str, tuple[str, int]] = {NIGHT_PENDING: (NIGHT, 1), WATCHING: (WATCH, 14)}
WORDS: Mapping[str, tuple[str, ...]] = {"off": OFF, "notes": NOTES}


@dataclass(frozen=True, slots=True, kw_only=True)
class Ending:
    """How a visit ends.

    Parameters
    ----------
    state
        One of `ENDINGS`.
    says
        Keys of `steadyhead.visit.fact_kinds.ENDING`.
    fault
        What was at fault in the end; empty where nobody knows, or it is not mended.
    proved
        Whether it reads right after the repair.
    due
        The day on which it comes back, where it does.
    night
        For a night's test: what is shut (`shut`), whom the customer rings (`ring`).
    """

    state: str
    says: Mapping[str, Any] = field(default_factory=dict)
    fault: str = ""
    proved: bool = False
    due: str = ""
    night: Mapping[str, str] = field(default_factory=dict)


def end_with(given: Given, visit: str, ending: Ending, *, token: str | None = None) -> None:
    """Keep how a visit ends, and what comes back by itself.

    Parameters
    ----------
    given
        Store, ids, clock.
    visit
        The visit.
    ending
        How it ends.
    token
        Id of the first fact that this makes; the same one again changes nothing.

    Raises
    ------
    NotFoundError
        There is no such visit.
    InputError
        ``word-unknown``, ``ending-incomplete``, ``follow-up-day``, ``follow-up-past`` or ``text-too-long``.
    """
    if ending.state not in ENDINGS:
        allowed, nearest = nearest_first(ending.state, ENDINGS)
        raise UnknownWordError(message("word-unknown", got=shown(ending.state), must_be=allowed, nearest=nearest))
    says = _says(ending)
    follow = _follow_up(given, ending)

    def also(now: ToldVisit, pen: Pen, after: str) -> list[Fact]:
        return made(now, follow, pen, Slot(given.ids.new(after))) if follow else []

    finding = {"fault": ending.fault, "proved": ending.proved} if ending.fault else {}
    end_visit(given, visit, ending.state, finding=finding, ending=says, also=also, token=token)


def _says(ending: Ending) -> dict[str, Any]:
    """Return what is said of an ending, refused where something is lacking or is no word of its list."""
    plain = {key: " ".join(told.split()) if isinstance(told, str) else told for key, told in ending.says.items()}
    says = said(plain)
    for key in NEEDS.get(ending.state, ()):
        if key not in says:
            raise RecordError(message("ending-incomplete", missing=key))
    for key, value in says.items():
        if isinstance(value, str) and len(value) > LONGEST_TEXT:
            raise RecordError(message("text-too-long", got=value[:40], length=len(value), most=LONGEST_TEXT))
        _check_words(value, WORDS.get(key, ()))
    return says


def _check_words(value: object, words: tuple[str, ...]) -> None:
    for each in value if words and isinstance(value, (list, tuple)) else ():
        if each not in words:
            raise UnknownWordError(message("word-unknown", got=shown(str(each)), must_be=words, nearest=()))


def _follow_up(given: Given, ending: Ending) -> dict[str, Any]:
    """Return what comes back, empty where nothing does."""
    if ending.state not in COMES_BACK:
        return {}
    kind, _ = COMES_BACK[ending.state]
    shut = ending.night.get("shut", "")
    _check_words([shut] if shut else [], SHUT)
    return checked(given, {"kind": kind, "due": ending.due, **ending.night})


def settle_ending(given: Given, visit: str, state: str, *, token: str | None = None) -> None:
    """Keep which of the endings that two devices have said holds, with what was said of it.

    Raises
    ------
    NotFoundError
        There is no such visit.
    UnknownWordError
        None of them has said it so.
    """
    with given.reading() as work:
        heads = told(work, visit).entities[visit].heads
    found = next((head for head in heads if head.body.get("state") == state), None)
    if found is None:
        states = tuple(dict.fromkeys(str(head.body.get("state")) for head in heads))
        raise UnknownWordError(message("word-unknown", got=shown(state), must_be=states, nearest=()))
    finding: Mapping[str, Any] | None = None if state in MENDED else {}
    end_visit(given, visit, state, finding=finding, ending=found.body.get("ending"), token=token)
