"""How a reading moved a suspect, in words: what was foretold, which way and how far it moved, what would decide.

Rules
-----
1. A factor is told as "about 6 times", rounded, and no finer than it is known.
2. Beside what was read stands what this suspect foretold, and what its strongest rival of that moment did.
"""

from __future__ import annotations

from steadyhead.diagnosis.answer import Outcome
from steadyhead.diagnosis.observing import question_of
from steadyhead.diagnosis.reasons import LITTLE, OUT, Deciding, Reason
from steadyhead.service.check_words import outcome_said
from steadyhead.service.figures import same
from steadyhead.visit.record import Reading
from steadyhead.words import Speaker

#: A factor beyond this, or below one over it, all but settles it.
SETTLES = 100.0
#: Rivals that are less likely than this are not listed.
LISTED = 0.01


def foretold(reason: Reason, before: float, reading: Reading, speaker: Speaker) -> str:
    """Return what was foretold, by the suspect and by its strongest rival; nothing where the suspect was out before."""
    if reason.foretold is None or before <= OUT:
        return ""
    question = question_of(reading)
    band = outcome_said(reason.foretold, question, speaker)
    if reason.rival is None:
        return speaker.tell("why-foretold-alone", band=band)
    other = outcome_said(reason.rival, question, speaker)
    if _alike(reason.foretold, reason.rival):
        return speaker.tell("why-foretold-alike", band=band, rival=reason.rival.fault)
    return speaker.tell("why-foretold", band=band, other=other, rival=reason.rival.fault)


def _alike(one: Outcome, other: Outcome) -> bool:
    """Tell whether two outcomes look the same; two that reach past the scale must begin about alike as well."""
    if one.value is None and one.high is None and other.high is None:
        lows = sorted((one.low or 0.0, other.low or 0.0))
        return lows[1] < 2.0 * lows[0]
    return same(one, other)


def moved(reason: Reason, before: float, speaker: Speaker) -> str:
    """Return which way, and how far, a reading moved the suspect."""
    share, factor = reason.probability, reason.factor
    if before < OUT and share < OUT:
        return speaker.tell("why-out")
    if factor > SETTLES:
        return speaker.tell("why-all-for", share=share)
    if factor < 1.0 / SETTLES:
        return speaker.tell("why-all-against", share=share)
    if factor > LITTLE[1]:
        return speaker.tell("why-for", times=times(factor), share=share)
    if factor < LITTLE[0]:
        return speaker.tell("why-against", times=times(1.0 / factor), share=share)
    return speaker.tell("why-little", share=share)


def times(factor: float) -> str:
    """Return a factor as it is said: halves below five, whole figures above, one figure from ten on.

    >>> [times(factor) for factor in (1.3, 2.4, 6.3, 47.0)]
    ['1.5', '2.5', '6', '50']
    """
    rounded = max(round(2 * factor) / 2, 1.5) if factor < 5 else float(f"{factor:.1g}")
    return f"{rounded:g}"


def decides(each: Deciding, speaker: Speaker) -> str:
    """Return a check that would decide, with what it would show if it is this and if it is its rival."""
    question = each.question
    return speaker.tell(
        "why-deciding", measure=question.named, red=question.red, black=question.black, item=question.item,
        arrangement=question.arrangement, minutes=each.minutes, rival=each.if_not.fault,
        band=outcome_said(each.if_so, question, speaker), other=outcome_said(each.if_not, question, speaker),
    )  # fmt: skip
