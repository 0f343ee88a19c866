"""The next check in its frame: cautions, what to do, where the leads go, and what each outcome would mean.

Rules
-----
1. One check, so that nobody chooses between ten with wet hands; the two next best stand below in one line each.
2. The leads stand in lines of their own, by this panel's labels: a glance must do.
3. Outcomes that an eye could not tell apart share one line.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import islice

from steadyhead.cli.page import box, columns, paragraph
from steadyhead.diagnosis.answer import Answer, NextCheck, Outcome
from steadyhead.diagnosis.observing import Question
from steadyhead.service.check_words import grouped, healthy_of, how_text, outcome_said, question_text
from steadyhead.visit.record import Visit
from steadyhead.words import Speaker
from steadyhead.words.saying import sentence

MOST_LINES, MOST_NAMES, MOST_OTHERS = 5, 3, 2


def check_box(visit: Visit, answer: Answer, speaker: Speaker, wide: int) -> list[str]:
    """Return the frame of the best check."""
    check = answer.next_checks[0]
    return check_frame(check, visit, speaker, wide, Beside(healthy=healthy_of(answer, check.question, speaker)))


@dataclass(frozen=True, slots=True)
class Beside:
    """What a frame shows beside its check: what would be healthy, and which cautions were told in full before."""

    healthy: str = ""
    told: frozenset[str] = frozenset()


def check_frame(check: NextCheck, visit: Visit, speaker: Speaker, wide: int, beside: Beside) -> list[str]:
    """Return the frame of a check."""
    inside = wide - 4
    parts = [
        list(_cautions(check, speaker, inside, beside.told)),
        paragraph(how_text(check, visit, speaker), inside),
        list(_leads(check.question, speaker)),
        list(_meanings(check, speaker, inside, beside.healthy)),
        list(_while_there(check, speaker, inside)),
        paragraph(speaker.say(check.why), inside) if check.why else [],
    ]
    lines = [line for part in parts if part for line in (*part, "")][:-1]
    title = speaker.tell("next-check", minutes=check.minutes)
    return box(title, speaker.name("state", check.drive), lines, wide)


def _cautions(check: NextCheck, speaker: Speaker, wide: int, told: frozenset[str]) -> Iterator[str]:
    """Yield the cautions: in full the first time, in a few words where they were told before."""
    for caution in check.cautions:
        if caution.id not in told:
            yield from paragraph(speaker.say(caution), wide, "! ")
    before = [speaker.name("caution", caution.id) for caution in check.cautions if caution.id in told]
    if before:
        yield from paragraph(speaker.tell("guide-cautions-before", list="; ".join(before)), wide, "! ")


def _leads(question: Question, speaker: Speaker) -> Iterator[str]:
    if question.red and question.black:
        rows = [(speaker.tell("red-lead"), question.red), (speaker.tell("black-lead"), question.black)]
        yield from (f"  {row}" for row in columns([(lead, speaker.name("point", point)) for lead, point in rows]))


def _meanings(check: NextCheck, speaker: Speaker, wide: int, healthy: str) -> Iterator[str]:
    groups = list(grouped(check.outcomes))
    if groups:
        yield speaker.tell("outcomes-head")
    told = [outcome_said(group[0], check.question, speaker) for group in groups[:MOST_LINES]]
    broad = max(map(len, told), default=0)
    for text, group in zip(told, groups, strict=False):
        yield from paragraph(_names(group, speaker), wide, f"  {text:<{broad}}  ")
    if healthy:
        yield from paragraph(healthy, wide, "  " if groups else "")


def _names(group: list[Outcome], speaker: Speaker) -> str:
    names = [speaker.name("fault", outcome.fault) for outcome in islice(group, MOST_NAMES)]
    more = len(group) - len(names)
    return "; ".join([*names, speaker.tell("outcomes-more", count=more)] if more else names)


def _while_there(check: NextCheck, speaker: Speaker, wide: int) -> Iterator[str]:
    said = [question_text(question, speaker) for question in check.while_there]
    if said:
        yield from paragraph(speaker.tell("while-there", list="; ".join(said)), wide)


def other_checks(answer: Answer, speaker: Speaker, wide: int) -> list[str]:
    """Return the next best checks, one line each, for who cannot do the first."""
    lines = checks_listed(answer.next_checks[1 : 1 + MOST_OTHERS], speaker, wide)
    return [speaker.tell("else-head"), *lines] if lines else []


def checks_listed(checks: Sequence[NextCheck], speaker: Speaker, wide: int, *, numbered: bool = False) -> list[str]:
    """Return checks, one line each, with their numbers where one can be chosen by it."""
    lines: list[str] = []
    for number, check in enumerate(checks, 1):
        what = sentence(question_text(check.question, speaker))
        first = f"  {number}  " if numbered else "  "
        lines += paragraph(_other(check, check.question, what, speaker), wide, first, f"{' ' * len(first)}  ")
    return lines


def _other(check: NextCheck, question: Question, what: str, speaker: Speaker) -> str:
    if question.item:
        return speaker.tell("else-look", what=what, minutes=check.minutes)
    return speaker.tell("else-check", what=what, arrangement=question.arrangement, minutes=check.minutes)
