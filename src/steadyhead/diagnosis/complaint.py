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

from collections.abc import Iterator

from steadyhead.diagnosis.complaint_effects import EFFECTS, MOST, Effect
from steadyhead.diagnosis.estimates import SHIPPED, Estimates
from steadyhead.loop.faults import FAULTS
from steadyhead.messages import Message, message
from steadyhead.visit.record import Complaint

_FAMILY: dict[str, str] = {fault.id: fault.family for fault in FAULTS}


def factor(complaint: Complaint, fault: str, estimates: Estimates = SHIPPED) -> float:
    """Return how many times a complaint multiplies a fault's odds, from 1/`MOST` to `MOST`; 1 without a complaint.

    A pair, ``a+b``, is moved once by each word that moves either.

    >>> factor(Complaint(changed=("recent-work",)), "reversed"), factor(Complaint(), "reversed")
    (8.0, 1.0)
    """
    parts = fault.split("+")
    ids = {*parts, *(_FAMILY[part] for part in parts if part in _FAMILY)}
    times = 1.0
    for effect in _at_work(complaint):
        if not ids.isdisjoint(effect.on):
            times *= estimates.complaint[effect.row]
    return min(max(times, 1.0 / MOST), MOST)


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
