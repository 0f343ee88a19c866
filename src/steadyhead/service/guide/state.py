"""Where a guided visit stands: the file, what is asked, and what has been said; frozen, so that any home can keep it.

Rules
-----
1. The file's text is the record; whatever else stands here may be lost without losing an answer.
2. A `Turn` is all that comes of one step: the new state, what to say, and the text to save.
3. What is said is a `Message`, or a block that a screen draws from the state (`Show`).
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

from steadyhead.diagnosis.answer import Answer, NextCheck
from steadyhead.diagnosis.estimates import SHIPPED, Estimates
from steadyhead.diagnosis.memory import Memory
from steadyhead.diagnosis.observing import Question
from steadyhead.messages import Message
from steadyhead.service.after_repair import Proof
from steadyhead.visit import VisitFile
from steadyhead.words import Manner


@dataclass(frozen=True, slots=True)
class Opening:
    """Asks one of the few things that a new file begins with."""

    key: Literal["signal", "range", "complaint", "history"]


@dataclass(frozen=True, slots=True)
class Take:
    """Asks for the reading of a check; `proof` is what it must show once a repair has been made."""

    check: NextCheck
    proof: Proof | None = None


@dataclass(frozen=True, slots=True)
class Doubt:
    """Asks whether `meant` was meant where `typed` fits nothing; without `meant`, whether it can be right at all."""

    take: Take
    typed: str
    meant: str


@dataclass(frozen=True, slots=True)
class Again:
    """Asks for another value of a reading."""

    number: int


@dataclass(frozen=True, slots=True)
class Choose:
    """Asks which of these repairs was made."""

    remedies: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Settled:
    """Asks for nothing: no check is worth its minutes."""


@dataclass(frozen=True, slots=True)
class Close:
    """Asks whether the visit may be closed as this fault, proved."""

    fault: str


@dataclass(frozen=True, slots=True)
class Thinking:
    """Asks nothing yet: the next question is still to be made (`steadyhead.service.guide.thinking`)."""


Ask = Opening | Take | Doubt | Again | Choose | Settled | Close | Thinking


@dataclass(frozen=True, slots=True, kw_only=True)
class Guide:
    """A guided visit.

    Parameters
    ----------
    name
        What the file is called.
    manner
        How the person is spoken to.
    file
        The visit file as it stands; None until signal and range are known.
    signal
        The signal, while there is no file.
    asks
        What the next line answers.
    answer
        The diagnosis of the file as it stands; None where it must be thought of anew.
    before
        The last diagnosis before that, to tell what a reading has ruled out.
    estimates
        How often faults are met, what checks and repairs take.
    left
        Checks that were passed over.
    trusted
        Checks whose odd figure the technician has confirmed: never argued with again.
    told
        Ids of the cautions that were shown in full.
    earlier
        The file's texts before each answer of this sitting, the last one last.
    memory
        What was worked out of this loop, for the next answer.
    """

    name: str
    manner: Manner
    file: VisitFile | None = None
    signal: str = ""
    asks: Ask = Opening("signal")
    answer: Answer | None = None
    before: Answer | None = None
    estimates: Estimates = SHIPPED
    left: frozenset[Question] = frozenset()
    trusted: frozenset[Question] = frozenset()
    told: frozenset[str] = frozenset()
    earlier: tuple[str, ...] = ()
    memory: Memory = field(default_factory=Memory, compare=False, repr=False)

    @property
    def known(self) -> VisitFile:
        """The file.

        Raises
        ------
        LookupError
            There is none yet: a mistake of the program.
        """
        if self.file is None:
            raise LookupError(self.name)
        return self.file


@dataclass(frozen=True, slots=True)
class Show:
    """A block that is drawn from the state: the check that is asked, what is known, the verdict, the readings, ..."""

    what: Literal["check", "known", "verdict", "readings", "reasons", "help"]
    #: Cautions that were told in full before, and are only named now.
    told: frozenset[str] = frozenset()
    #: The suspect whose reasons are asked for.
    about: str = ""


Said = Message | Show


@dataclass(frozen=True, slots=True, kw_only=True)
class Turn:
    """What comes of one step; `text` is what the file must hold now, None where it stays as it is."""

    guide: Guide
    said: tuple[Said, ...] = ()
    text: str | None = None
    ended: bool = False
