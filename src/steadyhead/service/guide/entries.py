"""What a technician types for a reading, as the visit file spells it.

Rules
-----
1. A figure without its unit has the unit that was asked for; the echo says so.
2. "jumping 2 to 3", "2.1..2.6 jumping", "OL", "open", "pegged", "0 on the stop", "-0.3" are all values.
3. "can't", with or without a reason, is an answer too. A bare "no" is one where a figure was asked for; where a word
   was asked for it could mean two things, and is asked about.
4. What cannot be read is refused with what was got and what would do; nothing is guessed.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from steadyhead.errors import InputError, UnknownWordError
from steadyhead.messages import message
from steadyhead.visit.kinds import Known
from steadyhead.visit.measures import MEASURE
from steadyhead.visit.nearest import nearest_first, shown
from steadyhead.visit.reading_value import ReadValue
from steadyhead.visit.record import ReadingValue, Visit

UNITS = {
    "volts": "V", "volts-ac": "V", "milliamps": "mA", "ohms": "ohm", "megohms": "Mohm", "displayed-hertz": "Hz",
    "displayed-amps": "A", "displayed-hours": "h", "displayed-starts": "",
}  # fmt: skip
#: What people type for the words of a look.
LOOKS = {
    "right": ("right", "ok", "okay", "good", "fine", "r", "as it should be", "nothing"),
    "wrong": ("wrong", "bad", "w", "not right", "not ok", "faulty"),
    "not-seen": ("not-seen", "not seen", "notseen", "unseen", "could not see", "couldn't see", "don't know", "?"),
}
OVERLOAD = ("open", "infinite", "infinity", "inf", "over", "overload", "over range", "open line")

_CANNOT = re.compile(r"(can'?t|can ?not|n/a|impossible|unable)\b[\s,:;.-]*(?P<why>.*)", re.IGNORECASE)
_NO = re.compile(r"no\s*[,:;.-]+\s*(?P<why>\S.*)", re.IGNORECASE)
_HAVE_NOT = re.compile(r"(no\s+\w|(don'?t|do not|haven'?t|have not|have no)\b).*", re.IGNORECASE)
_JUMP = re.compile(r"\b(jump(ing|s|y)?|wandering|unsteady|swinging|hunting|between|from)\b[\s,:]*", re.IGNORECASE)
_ENDS = re.compile(r"(?<=\d)\s*(?:\band\b|\bto\b)\s*(?=[-+\d.])", re.IGNORECASE)
_STOP = re.compile(
    r"(?P<figure>.*?)\s*,?\s*\b(on|at|against)?\s*\b(its|the)?\s*(stop(\s*-?pin)?|pin|peg)", re.IGNORECASE
)
_PEGGED = re.compile(r"pegged\s+(at\s+)?(?P<figure>\S.*)", re.IGNORECASE)
_ROUGHLY = re.compile(r"^(about|approx(imately)?\.?|around|~|=|\+(?=\d))\s*", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Entry:
    """What was typed: a value in the file's spelling, or that the check cannot be done and perhaps why."""

    kind: Literal["value", "cannot"]
    text: str


def unit_asked(measure: str, visit: Visit) -> str:
    """Return the unit that a bare figure has; empty where a word is asked for.

    >>> from steadyhead.visit.record import Interval, Sensor, Signal, Visit
    >>> sensor = Sensor(signal=Signal(kind="current", low=0.004, high=0.02, wires=2), range=Interval(0.0, 1e6))
    >>> [unit_asked(measure, Visit(sensor=sensor)) for measure in ("ohms", "displayed-signal", "inspection")]
    ['ohm', 'mA', '']
    """
    if MEASURE[measure].words:
        return ""
    if measure == "displayed-signal":
        return "mA" if visit.sensor.signal.kind == "current" else "V"
    return UNITS.get(measure, visit.pressure_unit)


def entry(line: str, measure: str, visit: Visit) -> Entry:
    """Return what a line says of a reading.

    Raises
    ------
    InputError
        It says nothing that can be kept.
    """
    text = " ".join(line.split())
    words = MEASURE[measure].words
    cannot = _cannot(text, figure=not words)
    if cannot is not None:
        return Entry("cannot", cannot)
    if words:
        return Entry("value", _word(text, measure))
    return Entry("value", _figure(text, measure, visit))


def value_of(text: str, measure: str, visit: Visit) -> ReadingValue:
    """Return the value that a text has in the file.

    Raises
    ------
    InputError
        It has none.
    """
    found = ReadValue().read(text, Known(visit.sensor.signal.kind, absolute=False, row={"measure": measure}))
    if found is None:
        raise InputError(message("word-unknown", got=shown(text), must_be=tuple(MEASURE), nearest=()))
    return found


def _cannot(text: str, *, figure: bool) -> str | None:
    """Return the reason, perhaps empty, where a line says that the check cannot be done."""
    for pattern in (_CANNOT, _NO):
        match = pattern.fullmatch(text)
        if match and (figure or pattern is _CANNOT):
            return match["why"].strip()
    if figure and text.lower() in {"no", "nope"}:
        return ""
    return text if figure and _HAVE_NOT.fullmatch(text) and text.lower() != "no reading" else None


def _word(text: str, measure: str) -> str:
    """Return the file's word for what was typed."""
    plain = text.lower().rstrip(".!")
    if measure == "inspection":
        for word, spellings in LOOKS.items():
            if plain in spellings:
                return word
        raise UnknownWordError(message("guide-look-word", got=shown(text)))
    words = MEASURE[measure].words
    if plain in {"no fault", "nothing", "clear", "no faults"}:
        return "none"
    near = [word for word in words if word == plain.replace(" ", "-") or word.startswith(plain.replace(" ", "-"))]
    if len(near) == 1 and plain != "no":
        return near[0]
    allowed, nearest = nearest_first(text, words)
    raise UnknownWordError(message("guide-shown-word", got=shown(text), must_be=allowed, nearest=nearest))


def _figure(text: str, measure: str, visit: Visit) -> str:
    """Return the first spelling of what was typed that the file can hold."""
    refusals: list[InputError] = []
    for spelling in _spellings(text, unit_asked(measure, visit)):
        try:
            value_of(spelling, measure, visit)
        except InputError as error:
            refusals.append(error)
        else:
            return spelling
    unlike = [error for error in refusals if error.message.id != "unit-missing"]
    raise _refusal(text, measure, visit, (unlike or refusals)[0])


def _refusal(text: str, measure: str, visit: Visit, why: InputError) -> InputError:
    """Return the refusal as it is; or, where nothing that was typed looks like a figure, with what would do."""
    if any(sign.isdigit() for sign in text):
        return why
    return UnknownWordError(message("guide-no-figure", got=shown(text), unit=unit_asked(measure, visit)))


def _spellings(text: str, unit: str) -> Iterator[str]:
    """Yield what may have been meant, the most literal first."""
    text = _ROUGHLY.sub("", text)
    if text.lower() in OVERLOAD:
        yield "OL"
    yield text
    jumping = _JUMP.search(text)
    if jumping or _ENDS.search(text):
        core = _ENDS.sub("..", _JUMP.sub("", text)).strip(" ,")
        yield from (f"{each} jumping" for each in (core, f"{core} {unit}"))
    yield f"{text} {unit}".strip()
    pegged = _PEGGED.fullmatch(text)
    if pegged:
        yield f"pegged at {pegged['figure']} {unit}"
    stop = _STOP.fullmatch(text)
    if stop:
        figure = stop["figure"].strip() or "0"
        yield from (f"{each} on its stop pin" for each in (figure, f"{figure} {unit}"))
