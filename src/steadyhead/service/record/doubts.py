"""A figure that is likely a slip is asked about before it is kept: the decimal sign, milli, the leads swapped."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from steadyhead.diagnosis.answer import NextCheck
from steadyhead.diagnosis.cautions import cautions, drive_state, how
from steadyhead.diagnosis.checks import minutes, standing
from steadyhead.diagnosis.observing import Question
from steadyhead.diagnosis.system import System
from steadyhead.messages import Message, message
from steadyhead.service.guide.entries import value_of
from steadyhead.service.guide.slips import beyond_all, meant_instead
from steadyhead.service.guide.state import Take
from steadyhead.visit.measures import MEASURE
from steadyhead.visit.record import Visit


@dataclass(frozen=True, slots=True)
class Doubtful:
    """Asks before a reading is kept: what was `typed`, what may have been `meant` (None where nothing is near)."""

    typed: str
    meant: str | None

    @property
    def asks(self) -> Message:
        """The question."""
        if self.meant is None:
            return message("guide-far-off", typed=self.typed)
        return message("guide-did-you-mean", typed=self.typed, meant=self.meant)


def doubt(visit: Visit, body: Mapping[str, Any], check: NextCheck | None = None) -> Doubtful | None:
    """Return the question to ask before a reading is kept, None where nothing speaks for a slip.

    Parameters
    ----------
    visit
        The visit as it stands.
    body
        The reading, its value already in the file's spelling.
    check
        The check that it answers, with its outcomes; without one only what no loop can bring is asked about.
    """
    measure = str(body.get("measure", ""))
    text = body.get("value")
    if not isinstance(text, str) or measure not in MEASURE or MEASURE[measure].words:
        return None
    value = value_of(text, measure, visit)
    system = System(visit)
    take = Take(check or _plain(system, _question(measure, body)))
    meant = meant_instead(take, value, system)
    return Doubtful(text, meant) if meant is not None or beyond_all(take, value, system) else None


def _question(measure: str, body: Mapping[str, Any]) -> Question:
    red, black = body.get("red"), body.get("black")
    return Question(measure, str(body.get("arrangement", "connected")), red, black)


def _plain(system: System, question: Question) -> NextCheck:
    return NextCheck(
        question=question, drive=drive_state(question), saves_minutes=0.0, outcomes=(), while_there=(),
        minutes=minutes(system, question, standing(system.visit)),
        cautions=cautions(system, question), how=how(system, question),
    )  # fmt: skip
