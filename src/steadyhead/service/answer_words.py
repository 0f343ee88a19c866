"""An answer in words: the system in a line, a suspect, a reading, why it is proved."""

from __future__ import annotations

from steadyhead.diagnosis.answer import Answer, Suspect
from steadyhead.quantities import spell_range
from steadyhead.service.answer_json import size_text
from steadyhead.service.guide.keeping import reading_values
from steadyhead.visit.record import Reading, Visit
from steadyhead.words import Speaker
from steadyhead.words.saying import sentence

#: What is less likely than this is not listed.
LISTED = 0.01


def system_line(visit: Visit, speaker: Speaker) -> str:
    """Return the system in one line."""
    sensor = visit.sensor
    current = sensor.signal.kind == "current"
    range_ = spell_range(sensor.range.low, sensor.range.high, visit.pressure_unit)
    signal = spell_range(sensor.signal.low, sensor.signal.high, "mA" if current else "V")
    values = {
        "range": range_ if sensor.reference == "gauge" else f"{range_} {sensor.reference}",
        "signal": f"{signal} ratiometric" if sensor.signal.kind == "ratiometric" else signal,
    }
    said = speaker.tell("system-line", wires=sensor.signal.wires, **values)
    return f"{said} {_readings(len(visit.readings), speaker)}"


def _readings(count: int, speaker: Speaker) -> str:
    if count < 2:
        return speaker.tell("readings-one" if count else "readings-none")
    return speaker.tell("readings-many", count=count)


def others_text(count: int, share: float, speaker: Speaker) -> str:
    """Return what is said of the suspects that are not listed: how many, and their share together."""
    if share < LISTED:
        return speaker.tell("others-ruled-out", count=count) if count > 1 else speaker.tell("other-ruled-out")
    return (
        speaker.tell("others-left", count=count, share=share) if count > 1 else speaker.tell("other-left", share=share)
    )


def suspect_text(suspect: Suspect, speaker: Speaker) -> str:
    """Return a suspect in words: its name, its place, its size."""
    parts = [sentence(speaker.name("fault", suspect.fault))]
    if suspect.place:
        parts.append(speaker.name("place", suspect.place))
    size = size_text(suspect, speaker)
    if size:
        parts.append(size)
    told = ", ".join(parts)
    return f"{told}: {speaker.say(suspect.cause)}" if suspect.cause else told


def reading_text(reading: Reading, speaker: Speaker) -> str:
    """Return a reading in words: its number, what was read and in which hook-up, and what came out."""
    return speaker.tell("reading-said", **reading_values(reading))


def because_text(visit: Visit, answer: Answer, speaker: Speaker) -> str:
    """Return why it is proved: the reading that tells, with what came out."""
    because = answer.verdict.because
    number = because.values.get("reading")
    if not isinstance(number, int):
        return speaker.say(because)
    said = reading_text(visit.readings[number - 1], speaker)
    return speaker.tell("proved-by", reading=said)
