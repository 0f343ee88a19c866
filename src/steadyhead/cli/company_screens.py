"""The screens of a company's own figures: the estimates, what they do to a visit, and what was learnt."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from itertools import groupby
from typing import Any

from steadyhead.cli.page import columns, paragraph
from steadyhead.diagnosis.estimates import SECTIONS
from steadyhead.words import Speaker
from steadyhead.words.odds import odds
from steadyhead.words.saying import sentence
from steadyhead.words.takes import reading_of

Values = Mapping[str, Any]


def estimates_screen(found: Values, speaker: Speaker, wide: int) -> list[str]:
    """Return every row of the estimates with its reason, section by section."""
    lines = list(_head(found, speaker, wide))
    for section, group in groupby(found["rows"], key=lambda row: row["section"]):
        rows = list(group)
        broad = max(len(row["row"]) for row in rows)
        lines += ["", *paragraph(f"[{section}] {SECTIONS[section].says}", wide, "", "  ")]
        lines += [line for row in rows for line in _row(row, broad, wide)]
    return lines


def _head(found: Values, speaker: Speaker, wide: int) -> Iterator[str]:
    if found["company"] is None:
        yield from paragraph(speaker.tell("estimates-shipped"), wide)
        return
    told = speaker.tell("estimates-of", file=found["company"], visits=found["learnt_visits"])
    yield from paragraph(told, wide)
    yield from paragraph(speaker.tell("estimates-own"), wide)


def _row(row: Values, broad: int, wide: int) -> list[str]:
    mark = "*" if row["company"] is not None else " "
    used = "" if row["used"] == row["shipped"] else figure(row["used"])
    return paragraph(row["reason"], wide, f"{mark} {row['row']:<{broad}} {figure(row['shipped']):>5} {used:>5}  ")


def figure(value: float) -> str:
    """Return a figure with as many places as an eye needs.

    >>> figure(0.2), figure(5.0), figure(27.149), figure(240.0), figure(0.3)
    ('0.2', '5', '27.1', '240', '0.3')
    """
    return f"{value:.3g}" if value < 1000 else f"{value:.0f}"


def effect_screen(effect: Values, speaker: Speaker, wide: int) -> list[str]:
    """Return what the company's figures do to a visit before its first reading."""
    lines = paragraph(speaker.tell("estimates-odds"), wide)
    told = [each for each in effect["suspects"] if odds(each["shipped"]) != odds(each["company"])]
    for each in told:
        said = speaker.tell(
            "estimates-odds-line", fault=each["fault"], before=each["shipped"], after=each["company"]
        )
        lines += paragraph(sentence(said), wide, "  ", "    ")
    if not told:
        lines += paragraph(speaker.tell("estimates-odds-same"), wide, "  ")
    heads = {"shipped": speaker.tell("estimates-checks"), "company": speaker.tell("estimates-checks-own")}
    for whose, head in heads.items():
        lines += ["", *paragraph(head, wide), *_checks(effect["checks"][whose], speaker, wide)]
    return lines


def _checks(checks: Iterable[Values], speaker: Speaker, wide: int) -> list[str]:
    lines = [
        line
        for number, check in enumerate(checks, start=1)
        for line in paragraph(sentence(_check(check, speaker)), wide, f"  {number}. ")
    ]
    return lines or paragraph(speaker.tell("estimates-no-checks"), wide, "  ")


def _check(check: Values, speaker: Speaker) -> str:
    if check["item"]:
        return speaker.tell("else-look", what=speaker.name("item", check["item"]), minutes=check["minutes"])
    what = reading_of(speaker, check, "measure")
    return speaker.tell("else-check", what=what, arrangement=check["arrangement"], minutes=check["minutes"])


def lesson_screen(lesson: Values, speaker: Speaker, wide: int) -> list[str]:
    """Return what a folder taught: the files, and every figure that moved."""
    told = speaker.tell(
        "lesson-files",
        learnt=lesson["learnt"],
        known=len(lesson["known"]),
        open=len(lesson["not_closed"]),
        refused=len(lesson["refused"]),
    )
    lines = paragraph(told, wide)
    trips = lesson["second_trips"]
    if trips["of"]:
        lines += paragraph(speaker.tell("lesson-second", needed=trips["needed"], of=trips["of"]), wide)
    if not lesson["rows"]:
        return [*lines, "", *paragraph(speaker.tell("lesson-nothing"), wide)]
    rows = [
        (f"[{row['section']}] {row['row']}", figure(row["before"]), figure(row["after"])) for row in lesson["rows"]
    ]
    return [*lines, "", *paragraph(speaker.tell("lesson-head"), wide), *(f"  {line}" for line in columns(rows))]
