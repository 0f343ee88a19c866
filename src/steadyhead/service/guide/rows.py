"""The rows that an answer makes in the visit file: a reading, a check that can't be done here, a repair.

Rules
-----
1. A row has the keys of the check that was asked; a key that has its default is left out.
2. "Can't" on a hook-up that does not stand yet declines every reading of that hook-up; at the plug, every reading
   there; else this one alone.
"""

from __future__ import annotations

import tomllib

from steadyhead.diagnosis.answer import NextCheck
from steadyhead.diagnosis.checks import candidates, leads_at_sensor, standing
from steadyhead.diagnosis.observing import Question
from steadyhead.diagnosis.system import System
from steadyhead.loop.vocabulary import ARRANGEMENTS
from steadyhead.service.answer_json import source_text
from steadyhead.visit import VisitFile
from steadyhead.visit.file import Value
from steadyhead.visit.record import Visit

Row = dict[str, Value]


def reading_row(check: NextCheck, text: str, visit: Visit) -> Row:
    """Return the row of a reading."""
    row = _keys(check.question, visit)
    if check.question.item is None and check.drive != ARRANGEMENTS[check.question.arrangement].drive:
        row["drive"] = check.drive
    return {**row, "value": text}


def row_again(file: VisitFile, number: int, text: str) -> Row:
    """Return the row of a reading that is in the file, with another value; its other keys stay."""
    row = tomllib.loads(file.text.removeprefix("\ufeff"))["reading"][number - 1]
    return {**row, "value": text}


def declined_rows(question: Question, visit: Visit, why: str) -> list[Row]:
    """Return the rows that say which checks can't be done here."""
    reason: Row = {"why": why} if why else {}
    return [{**_keys(each, visit), **reason} for each in _together(question, visit)]


def _together(question: Question, visit: Visit) -> list[Question]:
    """Return the questions that fall with one: those of a hook-up that can't be brought about, or those at the plug."""
    if question.item is not None or (question.measure.startswith("displayed") and question.arrangement == "connected"):
        return [question]
    others = [q for q in candidates(System(visit), frozenset()) if q.arrangement == question.arrangement]
    if leads_at_sensor(question):
        return [q for q in others if leads_at_sensor(q)] or [question]
    if question.arrangement in {"connected", standing(visit).arrangement}:
        return [question]
    measures = {q.measure for q in others} | {question.measure}
    return [Question(measure, question.arrangement) for measure in sorted(measures)]


def _keys(question: Question, visit: Visit) -> Row:
    """Return the keys of a question that a file needs."""
    current = visit.sensor.signal.kind == "current"
    keys = {
        "measure": question.measure,
        "item": question.item,
        "arrangement": None if question.arrangement == "connected" else question.arrangement,
        "source": source_text(question, current=current),
        "red": question.red,
        "black": question.black,
        "whose": question.whose,
    }
    return {name: value for name, value in keys.items() if value is not None}
