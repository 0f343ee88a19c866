"""What a technician can do instead of answering: ask why, correct, pass over, tell of a repair, put in what is known.

Rules
-----
1. None of these loses the question: it is asked again afterwards.
2. ``back`` takes back the last answer of this sitting whatever it was; in a later sitting it corrects the last reading.
3. A reading that is corrected keeps its old value until the new one is given.
"""

from __future__ import annotations

from dataclasses import replace

from steadyhead.diagnosis.reasons import suspects_of
from steadyhead.diagnosis.system import System
from steadyhead.errors import InputError, UnknownWordError
from steadyhead.loop.faults import faults_of
from steadyhead.messages import message
from steadyhead.service.diagnosis import speaker_of
from steadyhead.service.guide import keeping
from steadyhead.service.guide.commands import choice
from steadyhead.service.guide.entries import entry
from steadyhead.service.guide.state import Again, Choose, Guide, Said, Settled, Show, Take, Thinking, Turn
from steadyhead.service.guide.thinking import ask_next, asked, open_checks, plain_check, would_prove
from steadyhead.service.why import suspect_named
from steadyhead.visit.nearest import nearest_first, shown
from steadyhead.visit.remedies import REMEDIES

#: Keys that hold several words.
LISTS = ("complaint.shown", "complaint.changed", "instruments.have")
#: Repairs that are offered, and how likely one must be.
MOST_OFFERED, OFFERED = 6, 0.01


def why(guide: Guide, rest: str) -> Turn:
    """Say what is known so far; of a suspect, how each reading moved it.

    Raises
    ------
    UnknownWordError
        There is no such suspect.
    """
    if rest:
        visit = guide.known.visit
        known, speaker = suspects_of(System(visit, guide.estimates, guide.memory)), speaker_of(visit, guide.manner)
        return Turn(guide=guide, said=(Show("reasons", about=suspect_named(rest, known, speaker)),))
    return Turn(guide=guide, said=(Show("known"),) if guide.answer else (message("guide-proof-why"),))


def back(guide: Guide, rest: str) -> Turn:  # noqa: ARG001 - every command takes what stands behind it
    """Take back the last answer, or correct the last reading where this sitting has none."""
    if guide.earlier:
        return keeping.taken_back(guide)
    count = len(guide.known.visit.readings)
    return fix(guide, str(count)) if count else Turn(guide=guide, said=(message("guide-nothing-back"),))


def fix(guide: Guide, rest: str) -> Turn:
    """Ask for another value of a reading, or take the one that was given with it.

    Raises
    ------
    InputError
        There is no such reading, or its value cannot be read.
    """
    if not rest:
        return Turn(guide=guide, said=(Show("readings"), message("guide-fix-how")))
    word, _, value = rest.partition(" ")
    count = len(guide.known.visit.readings)
    number = choice(word, count)
    if number is None:
        raise UnknownWordError(message("guide-fix-which", got=shown(rest), count=count))
    if value:
        return corrected(guide, number, value)
    reading = guide.known.visit.readings[number - 1]
    said = message("guide-asks-again", **keeping.reading_values(reading))
    return Turn(guide=replace(guide, asks=Again(number)), said=(said,))


def corrected(guide: Guide, number: int, line: str) -> Turn:
    """Keep another value of a reading.

    Raises
    ------
    InputError
        The value cannot be read.
    """
    measure = guide.known.visit.readings[number - 1].measure
    found = entry(line, measure, guide.known.visit)
    if found.kind == "cannot":
        return keeping.without_reading(guide, number)
    return keeping.with_other_value(guide, number, found.text)


def skip(guide: Guide, rest: str) -> Turn:
    """Pass over the check that is asked; with a number, go to that one of the list below it.

    Raises
    ------
    UnknownWordError
        There is no such check in the list.
    """
    take = guide.asks
    if not isinstance(take, Take):
        return Turn(guide=guide, said=(message("guide-nothing-to-skip"),))
    passed = replace(guide, left=guide.left | {take.check.question})
    if guide.answer is None:
        return Turn(guide=replace(passed, asks=Thinking()))
    if not rest:
        return ask_next(passed)
    others = [check for check in open_checks(guide) if check.question != take.check.question]
    number = choice(rest, len(others))
    if number is None:
        raise UnknownWordError(message("guide-skip-which", got=shown(rest), count=len(others)))
    chosen = others[number - 1]
    return Turn(guide=replace(guide, asks=Take(chosen)), said=(Show("check", told=guide.told),))


