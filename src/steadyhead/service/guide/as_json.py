"""A step of the guide as one JSON object, for a program that drives it: what was said, what is asked, what was kept.

Rules
-----
1. One object a step, one line an object. ``asks.kind`` says what the next line answers; while it is ``thinking`` no
   line is read.
2. Keys are only ever added.
"""

from __future__ import annotations

from typing import Any

from steadyhead.messages import Message
from steadyhead.service.answer_json import answer_json, band_json, check_json, message_json
from steadyhead.service.diagnosis import speaker_of
from steadyhead.service.guide.entries import unit_asked
from steadyhead.service.guide.state import Again, Choose, Close, Doubt, Guide, Opening, Take, Turn
from steadyhead.service.why import why, why_json
from steadyhead.visit.measures import MEASURE
from steadyhead.words import Speaker


def turn_json(turn: Turn) -> dict[str, Any]:
    """Return a turn as JSON values: `said`, `asks`, `readings`, `saved`, `ended`, and the answer once it is settled."""
    guide = turn.guide
    speaker = speaker_of(guide.known.visit, guide.manner) if guide.file else guide.manner.speaker()
    shown = {each.what for each in turn.said if not isinstance(each, Message)}
    return {
        "schema": 1,
        "file": guide.name,
        "said": [message_json(each, speaker) for each in turn.said if isinstance(each, Message)],
        "asks": asks_json(guide, speaker),
        "readings": len(guide.known.visit.readings) if guide.file else 0,
        "saved": turn.text is not None,
        "ended": turn.ended,
        "reasons": _reasons(turn, speaker),
        "answer": _answer(guide, speaker) if shown & {"verdict", "known"} else None,
    }


def _reasons(turn: Turn, speaker: Speaker) -> dict[str, Any] | None:
    """Return the reasons of the suspect that was asked about, None where none was."""
    about = next((each.about for each in turn.said if not isinstance(each, Message) and each.about), "")
    if not about:
        return None
    found = why(turn.guide.known.visit, about, speaker, turn.guide.estimates, memory=turn.guide.memory)
    return why_json(found, current=_current(turn.guide))


def _answer(guide: Guide, speaker: Speaker) -> dict[str, Any] | None:
    if guide.answer is None:
        return None
    return answer_json(guide.answer, speaker, current=_current(guide))


def _current(guide: Guide) -> bool:
    return guide.known.visit.sensor.signal.kind == "current"


def asks_json(guide: Guide, speaker: Speaker) -> dict[str, Any]:
    """Return what the next line answers."""
    asks = guide.asks
    kind = type(asks).__name__.lower()
    if isinstance(asks, Opening):
        return {"kind": kind, "key": asks.key}
    if isinstance(asks, Take):
        return {"kind": kind, **_take(asks, guide, speaker)}
    if isinstance(asks, Doubt):
        return {"kind": kind, "typed": asks.typed, "meant": asks.meant or None}
    if isinstance(asks, Again):
        return {"kind": kind, "reading": asks.number}
    if isinstance(asks, Close):
        return {"kind": kind, "fault": asks.fault}
    return {"kind": kind, "remedies": list(asks.remedies)} if isinstance(asks, Choose) else {"kind": kind}


def _take(take: Take, guide: Guide, speaker: Speaker) -> dict[str, Any]:
    measure = take.check.question.measure
    band = take.proof.band if take.proof else None
    return {
        "check": check_json(take.check, speaker, current=_current(guide)),
        "unit": unit_asked(measure, guide.known.visit) or None,
        "words": list(MEASURE[measure].words),
        "after_repair": take.proof is not None,
        "must_read": None if band is None else band_json(band),
    }
