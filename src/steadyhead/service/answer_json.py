"""The answer of a diagnosis as the JSON that files and programs read (schema 1).

Rules
-----
1. Keys, their order and their meaning are a contract: what is here is only added to.
2. Probabilities are not rounded; each list of them sums to one within 1e-9.
3. A message has its id, its values in SI units, and its sentence.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from steadyhead import __version__
from steadyhead.diagnosis.answer import Answer, NextCheck, Outcome, Suspect
from steadyhead.diagnosis.observing import Question
from steadyhead.messages import Message, message

Say = Callable[[Message], str]
SCHEMA = 1


def answer_json(answer: Answer, say: Say) -> dict[str, Any]:
    """Return the answer as plain JSON values, each message said by `say`."""
    verdict = answer.verdict
    return {
        "schema": SCHEMA,
        "engine": __version__,
        "suspects": [_suspect(s, say) for s in answer.suspects],
        "remedies": [
            {"remedy": r.remedy, "probability": r.probability, "cost_minutes": r.cost_minutes} for r in answer.remedies
        ],
        "verdict": {
            "state": verdict.state,
            "settled": verdict.settled,
            "remedy": verdict.remedy,
            "because": message_json(verdict.because, say),
        },
        "next_checks": [_check(c, say) for c in answer.next_checks],
        "surprises": [{"reading": s.reading, "text": message_json(s.text, say)} for s in answer.surprises],
        "expected": {p: {"low": b.low * _MILLI[b.unit], "high": b.high * _MILLI[b.unit], "unit": _SHOWN[b.unit]}
                     for p, b in answer.expected.items()},
        "defaults": [say(m) for m in answer.defaults],
    }  # fmt: skip


_MILLI = {"V": 1.0, "A": 1e3}
_SHOWN = {"V": "V", "A": "mA"}


def message_json(said: Message, say: Say) -> dict[str, Any]:
    """Return a message with its id, its values and its sentence."""
    values = {k: list(v) if isinstance(v, tuple) else v for k, v in said.values.items()}
    return {"id": said.id, "values": values, "text": say(said)}


def _suspect(suspect: Suspect, say: Say) -> dict[str, Any]:
    size = None
    if suspect.severity is not None:
        size = say(message("severity", value=suspect.severity, unit=suspect.severity_unit))
    return {
        "fault": suspect.fault,
        "remedy": suspect.remedy,
        "probability": suspect.probability,
        "severity": size,
        "place": suspect.place,
    }


def _check(check: NextCheck, say: Say) -> dict[str, Any]:
    question = check.question
    return {
        "measure": question.measure,
        "red": question.red,
        "black": question.black,
        "arrangement": question.arrangement,
        "source": source_text(question),
        "item": question.item,
        "drive": check.drive,
        "minutes": check.minutes,
        "saves_minutes": check.saves_minutes,
        "outcomes": [_outcome(o) for o in check.outcomes],
        "cautions": [message_json(m, say) for m in check.cautions],
        "how": message_json(check.how, say),
        "while_there": [{"measure": q.measure, "red": q.red, "black": q.black} for q in check.while_there],
    }


def _outcome(outcome: Outcome) -> dict[str, Any]:
    if outcome.value is not None:
        return {"fault": outcome.fault, "value": outcome.value}
    return {"fault": outcome.fault, "low": outcome.low, "high": outcome.high, "unit": outcome.unit}


def source_is_current(source: float) -> bool:
    """Tell whether a source's figure is a current: no voltage signal lies between nothing and a tenth of a volt."""
    return 0.0 < source < 0.1


def source_text(question: Question) -> str | None:
    """Return what a signal source must put in, as a file spells it: ``12 mA``, ``2.5 V``."""
    if question.source is None:
        return None
    if source_is_current(question.source):
        return f"{question.source * 1000:.6g} mA"
    return f"{question.source:.6g} V"