def prove(guide: Guide, rest: str) -> Turn:  # noqa: ARG001 - every command takes what stands behind it
    """Ask for the reading that would prove a best guess, whatever its minutes."""
    question = would_prove(guide)
    if question is None:
        return Turn(guide=guide, said=(message("guide-nothing-proves"),))
    return asked(guide, Take(plain_check(guide, question)), ())


def done(guide: Guide, rest: str) -> Turn:
    """Keep that a repair was made; ask which, where that is open.

    Raises
    ------
    UnknownWordError
        There is no such repair.
    """
    offers = guide.asks.remedies if isinstance(guide.asks, Choose) else _offers(guide)
    if rest:
        return keeping.with_action(guide, _remedy(rest, offers))
    if isinstance(guide.asks, Settled) and guide.answer and guide.answer.verdict.remedy != "none":
        return keeping.with_action(guide, guide.answer.verdict.remedy)
    said: tuple[Said, ...] = tuple(
        message("guide-repair-offered", number=number, remedy=remedy) for number, remedy in enumerate(offers, 1)
    )
    return Turn(guide=replace(guide, asks=Choose(offers)), said=(message("guide-which-repair"), *said))


def _offers(guide: Guide) -> tuple[str, ...]:
    """Return the repairs that are likely, most probable first; every one of the loop's where nothing was diagnosed."""
    likely = [r.remedy for r in guide.answer.remedies if r.probability > OFFERED] if guide.answer else []
    mends = [remedy for remedy in likely if remedy not in {"none", "look-further"}]
    return tuple(mends[:MOST_OFFERED]) or ("repair-cable", "replace-sensor", "correct-wiring", "correct-setting")


def _remedy(typed: str, offers: tuple[str, ...]) -> str:
    """Return the remedy that was typed: its number in the list, or its word.

    Raises
    ------
    UnknownWordError
        There is no such repair.
    """
    number = choice(typed, len(offers))
    if number is not None:
        return offers[number - 1]
    word = typed.lower().replace(" ", "-")
    known = tuple(dict.fromkeys((*offers, *REMEDIES)))
    if word in known:
        return word
    words, nearest = nearest_first(word, known)
    raise UnknownWordError(message("guide-no-repair", got=shown(typed), must_be=words[:5], nearest=nearest))


def fault_typed(guide: Guide, typed: str) -> str:
    """Return the fault of this system that was typed, by its id or its name; two are joined by ``+``.

    Raises
    ------
    UnknownWordError
        There is no such fault.
    """
    visit = guide.known.visit
    system = System(visit, guide.estimates, guide.memory)
    known = tuple(fault.id for fault in faults_of(system.wires, system.kind))
    speaker = speaker_of(visit, guide.manner)
    return "+".join(sorted(suspect_named(part, known, speaker) for part in typed.split("+")))


def closed(guide: Guide, fault: str) -> Turn:
    """Keep how the visit ended: what was at fault, proved since it reads right after the repair."""
    file = guide.known.with_value("closed", "fault", fault).with_value("closed", "proved", value=True)
    return keeping.kept(guide, file)


def set_key(guide: Guide, rest: str) -> Turn:
    """Put in what is known of the system: ``set sensor.range 0..150 psi``.

    Raises
    ------
    InputError
        There is no such key, or it cannot have that value.
    """
    path, _, value = rest.partition(" ")
    table, _, key = path.partition(".")
    if not key or not value:
        raise InputError(message("guide-set-how", got=shown(rest)))
    return keeping.kept(
        guide, guide.known.with_value(table, key, _plain(path, value)), message("guide-set", key=path, value=value)
    )


def _plain(path: str, value: str) -> str | bool | tuple[str, ...]:
    """Return a value as a file has it: a flag, a list of words, or text."""
    if path in LISTS:
        return tuple(word for word in value.replace(",", " ").split() if word)
    flags: dict[str, bool] = {"true": True, "yes": True, "false": False, "no": False}
    return flags.get(value.lower(), value)
