"""The answer of a diagnosis as the JSON that files and programs read (schema 1, see `answer_1.json`).

Rules
-----
1. Keys, their order and their meaning are a contract: what is here is only added to.
2. Probabilities are not rounded; each list of them sums to one within 1e-9.
3. A message has its id, its values in SI units, and its sentence.
4. ``complaint`` stands there only where a complaint moved the odds, ``former`` only where an earlier visit left
   something open, ``besides`` only where a second fault may hide behind the first, a suspect's ``cause`` only where two
   faults have one.
5. A size is told only where its scale measures something; where it only chooses between variants there is none.
"""

from __future__ import annotations

from typing import Any

from steadyhead import __version__
from steadyhead.diagnosis.answer import Answer, Band, NextCheck, Outcome, Suspect
from steadyhead.diagnosis.observing import Question
from steadyhead.messages import Message, message
from steadyhead.quantities import spell
from steadyhead.words import Speaker

SCHEMA = 1

#: Faults whose severity chooses a variant, or is a part of something that nobody sees.
NO_SIZE = frozenset(
    (
        "controller-input-dead", "controller-supply-weak", "meter-wrong", "other-load", "port-blocked",
        "sensor-cock-shut", "sensor-high", "sensor-low", "sensor-wrong-part", "setting-range", "setting-signal-kind",
        "setting-simulated",
    )
)  # fmt: skip
_FACTORS = {"V": (1.0, "V"), "A": (1e3, "mA"), "ohm": (1.0, "ohm"), "Pa": (1.0, "Pa")}


def answer_json(answer: Answer, speaker: Speaker, *, current: bool) -> dict[str, Any]:
    """Return the answer as plain JSON values.

    Parameters
    ----------
    answer
        What the diagnosis says.
    speaker
        Who says its messages.
    current
        Whether the signal is a current, so that a source is told in milliamperes.
    """
    verdict = answer.verdict
    found: dict[str, Any] = {
        "schema": SCHEMA,
        "engine": __version__,
        "suspects": [_suspect(suspect, speaker) for suspect in answer.suspects],
        "remedies": [
            {"remedy": r.remedy, "probability": r.probability, "cost_minutes": r.cost_minutes} for r in answer.remedies
        ],
        "verdict": {
            "state": verdict.state,
            "settled": verdict.settled,
            "remedy": verdict.remedy,
            "because": message_json(verdict.because, speaker),
        },
        "next_checks": [check_json(check, speaker, current=current) for check in answer.next_checks],
        "surprises": [{"reading": s.reading, "text": message_json(s.text, speaker)} for s in answer.surprises],
        "expected": {point: band_json(band) for point, band in answer.expected.items()},
        "defaults": [speaker.say(told) for told in answer.defaults],
    }
    if answer.complaint:
        found["complaint"] = [message_json(told, speaker) for told in answer.complaint]
    if answer.former:
        found["former"] = [message_json(told, speaker) for told in answer.former]
    if answer.besides:
        found["besides"] = [message_json(told, speaker) for told in answer.besides]
    return found


def band_json(band: Band) -> dict[str, Any]:
    """Return a band in the unit that an instrument shows."""
    factor, unit = _FACTORS[band.unit]
    return {"low": band.low * factor, "high": band.high * factor, "unit": unit}


def message_json(said: Message, speaker: Speaker) -> dict[str, Any]:
    """Return a message with its id, its values and its sentence."""
    values = {name: list(value) if isinstance(value, tuple) else value for name, value in said.values.items()}
    return {"id": said.id, "values": values, "text": speaker.say(said)}


def size_text(suspect: Suspect, speaker: Speaker) -> str | None:
    """Return how large a suspect's fault is, None where it has no size that means something."""
    if suspect.severity is None or suspect.fault in NO_SIZE:
        return None
    return speaker.say(message("severity", value=suspect.severity, unit=suspect.severity_unit))


def _suspect(suspect: Suspect, speaker: Speaker) -> dict[str, Any]:
    found: dict[str, Any] = {
        "fault": suspect.fault,
        "remedy": suspect.remedy,
        "probability": suspect.probability,
        "severity": size_text(suspect, speaker),
        "place": suspect.place,
    }
    if suspect.cause is not None:
        found["cause"] = message_json(suspect.cause, speaker)
    return found


def question_json(question: Question, *, current: bool) -> dict[str, Any]:
    """Return the keys of a check; `current` tells whether a source is told in milliamperes."""
    return {
        "measure": question.measure,
        "red": question.red,
        "black": question.black,
        "arrangement": question.arrangement,
        "source": source_text(question, current=current),
        "item": question.item,
        **({"whose": question.whose} if question.whose else {}),
    }


def check_json(check: NextCheck, speaker: Speaker, *, current: bool) -> dict[str, Any]:
    """Return a check as plain JSON values; `current` tells whether a source is told in milliamperes."""
    return {
        **question_json(check.question, current=current),
        "drive": check.drive,
        "minutes": check.minutes,
        "saves_minutes": check.saves_minutes,
        "outcomes": [outcome_json(outcome) for outcome in check.outcomes],
        "cautions": [message_json(told, speaker) for told in check.cautions],
        "how": message_json(check.how, speaker),
        "while_there": [{"measure": q.measure, "red": q.red, "black": q.black} for q in check.while_there],
        **({"why": message_json(check.why, speaker)} if check.why else {}),
    }


def outcome_json(outcome: Outcome) -> dict[str, Any]:
    """Return what a check would show under one suspect: a band in its unit, or a word."""
    if outcome.value is not None:
        return {"fault": outcome.fault, "value": outcome.value}
    return {"fault": outcome.fault, "low": outcome.low, "high": outcome.high, "unit": outcome.unit}


def source_text(question: Question, *, current: bool) -> str | None:
    """Return what a signal source must put in, as a file spells it: ``12 mA``, ``2.5 V``."""
    if question.source is None:
        return None
    return spell(question.source, "mA" if current else "V", digits=6)
