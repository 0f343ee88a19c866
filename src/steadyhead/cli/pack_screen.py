"""The screen of what to load before the drive.

Rules
-----
1. What pays comes first, in the order in which it pays; what doesn't stands below in one line.
2. Chances are said as so many in a hundred visits like this one: the steps are too small for odds in words.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from steadyhead.cli.page import columns, paragraph
from steadyhead.service.answer_words import system_line
from steadyhead.visit.record import Visit
from steadyhead.words import Speaker

Values = Mapping[str, Any]


def pack_screen(visit: Visit, found: Values, speaker: Speaker, wide: int) -> list[str]:
    """Return what to load: parts by the second trips that they save, instruments by the repairs that they prove."""
    parts = [
        list(_head(visit, found, speaker, wide)),
        list(_parts(found, speaker, wide)),
        list(_instruments(found, speaker, wide)),
    ]
    return [line for part in parts if part for line in (*part, "")][:-1]


def hundredths(chance: float) -> str:
    """Return a chance as so many in a hundred.

    >>> hundredths(0.256), hundredths(0.0004), hundredths(0.0)
    ('26', '<1', '0')
    """
    return "<1" if 0.0 < chance < 0.005 else f"{100 * chance:.0f}"


def _head(visit: Visit, found: Values, speaker: Speaker, wide: int) -> Iterator[str]:
    if visit.site.name:
        yield from paragraph(speaker.printable(visit.site.name), wide)
    yield from paragraph(system_line(visit, speaker), wide)
    trips = found["second_trip"]
    told = speaker.tell(
        "pack-trips",
        before=hundredths(trips["before"]),
        advised=hundredths(trips["advised"]),
        floor=hundredths(trips["floor"]),
    )
    yield from paragraph(told, wide)


def _parts(found: Values, speaker: Speaker, wide: int) -> Iterator[str]:
    loaded = [each for each in found["parts"] if each["load"]]
    if found["parts_at_hand"]:
        yield from paragraph(speaker.tell("pack-at-hand", list=_names(found["parts_at_hand"], speaker)), wide)
    if loaded:
        heads = (speaker.tell("pack-load"), speaker.tell("pack-needed"), speaker.tell("pack-second"))
        rows = [
            (_part(each, speaker), hundredths(each["needed"]), hundredths(each["second_trip"])) for each in loaded
        ]
        yield from columns(rows, heads)
    rest = [each["part"] for each in found["parts"] if not each["load"]]
    if rest:
        yield from paragraph(speaker.tell("pack-rest", list=_names(rest, speaker)), wide)


def _part(each: Values, speaker: Speaker) -> str:
    name = speaker.name("part", each["part"])
    return f"{name}, {each['which']}" if each["which"] else name


def _names(parts: list[str], speaker: Speaker) -> str:
    return ", ".join(speaker.name("part", part) for part in parts)


def _instruments(found: Values, speaker: Speaker, wide: int) -> Iterator[str]:
    if found["instruments_at_hand"]:
        names = ", ".join(speaker.name("instrument", each) for each in found["instruments_at_hand"])
        yield from paragraph(speaker.tell("pack-at-hand", list=names), wide)
    else:
        yield from paragraph(speaker.tell("pack-bare"), wide)
    if not found["instruments"]:
        yield from paragraph(speaker.tell("pack-enough"), wide)
        return
    unproved = found["unproved"]
    told = speaker.tell(
        "pack-unproved", before=hundredths(unproved["before"]), floor=hundredths(unproved["floor"])
    )
    yield from paragraph(told, wide)
    rows = [
        (speaker.name("instrument", each["instrument"]), hundredths(each["unproved"]))
        for each in found["instruments"]
    ]
    yield from columns(rows, (speaker.tell("pack-carry"), speaker.tell("pack-left")))
