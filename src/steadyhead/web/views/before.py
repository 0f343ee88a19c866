"""Before the drive as its page shows it: what to load and why, and what to ask of the caller.

Rules
-----
1. What to load is worked out by `steadyhead.service.packing`; here it is only said.
2. What pays stands in the order in which it pays, what does not in one line. Chances are said as so many in a hundred.
3. Where nobody has read the plate, no part is named by a plate that was only assumed.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from steadyhead.diagnosis.estimates import Estimates
from steadyhead.diagnosis.memory import Memory
from steadyhead.service.packing import pack_json, which
from steadyhead.visit.record import Visit
from steadyhead.words import Speaker
from steadyhead.words.saying import sentence

Values = Mapping[str, Any]

@dataclass(frozen=True, slots=True, kw_only=True)
class LoadView:
    """What to load: what it saves in one line, parts and instruments (what, why), and what is not worth it."""

    trips: str
    parts: Sequence[tuple[str, str]]
    unproved: str
    instruments: Sequence[tuple[str, str]]
    at_hand: str
    rest: str


def asked(speaker: Speaker) -> list[str]:
    """Return what to ask of whoever calls, in the order of a call."""
    return [
        speaker.tell("before-ask-nothing"),
        speaker.tell("before-ask-photo"),
        speaker.tell("before-ask-hands"),
        speaker.tell("before-ask-save"),
        speaker.tell("before-ask-shut"),
    ]


def packed(memory: Memory, visit: Visit, estimates: Estimates) -> Values:
    """Return what to load, by the estimates that hold here; it takes the engine some seconds."""
    return pack_json(visit, estimates, memory=memory)


def load_view(found: Values, visit: Visit, speaker: Speaker, *, assumed: bool) -> LoadView:
    """Return what to load, in words; which part it is says the visit, in the unit of whoever reads."""
    loaded = [each for each in found["parts"] if each["load"]]
    rest = [each["part"] for each in found["parts"] if not each["load"]]
    hand = [speaker.name("part", each) for each in found["parts_at_hand"]]
    hand += [speaker.name("instrument", each) for each in found["instruments_at_hand"]]
    return LoadView(
        trips=speaker.tell("pack-trips", **_hundredths(found["second_trip"], "before", "advised", "floor")),
        parts=[(_part(each, visit, speaker, assumed=assumed), _why_part(each, speaker)) for each in loaded],
        unproved=speaker.tell("pack-unproved", **_hundredths(found["unproved"], "before", "floor")),
        instruments=[
            (sentence(speaker.name("instrument", each["instrument"])),
             speaker.tell("before-why-instrument", left=hundredths(each["unproved"])))
            for each in found["instruments"]
        ],
        at_hand=speaker.tell("pack-at-hand", list=", ".join(hand)) if hand else "",
        rest=speaker.tell("pack-rest", list=", ".join(speaker.name("part", each) for each in rest)) if rest else "",
    )  # fmt: skip


def _part(each: Values, visit: Visit, speaker: Speaker, *, assumed: bool) -> str:
    name = sentence(speaker.name("part", each["part"]))
    told = "" if assumed and each["part"] == "sensor" else which(each["part"], visit)
    return f"{name}, {told}" if told else name


def _why_part(each: Values, speaker: Speaker) -> str:
    return speaker.tell(
        "before-why-part", needed=hundredths(each["needed"]), trips=hundredths(each["second_trip"])
    )


def _hundredths(found: Values, *names: str) -> dict[str, str]:
    return {name: hundredths(found[name]) for name in names}


def hundredths(chance: float) -> str:
    """Return a chance as so many in a hundred.

    >>> hundredths(0.256), hundredths(0.0004), hundredths(0.0)
    ('26', '<1', '0')
    """
    return "<1" if 0.0 < chance < 0.005 else f"{100 * chance:.0f}"
