"""The answer of a diagnosis as values: suspects, remedies, verdict, next checks, surprises, what is expected.

The JSON that files and programs read is made from it by `steadyhead.service`; sentences by `steadyhead.words`.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from steadyhead.diagnosis.observing import Question
from steadyhead.messages import Message


@dataclass(frozen=True, slots=True, kw_only=True)
class Suspect:
    """One fault, or a pair ``a+b``, with its probability; `severity` [`severity_unit`] and `place` where it has them.

    `cause` tells of a pair which fault caused the other, or what left both.
    """

    fault: str
    remedy: str
    probability: float
    severity: float | None = None
    severity_unit: str | None = None
    place: str | None = None
    cause: Message | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Remedy:
    """What would mend it, with its probability and the minutes of the repair, its part's price counted as minutes."""

    remedy: str
    probability: float
    cost_minutes: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Verdict:
    """Where the diagnosis stands."""

    state: Literal["proved", "best-guess", "open"]
    settled: bool
    remedy: str
    because: Message


@dataclass(frozen=True, slots=True, kw_only=True)
class Outcome:
    """What a check would show if one suspect were right: a band in `unit`, or a word; no `high` is past the scale."""

    fault: str
    low: float | None = None
    high: float | None = None
    unit: str | None = None
    value: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class NextCheck:
    """A check that is worth its minutes."""

    question: Question
    drive: str
    minutes: float
    saves_minutes: float
    outcomes: tuple[Outcome, ...]
    cautions: tuple[Message, ...]
    how: Message
    while_there: tuple[Question, ...]
    #: What it tells apart, and what that saves; None where no outcomes were made for it.
    why: Message | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Surprise:
    """A reading that nothing explains, or that its instrument cannot show."""

    reading: int
    text: Message


@dataclass(frozen=True, slots=True, kw_only=True)
class Band:
    """What a healthy system shows at one point."""

    low: float
    high: float
    unit: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Answer:
    """Everything that a diagnosis says; suspects and remedies most probable first, each list summing to one.

    `complaint` tells what the complaint did to the odds before the first reading; `besides` what to prove before
    leaving once the likeliest repair is done; `former` what an earlier visit left open, and how far it counts.
    """

    suspects: tuple[Suspect, ...]
    remedies: tuple[Remedy, ...]
    verdict: Verdict
    next_checks: tuple[NextCheck, ...]
    surprises: tuple[Surprise, ...]
    expected: dict[str, Band]
    defaults: tuple[Message, ...]
    complaint: tuple[Message, ...] = ()
    besides: tuple[Message, ...] = ()
    former: tuple[Message, ...] = ()
