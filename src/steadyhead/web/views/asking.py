"""What a visit asks next: the guide's own choice, or the check that the technician has picked.

Rules
-----
1. The guide's rules hold (`steadyhead.service.guide.thinking`): gauge and display first, proofs after a repair.
2. While the plate is not known, only what does not hang on it is asked: looks, the display, the gauge.
3. The answer of a state of a visit is worked out once (`steadyhead.web.thoughts`).
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from steadyhead.diagnosis.answer import Answer, Band
from steadyhead.diagnosis.estimates import SHIPPED, Estimates
from steadyhead.diagnosis.memory import Memory
from steadyhead.diagnosis.observing import Question, question_of
from steadyhead.messages import Message
from steadyhead.service.guide.state import Close, Guide, Take
from steadyhead.service.guide.thinking import open_checks, plain_check, think
from steadyhead.service.healthy import healthy_bands
from steadyhead.visit import VisitFile
from steadyhead.visit.record import Visit
from steadyhead.words import Manner

#: What can be read before anybody has found the plate, in this order.
WITHOUT_PLATE = (
    Question("displayed-fault"),
    Question("inspection", item="connections"),
    Question("inspection", item="cock"),
    Question("gauge-pressure"),
    Question("displayed-pressure"),
    Question("inspection", item="moisture"),
    Question("inspection", item="cable-damage"),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Thought:
    """What was worked out for one state of a visit."""

    answer: Answer | None
    guide: Guide
    take: Take | None
    close: str
    said: Sequence[Message]
    bands: Mapping[int, Band] = field(default_factory=dict)


def thought(memory: Memory, visit: Visit, manner: Manner, *, assumed: bool, estimates: Estimates = SHIPPED) -> Thought:
    """Return what is asked next in a visit, with the diagnosis that led to it; `memory` knows its loop."""
    guide = Guide(name="", manner=manner, file=VisitFile(visit, "", ""), estimates=estimates, memory=memory)
    if assumed:
        return _without_plate(guide)
    turn = think(guide)
    asks = turn.guide.asks
    return Thought(
        answer=turn.guide.answer,
        guide=turn.guide,
        take=asks if isinstance(asks, Take) else None,
        close=asks.fault if isinstance(asks, Close) else "",
        said=[said for said in turn.said if isinstance(said, Message)],
        bands=healthy_bands(visit),
    )


def _without_plate(guide: Guide) -> Thought:
    visit = guide.known.visit
    done = {question_of(reading) for reading in visit.readings}
    declined = {(d.measure, d.item) for d in visit.declined}
    left = [q for q in WITHOUT_PLATE if q not in done and (q.measure, q.item) not in declined]
    take = Take(plain_check(guide, left[0])) if left else None
    return Thought(answer=None, guide=guide, take=take, close="", said=())


def take_of(found: Thought, question: Question) -> Take:
    """Return a check that somebody picked, with its proof or its outcomes where it has them."""
    if found.take is not None and found.take.check.question == question:
        return found.take
    planned = next((check for check in open_checks(found.guide) if check.question == question), None)
    return Take(planned or plain_check(found.guide, question))
