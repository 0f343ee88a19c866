"""Use case: how each reading moved one suspect, what speaks for and against it, and what would decide."""

from __future__ import annotations

from typing import Any

from steadyhead import __version__
from steadyhead.diagnosis.answer import Outcome
from steadyhead.diagnosis.estimates import SHIPPED, Estimates
from steadyhead.diagnosis.memory import Asked, Memory
from steadyhead.diagnosis.reasons import PARTS, Deciding, Reason, Reasons, reasons, suspects_of
from steadyhead.diagnosis.system import System
from steadyhead.errors import UnknownWordError
from steadyhead.messages import message
from steadyhead.service.answer_json import outcome_json, question_json
from steadyhead.visit.nearest import nearest_first, shown
from steadyhead.visit.record import Visit
from steadyhead.words import Speaker

#: The suspects of a visit's system, as ids.
SUSPECTS: Asked[tuple[str, ...]] = Asked("suspects", tuple)
#: Words that are told beside one that is not known.
MOST_WORDS = 8


def why(
    visit: Visit, typed: str, speaker: Speaker, estimates: Estimates = SHIPPED, *, memory: Memory | None = None
) -> Reasons:
    """Return how each reading moved a suspect.

    Parameters
    ----------
    visit
        The visit.
    typed
        The suspect: its id, its name, or a pair ``a+b`` in any order.
    speaker
        Who knows what each suspect is called.
    estimates
        How often faults are met.
    memory
        What was worked out of this visit before.

    Raises
    ------
    UnknownWordError
        ``suspect-unknown``: this system has no such suspect.
    """
    known = Memory() if memory is None else memory
    suspects = known.answer(visit, estimates, SUSPECTS, lambda: suspects_of(System(visit, estimates, known)))
    return why_suspected(visit, suspect_named(typed, suspects, speaker), estimates, known)


def why_suspected(visit: Visit, fault: str, estimates: Estimates, memory: Memory) -> Reasons:
    """Return how each reading moved one of a visit's suspects."""
    asked = Asked(f"why:{fault}", Reasons, PARTS)
    return memory.answer(visit, estimates, asked, lambda: reasons(System(visit, estimates, memory), fault))


def suspect_named(typed: str, known: tuple[str, ...], speaker: Speaker) -> str:
    """Return the suspect that a person has typed.

    Raises
    ------
    UnknownWordError
        ``suspect-unknown``, with the nearest.

    Examples
    --------
    >>> suspect_named("Transducer stuck low", ("sensor-low", "none"), Speaker())
    'sensor-low'
    """
    plain = " ".join(typed.lower().split())
    word = "+".join(sorted(part.strip().replace(" ", "-") for part in plain.split("+")))
    if word in known:
        return word
    called = {speaker.name("fault", fault).lower(): fault for fault in known}
    if plain in called:
        return called[plain]
    words, nearest = nearest_first(word, known)
    raise UnknownWordError(
        message("suspect-unknown", got=shown(typed), must_be=words[:MOST_WORDS], nearest=nearest)
    )


def why_json(found: Reasons, *, current: bool) -> dict[str, Any]:
    """Return the reasons as plain JSON values; `current` tells whether a source is told in milliamperes."""
    strongest = (found.strongest_for, found.strongest_against)
    return {
        "schema": 1,
        "engine": __version__,
        "fault": found.fault,
        "remedy": found.remedy,
        "before": found.before,
        "probability": found.probability,
        "readings": [_reason(reason) for reason in found.readings],
        "unused": list(found.unused),
        "most_for": strongest[0].reading if strongest[0] else None,
        "most_against": strongest[1].reading if strongest[1] else None,
        "rivals": [{"fault": r.fault, "remedy": r.remedy, "probability": r.probability} for r in found.rivals],
        "would_decide": [_deciding(each, current=current) for each in found.deciding],
    }


def _reason(reason: Reason) -> dict[str, Any]:
    return {
        "reading": reason.reading,
        "probability": reason.probability,
        "factor": reason.factor,
        "foretold": _outcome(reason.foretold),
        "rival": _outcome(reason.rival),
    }


def _outcome(outcome: Outcome | None) -> dict[str, Any] | None:
    return None if outcome is None else outcome_json(outcome)


def _deciding(each: Deciding, *, current: bool) -> dict[str, Any]:
    return {
        **question_json(each.question, current=current),
        "minutes": each.minutes,
        "if_so": outcome_json(each.if_so),
        "if_not": outcome_json(each.if_not),
    }
