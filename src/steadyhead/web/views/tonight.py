"""Water tonight as its page shows it: the questions in groups, and the ways with their limits, steps and cautions.

Rules
-----
1. At first what is broken and what is known stand open. Once it is worked out, what the nearest way still waits for
   stands open, and nothing where a way may be chosen already; a group with an answer that cannot be used always does.
2. A bare figure has the unit beside it; one that is typed with its own unit keeps that.
3. The answers travel in the address: nothing is kept before a way is chosen, and going back loses nothing.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from urllib.parse import urlencode

from steadyhead.messages import Message
from steadyhead.service.tonight import figure_said
from steadyhead.water.known import QUESTION, QUESTIONS, Asked
from steadyhead.water.tonight import MADE_SAFE, Tonight, Way
from steadyhead.web.views.point_entry import with_unit
from steadyhead.words import Speaker
from steadyhead.words.saying import sentence
from steadyhead.words.water_said import water_unit

#: Groups of questions, in the order of the page; the first stands open.
GROUPS: Mapping[str, tuple[str, ...]] = {
    "situation": ("serves", "broken", "pump", "draws", "watch"),
    "hand": ("relief", "dry-run", "hand-speed"),
    "pressures": ("set-pressure", "relief-set", "weakest", "tank-plate", "gauge-top"),
    "curve": ("shut-off", "rated-hertz", "lift", "incoming", "least-hertz"),
    "test": ("test-hertz", "test-pressure"),
    "spare": ("spare", "spare-approved", "spare-range", "spare-accuracy", "lead"),
    "switch": ("switch", "run-input", "switch-low-cut", "cut-out"),
    "flow": ("duty-flow", "duty-head", "needed-flow", "relief-flow"),
}
#: Ways of saying a dimension's unit; pressure has the reader's own.
WAYS = {"frequency": "hertz", "head": "head", "flow": "flow"}
WATER = {"m": "mH2O", "ft": "ftH2O"}


@dataclass(frozen=True, slots=True, kw_only=True)
class QuestionView:
    """One question: its choices, or its field with the unit beside it."""

    key: str
    says: str
    choices: Sequence[tuple[str, str, bool]] = ()
    value: str = ""
    unit: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class GroupView:
    """A group of questions, and whether it stands open."""

    id: str
    head: str
    open: bool
    questions: Sequence[QuestionView]


@dataclass(frozen=True, slots=True, kw_only=True)
class WayView:
    """One way; `choose` is the address that leaves it so, empty where it may not be chosen yet."""

    mode: str
    name: str
    possible: str
    state: str
    why: Sequence[str]
    find: Sequence[str]
    limits: Sequence[tuple[str, str]]
    lost: str
    watch: str
    do: Sequence[str]
    cautions: Sequence[str]
    choose: str


def pressure_unit(speaker: Speaker) -> str:
    """Return the unit of pressure that a field has; a height is of water.

    >>> pressure_unit(Speaker(pressure_unit="bar")), pressure_unit(Speaker(pressure_unit="m"))
    ('bar', 'mH2O')
    """
    return WATER.get(speaker.pressure_unit, speaker.pressure_unit)


def unit_of(asked: Asked, speaker: Speaker) -> str:
    """Return the unit that stands beside a question's field."""
    if asked.dimension == "pressure":
        return pressure_unit(speaker)
    if asked.dimension == "percent":
        return "%"
    return water_unit(WAYS[asked.dimension], speaker.pressure_unit)


def answers_of(sent: Mapping[str, str]) -> dict[str, str]:
    """Return the answers of a form's fields, each figure with its unit.

    >>> answers_of({"pump": "centrifugal", "lift": "100", "lift.unit": "ft", "weather": "fine"})
    {'pump': 'centrifugal', 'lift': '100 ft'}
    """
    found = {}
    for asked in QUESTIONS:
        text = " ".join(sent.get(asked.key, "").split())
        if text:
            found[asked.key] = text if asked.words else with_unit(text, sent.get(f"{asked.key}.unit", ""))
    return found


def group_views(
    answers: Mapping[str, str], found: Tonight | None, speaker: Speaker, wrong: Collection[str] = ()
) -> list[GroupView]:
    """Return the groups of questions with what is answered; `wrong` are those whose answer cannot be used."""
    shown = {*wrong, *(_waiting(found) if found else ("serves", *answers))}
    return [
        GroupView(
            id=id_, head=speaker.name("tonight-group", id_), open=bool(shown & set(keys)),
            questions=[_question(QUESTION[key], answers, speaker) for key in keys],
        )
        for id_, keys in GROUPS.items()
    ]  # fmt: skip


def _waiting(found: Tonight) -> tuple[str, ...]:
    """Return what the way that lacks the fewest answers waits for, where none but to make it safe may be done."""
    if found.best is None or found.best.mode != MADE_SAFE:
        return ()
    waiting = [way.find for way in found.ways if way.possible == "unknown"]
    return min(waiting, key=len, default=())


def _question(asked: Asked, answers: Mapping[str, str], speaker: Speaker) -> QuestionView:
    says, answer = sentence(speaker.name("tonight-ask", asked.key)), answers.get(asked.key, "")
    if asked.words:
        choices = [
            (word, sentence(speaker.name("tonight-answer", f"{asked.key}:{word}")), word == answer)
            for word in asked.words
        ]
        return QuestionView(key=asked.key, says=says, choices=choices)
    unit = unit_of(asked, speaker)
    bare = answer.removesuffix(f" {unit}")
    return QuestionView(key=asked.key, says=says, value=bare, unit=unit)


def way_views(visit: str, answers: Mapping[str, str], found: Tonight, speaker: Speaker) -> list[WayView]:
    """Return the ways, the best first, then the others in their order."""
    best = found.best
    ordered = sorted(found.ways, key=lambda way: way is not best)
    return [_way(visit, answers, way, speaker) for way in ordered]


def _way(visit: str, answers: Mapping[str, str], way: Way, speaker: Speaker) -> WayView:
    may = way.possible == "yes" and bool(answers.get("serves"))
    address = f"/visits/{visit}/temporary?{urlencode({'mode': way.mode, **answers})}"
    return WayView(
        mode=way.mode, name=sentence(speaker.name("tonight-way", way.mode)), state=way.possible,
        possible=sentence(speaker.name("tonight-possible", way.possible)), why=_said(way.why, speaker),
        find=[speaker.name("tonight-find", key) for key in way.find], limits=limits_of(way, speaker),
        lost=speaker.tell("tonight-lost", lost=way.lost) if way.lost else speaker.tell("tonight-nothing-lost"),
        watch=speaker.tell("tonight-watched", watch=way.watch), do=_said(way.do, speaker),
        cautions=_said(way.cautions, speaker), choose=address if may else "",
    )  # fmt: skip


def limits_of(way: Way, speaker: Speaker, *, only: Collection[str] = ()) -> list[tuple[str, str]]:
    """Return a way's figures, or only some of them, each with what it is called."""
    limits = [each for each in way.limits if not only or each.name in only]
    return [(sentence(speaker.name("figure", each.name)), figure_said(each, speaker)) for each in limits]


def _said(lines: Sequence[Message], speaker: Speaker) -> list[str]:
    return [speaker.say(line) for line in lines]
