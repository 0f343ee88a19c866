"""Holds a conversation with the guide without a terminal: lines in, what was said and what was kept out."""

from __future__ import annotations

from dataclasses import dataclass

from steadyhead.diagnosis.answer import Answer
from steadyhead.diagnosis.diagnose import diagnose
from steadyhead.diagnosis.estimates import SHIPPED, Estimates
from steadyhead.diagnosis.memory import Memory
from steadyhead.messages import Message
from steadyhead.service.guide.state import Guide, Take, Turn
from steadyhead.service.guide.talk import begin, hear, think, wants_thought
from steadyhead.visit import parse_visit
from steadyhead.visit.record import Visit
from steadyhead.words import USUAL

PLATE = '# the plate\nschema = 1\n\n[sensor]\nsignal = "0.5..4.5 V ratiometric"  # three wires\nrange = "0..100 psi"\n'
_ANSWERS: dict[str, Answer] = {}


def remembered(visit: Visit, _: Estimates = SHIPPED, __: Memory | None = None) -> Answer:
    """Return the diagnosis of a visit, made once for all tests."""
    return _ANSWERS.setdefault(repr(visit), _ANSWERS.get(repr(visit)) or diagnose(visit))


@dataclass(frozen=True)
class Talk:
    """A conversation so far: every turn of it, and the text that stands on the disk."""

    turns: tuple[Turn, ...]
    disk: str | None

    @property
    def guide(self) -> Guide:
        """Where it stands."""
        return self.turns[-1].guide

    @property
    def visit(self) -> Visit:
        """What the file on the disk says."""
        return parse_visit(self.disk or "").visit

    @property
    def ids(self) -> list[str]:
        """Ids of all that was said."""
        return [said.id for turn in self.turns for said in turn.said if isinstance(said, Message)]

    @property
    def values(self) -> list[str]:
        """Values of the readings on the disk, as they were written."""
        return [getattr(r.value, "as_written", "") or getattr(r.value, "word", "") for r in self.visit.readings]

    @property
    def asked(self) -> str:
        """Measure of the check that is asked; empty where none is."""
        return self.guide.asks.check.question.measure if isinstance(self.guide.asks, Take) else ""

    def says(self, *lines: str | None) -> Talk:
        """Go on with these lines."""
        talk = self
        for line in lines:
            talk = talk._and(hear(talk.guide, line))
        return talk

    def _and(self, turn: Turn) -> Talk:
        disk = self.disk if turn.text is None else turn.text
        talk = Talk((*self.turns, turn), disk)
        return talk._and(think(turn.guide)) if wants_thought(turn.guide) else talk


def talk(text: str | None = PLATE) -> Talk:
    """Begin a conversation."""
    return Talk((), text)._and(begin(Guide(name="visit.toml", manner=USUAL), text))
