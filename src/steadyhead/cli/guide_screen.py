"""What the guide says, set on a terminal: sentences, the check in its frame, what is known, the verdict, the readings.

Rules
-----
1. One check stands on the screen, with the two next best to skip to; the suspects are shown when they are asked for.
2. The prompt says what is expected and in which unit.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable

from steadyhead.cli.after_screen import after_lines
from steadyhead.cli.check_box import MOST_OTHERS, Beside, check_frame, checks_listed
from steadyhead.cli.diagnose_screen import before_mending, known_lines, surprise_lines, verdict_lines
from steadyhead.cli.page import paragraph
from steadyhead.cli.why_screen import why_screen
from steadyhead.messages import Message
from steadyhead.service.after_repair import GAUGE, Proof
from steadyhead.service.check_words import healthy_of, proof_band
from steadyhead.service.diagnosis import speaker_of
from steadyhead.service.guide.entries import unit_asked
from steadyhead.service.guide.keeping import reading_values
from steadyhead.service.guide.opening import offered
from steadyhead.service.guide.state import Again, Guide, Said, Show, Take
from steadyhead.service.guide.thinking import open_checks
from steadyhead.service.why import why
from steadyhead.words import Speaker


def said_lines(guide: Guide, said: Iterable[Said], wide: int) -> list[str]:
    """Return what a turn says, none of its lines longer than `wide`."""
    speaker = speaker_for(guide)
    lines: list[str] = []
    for each in said:
        lines += _message(each, speaker, wide) if isinstance(each, Message) else _SHOWN[each.what](guide, each, wide)
    return lines


def speaker_for(guide: Guide) -> Speaker:
    """Return who speaks: with the file's own labels once there is a file."""
    return speaker_of(guide.known.visit, guide.manner) if guide.file else guide.manner.speaker()


def prompt(guide: Guide) -> str:
    """Return what stands before the place where the answer is typed."""
    measure = _measure(guide)
    unit = unit_asked(measure, guide.known.visit) if measure else ""
    if measure == "inspection":
        unit = " / ".join(speaker_for(guide).name("found", word) for word in ("right", "wrong", "not-seen"))
    return f"{unit} > " if unit else "> "


def _measure(guide: Guide) -> str:
    if isinstance(guide.asks, Take):
        return guide.asks.check.question.measure
    if isinstance(guide.asks, Again):
        return guide.known.visit.readings[guide.asks.number - 1].measure
    return ""


def _message(said: Message, speaker: Speaker, wide: int) -> list[str]:
    lines = paragraph(speaker.say(said), wide)
    return [*lines, *(f"  {signal}" for signal in offered())] if said.id == "guide-asks-signal" else lines


# ------------------------------------------------------------ blocks


def _check(guide: Guide, shown: Show, wide: int) -> list[str]:
    take = guide.asks
    if not isinstance(take, Take):
        return []
    speaker = speaker_for(guide)
    question, proof = take.check.question, take.proof
    healthy = _must(proof, guide, speaker) if proof else healthy_of(guide.answer, question, speaker)
    frame = check_frame(take.check, guide.known.visit, speaker, wide, Beside(healthy, shown.told))
    others = [check for check in open_checks(guide) if check.question != question][:MOST_OTHERS]
    listed = checks_listed(others, speaker, wide, numbered=True)
    return ["", *frame, *([speaker.tell("guide-pass-over"), *listed] if listed and not take.proof else [])]


def _must(proof: Proof, guide: Guide, speaker: Speaker) -> str:
    """Return what a reading must be after a repair."""
    if proof.question == GAUGE:
        return speaker.tell("guide-must-hold")
    text = proof_band(proof, guide.known.visit.pressure_unit, speaker)
    return speaker.tell("guide-must-read", band=text) if text else speaker.tell("guide-must-agree")


def _known(guide: Guide, _: Show, wide: int) -> list[str]:
    if guide.answer is None:
        return []
    speaker, visit, answer = speaker_for(guide), guide.known.visit, guide.answer
    return ["", *known_lines(answer, speaker, wide), *surprise_lines(visit, answer, speaker, wide)]


def _verdict(guide: Guide, _: Show, wide: int) -> list[str]:
    if guide.answer is None:
        return []
    speaker, visit, answer = speaker_for(guide), guide.known.visit, guide.answer
    mends = answer.verdict.remedy not in {"none", "look-further"}
    return [
        "",
        *known_lines(answer, speaker, wide),
        *surprise_lines(visit, answer, speaker, wide),
        "",
        *verdict_lines(visit, answer, speaker, wide),
        *(["", *before_mending(visit, answer, speaker, wide)] if mends else []),
        *_after(guide, speaker, wide),
        "",
        *paragraph(speaker.tell("guide-settled-next") if mends else speaker.tell("guide-nothing-more"), wide),
    ]


def _after(guide: Guide, speaker: Speaker, wide: int) -> list[str]:
    lines = after_lines(guide.known.visit, guide.answer, speaker, wide) if guide.answer else []
    return ["", *lines] if lines else []


def _reasons(guide: Guide, shown: Show, wide: int) -> list[str]:
    speaker, visit = speaker_for(guide), guide.known.visit
    found = why(visit, shown.about, speaker, guide.estimates, memory=guide.memory)
    return ["", *why_screen(visit, found, speaker, wide)]


def _readings(guide: Guide, _: Show, wide: int) -> list[str]:
    speaker, visit = speaker_for(guide), guide.known.visit
    actions = {a.after_reading: a.remedy for a in visit.actions}
    lines: list[str] = []
    for number in range(len(visit.readings) + 1):
        if number:
            values = reading_values(visit.readings[number - 1])
            lines += paragraph(speaker.tell("guide-list-reading", **values), wide, "  ", "     ")
        if number in actions:
            lines += paragraph(speaker.tell("guide-list-action", after=number, remedy=actions[number]), wide, "  ")
    for d in visit.declined:
        values = {"measure": d.named, "red": d.red, "black": d.black, "item": d.item}
        said = speaker.tell("guide-list-declined", arrangement=d.arrangement, **values)
        lines += paragraph(f"{said} ({speaker.printable(d.why)})" if d.why else said, wide, "  ", "     ")
    head = speaker.tell("guide-list-head") if lines else speaker.tell("guide-list-none")
    return ["", head, *lines]


HELP = (
    ("2.41", "guide-help-figure"),
    ("2 to 3 jumping", "guide-help-jumping"),
    ("OL, pegged", "guide-help-ends"),
    ("right, wrong, not seen", "guide-help-look"),
    ("can't, can't REASON", "guide-help-cannot"),
    ("why", "guide-help-why"),
    ("why FAULT", "guide-help-reasons"),
    ("skip, skip N", "guide-help-skip"),
    ("back", "guide-help-back"),
    ("fix N", "guide-help-fix"),
    ("list", "guide-help-list"),
    ("prove", "guide-help-prove"),
    ("done", "guide-help-done"),
    ("set KEY VALUE", "guide-help-set"),
    ("cautions", "guide-help-cautions"),
    ("quit", "guide-help-quit"),
)


def _help(guide: Guide, _: Show, wide: int) -> list[str]:
    speaker = speaker_for(guide)
    broad = max(len(word) for word, _ in HELP)
    return ["", *(line for word, id_ in HELP for line in paragraph(speaker.tell(id_), wide, f"  {word:<{broad}}  "))]


_SHOWN: dict[str, Callable[[Guide, Show, int], list[str]]] = {
    "check": _check,
    "known": _known,
    "verdict": _verdict,
    "readings": _readings,
    "reasons": _reasons,
    "help": _help,
}
