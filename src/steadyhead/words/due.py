"""Says how a visit stands, when something is due, and how far off that is."""

from __future__ import annotations

from steadyhead.words.remedy_names import KEPT_STATES
from steadyhead.words.saying import sentence
from steadyhead.words.speaker import Speaker


def stands(state: str, speaker: Speaker) -> str:
    """Return how a visit stands; a word of a newer version stands as it is.

    >>> stands("made-safe", Speaker()), stands("frozen", Speaker())
    ('Left off, made safe', 'frozen')
    """
    return sentence(speaker.name("kept-state", state)) if state in KEPT_STATES else speaker.printable(state)


def when(due: str, days: int, speaker: Speaker) -> str:
    """Return when something is due, and how far off that is.

    >>> when("2026-05-05", 1, Speaker()), when("2026-05-05", -3, Speaker())
    ('2026-05-05, tomorrow', '2026-05-05, overdue by 3 days')
    """
    if not due:
        return speaker.tell("follow-up-no-day")
    if days == -1:
        return speaker.tell("follow-up-yesterday", due=due)
    if days < 0:
        return speaker.tell("follow-up-overdue", due=due, days=-days)
    if days < 2:
        return speaker.tell("follow-up-tomorrow" if days else "follow-up-today", due=due)
    return speaker.tell("follow-up-in-days", due=due, days=days)
