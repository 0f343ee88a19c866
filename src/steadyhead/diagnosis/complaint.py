"""What was said when the technician was called, as evidence: it moves the odds before a screw is turned.

Rules
-----
1. A word of the complaint makes some families, or single faults, so many times likelier than the rest: the rows of
   `steadyhead.diagnosis.complaint_effects`, or a company's own in their place.
2. What several words do to one fault is multiplied, and the product is held between 1/`MOST` and `MOST`: no complaint
   proves or excludes anything, and readings outweigh it.
3. ``shown`` is what the display showed when the customer called, or what its history holds; it is no reading of now.
4. The customer's own text is kept and shown, and weighs nothing.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from steadyhead.diagnosis.complaint_effects import EFFECTS, MOST, Effect
from steadyhead.diagnosis.estimates import SHIPPED, Estimates
from steadyhead.diagnosis.pairs import Cause, cause_of
from steadyhead.loop.faults import FAULTS
from steadyhead.messages import Message, message
from steadyhead.visit.record import Complaint

_FAMILY: dict[str, str] = {fault.id: fault.family for fault in FAULTS}


def factor(complaint: Complaint, fault: str, estimates: Estimates = SHIPPED) -> float:
    """Return how many times a complaint multiplies a fault's odds, from 1/`MOST` to `MOST`; 1 without a complaint.

    A pair, ``a+b``, is moved once by each word about what was seen that moves either: one of them is enough to show it.
    A word about how it came moves a pair with one cause as that cause: as its first fault where that leads, and where
    both came from outside by the root of what it does to each, so that a power cut, which kills no sensor, makes little
    of two parts that a surge has killed.

    >>> factor(Complaint(changed=("recent-work",)), "reversed"), factor(Complaint(), "reversed")
    (8.0, 1.0)
    >>> both = "controller-input-dead+sensor-open"
    >>> [round(factor(Complaint(changed=(word,)), both), 2) for word in ("storm", "power-cut")]
    [5.0, 1.73]
    """
    parts = fault.split("+")
    cause = cause_of(*parts) if len(parts) > 1 else None
    times = 1.0
    for effect in _at_work(complaint):
        moved = [part for part in parts if {part, _FAMILY.get(part, part)} & set(effect.on)]
        times *= estimates.complaint[effect.row] ** _part(effect, moved, cause)
    return min(max(times, 1.0 / MOST), MOST)


def _part(effect: Effect, moved: Sequence[str], cause: Cause | None) -> float:
    """Return to what power a word moves a suspect of which it moves these faults."""
    if not moved or cause is None or effect.key == "shown":
        return float(bool(moved))
    if cause.leads:
        return float(any(fault in cause.first for fault in moved))
    return 0.5 * len(moved)


def told(complaint: Complaint, estimates: Estimates = SHIPPED) -> tuple[Message, ...]:
    """Return what the complaint did to the odds, one message for each word and figure, in the order of the tables."""
    moved = [(effect, estimates.complaint[effect.row]) for effect in _at_work(complaint)]
    return tuple(_said(effect, times) for effect, times in moved if times != 1.0)


def _said(effect: Effect, times: float) -> Message:
    word = f"{effect.key}:{effect.word}"
    what = (effect.called,) if effect.called else effect.on
    if times > 1.0:
        return message("complaint-likelier", word=word, what=what, times=times)
    return message("complaint-less-likely", word=word, what=what, times=1.0 / times)


def _at_work(complaint: Complaint) -> Iterator[Effect]:
    said = {("shown", word) for word in complaint.shown} | {("changed", word) for word in complaint.changed}
    said |= {("since", complaint.since or ""), ("when", complaint.when or "")}
    return (effect for effect in EFFECTS if (effect.key, effect.word) in said)
