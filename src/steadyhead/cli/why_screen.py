"""The screen of one suspect: how each reading moved it, what speaks for and against it most, and what would decide.

Rules
-----
1. Odds are words and hatching; a factor is told as "about 6 times", rounded, and no finer than it is known.
2. Beside what was read stands what this suspect foretold, and what its strongest rival of that moment did.
"""

from __future__ import annotations

from collections.abc import Iterator

from steadyhead.cli.page import bar, paragraph
from steadyhead.diagnosis.answer import Outcome
from steadyhead.diagnosis.observing import question_of
from steadyhead.diagnosis.reasons import LITTLE, OUT, Deciding, Reason, Reasons
from steadyhead.service.check_words import outcome_said
from steadyhead.service.figures import same
from steadyhead.service.guide.keeping import reading_values
from steadyhead.visit.record import Reading, Visit
from steadyhead.words import Speaker
from steadyhead.words.odds import odds
from steadyhead.words.saying import sentence

#: A factor beyond this, or below one over it, all but settles it.
SETTLES = 100.0
#: Rivals that are less likely than this are not listed.
LISTED = 0.01


def why_screen(visit: Visit, found: Reasons, speaker: Speaker, wide: int) -> list[str]:
    """Return the lines of the screen, none longer than `wide`."""
    head = speaker.tell("why-head", fault=found.fault, share=found.probability, remedy=found.remedy)
    parts = [
        paragraph(f"{sentence(head)} [{found.fault}]", wide),
        list(_readings(visit, found, speaker, wide)),
        list(_strongest(found, speaker, wide)),
        list(_rivals(found, speaker, wide)),
        list(_deciding(found, speaker, wide)),
    ]
    return [line for part in parts if part for line in (*part, "")][:-1]


def _readings(visit: Visit, found: Reasons, speaker: Speaker, wide: int) -> Iterator[str]:
    yield from paragraph(speaker.tell("why-before", share=found.before), wide)
    if found.unused:
        yield from paragraph(speaker.tell("why-unused", list=", ".join(map(str, found.unused))), wide)
    before = found.before
    for reason in found.readings:
        reading = visit.readings[reason.reading - 1]
        yield from paragraph(speaker.tell("guide-list-reading", **reading_values(reading)), wide, "  ", "     ")
        if reason.foretold is not None and before > OUT:
            yield from paragraph(_foretold(reason, reading, speaker), wide, "     ")
        yield from paragraph(_moved(reason, before, speaker), wide, "     ")
        before = reason.probability


def _foretold(reason: Reason, reading: Reading, speaker: Speaker) -> str:
    """Return what was foretold, by the suspect and by its strongest rival."""
    if reason.foretold is None:
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


def _moved(reason: Reason, before: float, speaker: Speaker) -> str:
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


def _strongest(found: Reasons, speaker: Speaker, wide: int) -> Iterator[str]:
    if found.strongest_for is not None:
        yield from paragraph(speaker.tell("why-most-for", number=found.strongest_for.reading), wide)
    if found.strongest_against is not None:
        yield from paragraph(speaker.tell("why-most-against", number=found.strongest_against.reading), wide)


def _rivals(found: Reasons, speaker: Speaker, wide: int) -> Iterator[str]:
    listed = [rival for rival in found.rivals if rival.probability >= LISTED]
    if not listed:
        return
    yield speaker.tell("why-rivals-head")
    words = [speaker.translated(odds(rival.probability)) for rival in listed]
    broad = max(map(len, words))
    for rival, word in zip(listed, words, strict=True):
        name = sentence(speaker.name("fault", rival.fault))
        yield from paragraph(name, wide, f"  {word:<{broad}}  {bar(rival.probability)}  ")


def _deciding(found: Reasons, speaker: Speaker, wide: int) -> Iterator[str]:
    if not found.deciding:
        yield from paragraph(speaker.tell("why-nothing-decides"), wide)
        return
    yield speaker.tell("why-deciding-head")
    for each in found.deciding:
        yield from paragraph(sentence(_decides(each, speaker)), wide, "  ", "    ")


def _decides(each: Deciding, speaker: Speaker) -> str:
    question = each.question
    return speaker.tell(
        "why-deciding", measure=question.measure, red=question.red, black=question.black, item=question.item,
        arrangement=question.arrangement, minutes=each.minutes, rival=each.if_not.fault,
        band=outcome_said(each.if_so, question, speaker), other=outcome_said(each.if_not, question, speaker),
    )  # fmt: skip
