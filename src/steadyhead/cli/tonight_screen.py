"""The screen of water tonight: who is told first, the best way with its limits and steps, the other ways in short."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from steadyhead.cli.page import columns, paragraph
from steadyhead.errors import AnswersError, Problem
from steadyhead.messages import Message
from steadyhead.service.tonight import figure_said, work_out
from steadyhead.water.tonight import Tonight, Way
from steadyhead.words import Speaker
from steadyhead.words.saying import sentence


def answered(answers: Mapping[str, str]) -> Tonight:
    """Return what some options make.

    Raises
    ------
    AnswersError
        One or more cannot be used; each problem names its option.
    """
    try:
        return work_out(answers)
    except AnswersError as error:
        raise refused_by_option(error) from error


def refused_by_option(error: AnswersError) -> AnswersError:
    """Return a refusal of answers whose problems name their options."""
    problems = tuple(Problem(each.message, f"--{each.key}", None) for each in error.problems)
    return AnswersError(error.message, problems)


def tonight_screen(found: Tonight, speaker: Speaker, wide: int) -> list[str]:
    """Return the ways there are; the first that may be done at length, every other in a line with its reason."""
    if found.refused is not None:
        return paragraph(speaker.say(found.refused), wide)
    best = found.best
    parts = [list(_lines(found.tell, speaker, wide, "! "))]
    if best is not None:
        parts.append([_head(best, speaker), *_whole(best, speaker, wide)])
    parts += [[_head(way, speaker), *_short(way, speaker, wide)] for way in found.ways if way is not best]
    return [line for part in parts for line in (*part, "")][:-1]


def _head(way: Way, speaker: Speaker) -> str:
    return speaker.tell("tonight-way", mode=way.mode, possible=way.possible)


def _whole(way: Way, speaker: Speaker, wide: int) -> Iterator[str]:
    yield from _lines(way.cautions, speaker, wide, "  ! ")
    if way.limits:
        rows = [(sentence(speaker.name("figure", each.name)), figure_said(each, speaker)) for each in way.limits]
        yield from (f"  {line}" for line in columns([(text, name) for name, text in rows]))
    yield from _guarded(way, speaker, wide)
    for number, step in enumerate(way.do, start=1):
        yield from paragraph(speaker.say(step), wide, f"  {number}. ")
    if way.find:
        yield f"  {speaker.tell('tonight-would-help')}:"
        yield from _finds(way, speaker, wide)


def _short(way: Way, speaker: Speaker, wide: int) -> Iterator[str]:
    yield from _lines(way.why, speaker, wide, "  - ")
    if way.possible == "unknown":
        yield from _finds(way, speaker, wide)
    elif way.possible == "yes":
        yield from _whole(way, speaker, wide)


def _guarded(way: Way, speaker: Speaker, wide: int) -> Iterator[str]:
    lost = speaker.tell("tonight-lost", lost=way.lost) if way.lost else speaker.tell("tonight-nothing-lost")
    yield from paragraph(lost, wide, "  ")
    yield from paragraph(speaker.tell("tonight-watched", watch=way.watch), wide, "  ")


def _finds(way: Way, speaker: Speaker, wide: int) -> Iterator[str]:
    for key in way.find:
        yield from paragraph(speaker.name("tonight-find", key), wide, "  ? ")


def _lines(told: tuple[Message, ...], speaker: Speaker, wide: int, first: str) -> Iterator[str]:
    for each in told:
        yield from paragraph(speaker.say(each), wide, first)
