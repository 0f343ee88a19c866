"""What is known of a system that must give water tonight: every question, and the answers read from text.

Everything that affects what is asked for water tonight lives in this file.

Rules
-----
1. Every answer may be missing: unknown is normal. `steadyhead.water.tonight` says what it blocks or widens.
2. A figure is text with its unit; where a range will do ("80..110 ft") the worse end counts each time.
3. Wrong answers are all named, not only the first.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, NamedTuple

from steadyhead.errors import AnswersError, InputError, Problem, QuantityError, UnknownWordError
from steadyhead.messages import Message, message
from steadyhead.quantities import parse, parse_percent, parse_range, parse_range_or_one
from steadyhead.water.statics import Between

YES_NO = ("yes", "no")
SERVES = ("house", "building", "dependent", "fire")
BROKEN = ("sensor", "cable", "input", "drive")
PUMPS = ("centrifugal", "positive-displacement")
DRAWS = ("well", "main")
RELIEFS = ("proven", "fitted", "none")
DRY_RUNS = ("independent", "by-sensor", "none")
#: Who watches, the least first.
WATCHERS = ("nobody", "daily", "in-house", "beside")


class Asked(NamedTuple):
    """One question: its key, its words or its dimension, and whether two ends will do or must be."""

    key: str
    words: tuple[str, ...] = ()
    dimension: str = ""
    ends: str = "one"  #: ``one``, ``one-or-two``, ``two``


QUESTIONS: tuple[Asked, ...] = (
    Asked("serves", SERVES),
    Asked("broken", BROKEN),
    Asked("pump", PUMPS),
    Asked("draws", DRAWS),
    Asked("watch", WATCHERS),
    Asked("relief", RELIEFS),
    Asked("dry-run", DRY_RUNS),
    Asked("hand-speed", YES_NO),
    Asked("run-input", YES_NO),
    Asked("switch", YES_NO),
    Asked("switch-low-cut", YES_NO),
    Asked("lead", YES_NO),
    Asked("spare", YES_NO),
    Asked("spare-approved", YES_NO),
    Asked("set-pressure", dimension="pressure"),
    Asked("relief-set", dimension="pressure"),
    Asked("weakest", dimension="pressure"),
    Asked("tank-plate", dimension="pressure"),
    Asked("gauge-top", dimension="pressure"),
    Asked("shut-off", dimension="head"),
    Asked("rated-hertz", dimension="frequency"),
    Asked("lift", dimension="head", ends="one-or-two"),
    Asked("incoming", dimension="pressure", ends="one-or-two"),
    Asked("test-hertz", dimension="frequency"),
    Asked("test-pressure", dimension="pressure"),
    Asked("least-hertz", dimension="frequency"),
    Asked("duty-flow", dimension="flow"),
    Asked("duty-head", dimension="head"),
    Asked("needed-flow", dimension="flow"),
    Asked("relief-flow", dimension="flow"),
    Asked("spare-range", dimension="pressure", ends="two"),
    Asked("spare-accuracy", dimension="percent"),
    Asked("cut-out", dimension="pressure"),
)
QUESTION: dict[str, Asked] = {each.key: each for each in QUESTIONS}
#: Figures that may be zero; every other must be above it.
MAY_BE_ZERO = frozenset({"lift", "incoming", "test-pressure", "needed-flow"})


@dataclass(frozen=True, slots=True, kw_only=True)
class Known:
    """What is known; None is unknown. Pressures [Pa], heads [m], speeds [Hz], flows [m3/s]; words as in `QUESTIONS`.

    Parameters
    ----------
    serves, broken, pump, draws, watch, relief, dry_run
        Who gets the water; what is broken; the pump's kind; from where it draws; who watches; the relief valve
        (``proven``: seen to pass the pump's whole flow); the stop on dry running (``independent`` of the sensor).
    hand_speed, run_input, switch, switch_low_cut, lead, spare, spare_approved
        Whether the drive runs at a fixed speed by hand, and from a contact; whether a pressure switch is at hand, with
        a low-pressure cut-off; a known-good lead; a spare sensor, approved for drinking water.
    set_pressure, relief_set, weakest, tank_plate, gauge_top
        What the drive held; where the relief opens; the weakest part's, the tank plate's, the gauge's most.
    shut_off, rated_hertz, lift, incoming
        The pump's head at no flow and the speed of that; from the water up to the gauge; what comes in.
    test_hertz, test_pressure
        One's own no-flow test: the speed, and the gauge.
    least_hertz
        Below it the pump or its motor must not run for long.
    duty_flow, duty_head, needed_flow, relief_flow
        A point of the curve; what the house needs; what the relief passes.
    spare_range, spare_accuracy, cut_out
        The spare sensor's range and accuracy (of span); where the switch stops the pump.
    """

    serves: str | None = None
    broken: str | None = None
    pump: str | None = None
    draws: str | None = None
    watch: str | None = None
    relief: str | None = None
    dry_run: str | None = None
    hand_speed: str | None = None
    run_input: str | None = None
    switch: str | None = None
    switch_low_cut: str | None = None
    lead: str | None = None
    spare: str | None = None
    spare_approved: str | None = None
    set_pressure: float | None = None
    relief_set: float | None = None
    weakest: float | None = None
    tank_plate: float | None = None
    gauge_top: float | None = None
    shut_off: float | None = None
    rated_hertz: float | None = None
    lift: Between | None = None
    incoming: Between | None = None
    test_hertz: float | None = None
    test_pressure: float | None = None
    least_hertz: float | None = None
    duty_flow: float | None = None
    duty_head: float | None = None
    needed_flow: float | None = None
    relief_flow: float | None = None
    spare_range: Between | None = None
    spare_accuracy: float | None = None
    cut_out: float | None = None

    def lacking(self, *keys: str) -> tuple[str, ...]:
        """Return those of some questions that nobody answered."""
        return tuple(key for key in keys if getattr(self, field_of(key)) is None)


def field_of(key: str) -> str:
    """Return the field of `Known` that a question fills."""
    return key.replace("-", "_")


def known_from(texts: Mapping[str, str]) -> Known:
    """Return what some answers say; an empty one is unknown.

    Parameters
    ----------
    texts
        Answers by the keys of `QUESTIONS`: a word, or a figure with its unit.

    Raises
    ------
    AnswersError
        One or more cannot be used; its problems name each by its key.

    Examples
    --------
    >>> known_from({"pump": "centrifugal", "lift": "25..30 m"}).lift
    Between(low=25.0, high=30.0)
    """
    found: dict[str, Any] = {}
    problems: list[Problem] = []
    for key, text in texts.items():
        if not text.strip():
            continue
        try:
            found[field_of(key)] = _read(key, text.strip())
        except InputError as error:
            problems.append(Problem(error.message, key, None))
    known = Known(**found)
    problems += [Problem(said, key, None) for key, said in _contradictions(known)]
    if problems:
        raise AnswersError(message("tonight-refused", file="tonight", count=len(problems)), tuple(problems))
    return known


def _read(key: str, text: str) -> str | float | Between:
    """Return what one answer says."""
    asked = QUESTION.get(key)
    if asked is None:
        raise UnknownWordError(message("word-unknown", got=key, must_be=tuple(QUESTION), nearest=()))
    if asked.words:
        if text not in asked.words:
            raise UnknownWordError(message("word-unknown", got=text, must_be=asked.words, nearest=()))
        return text
    value = _figure(asked, text)
    least = value.low if isinstance(value, Between) else value
    if least < 0 or (least == 0 and key not in {*MAY_BE_ZERO, "spare-range"}):
        raise QuantityError(message("tonight-not-above-zero", got=text))
    return value


def _figure(asked: Asked, text: str) -> float | Between:
    if asked.ends == "two":
        return Between(*parse_range(text, asked.dimension))
    if asked.ends == "one-or-two":
        return Between(*parse_range_or_one(text, asked.dimension))
    return parse_percent(text) if asked.dimension == "percent" else parse(text, asked.dimension)


def _contradictions(known: Known) -> list[tuple[str, Message]]:
    """Return answers that cannot stand beside each other, by the key that is to be looked at again."""
    found = []
    if known.shut_off and known.duty_head and known.duty_head >= known.shut_off:
        found.append(("duty-head", message("tonight-duty-above-shut-off")))
    if known.draws == "well" and known.incoming and known.incoming.high > 0:
        found.append(("incoming", message("tonight-well-has-none")))
    if known.draws == "main" and known.lift and known.lift.high > 0:
        found.append(("lift", message("tonight-main-has-none")))
    for key in ("test-hertz", "least-hertz"):
        hertz = getattr(known, field_of(key))
        if hertz and known.rated_hertz and not 0.4 <= hertz / known.rated_hertz <= 1.2:
            found.append((key, message("tonight-hertz-far-off")))
    return found
