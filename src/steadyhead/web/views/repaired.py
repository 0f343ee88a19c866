"""What was mended, and what must be right now: each reading with its band, ticked once it lies there."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from steadyhead.service.after_repair import GAUGE, Stands, since_repair
from steadyhead.service.check_words import proof_band, question_text
from steadyhead.service.record.views import Beside, VisitSeen
from steadyhead.visit.fact_kinds import MENDED_AT
from steadyhead.visit.remedies import REMEDIES
from steadyhead.web.questions import key_of
from steadyhead.web.views.known import value_text
from steadyhead.words import Speaker
from steadyhead.words.saying import sentence


@dataclass(frozen=True, slots=True, kw_only=True)
class RepairLine:
    """A repair of the list: what was done, what is said of it, and what became of it."""

    id: str
    done: str
    told: str
    state: str


@dataclass(frozen=True, slots=True, kw_only=True)
class MustView:
    """One reading that must be right: its key, what it is, where it must lie, what it showed, how it stands."""

    check: str
    what: str
    band: str
    value: str
    state: str
    says: str


@dataclass(frozen=True, slots=True, kw_only=True)
class RepairedView:
    """The repairs of a visit, and what must be right after the last of them."""

    repairs: Sequence[RepairLine]
    must: Sequence[MustView]
    last: str
    wrong: bool


def repaired_view(seen: VisitSeen, speaker: Speaker) -> RepairedView | None:
    """Return what was mended; None where nothing was."""
    if not seen.actions:
        return None
    must = [_must(each, seen, speaker) for each in since_repair(seen.visit)]
    counted = [each for each in seen.actions if not each.body.get("came_back") and not each.body.get("withdrawn")]
    return RepairedView(
        repairs=[_line(each, speaker) for each in seen.actions],
        must=must,
        last=counted[-1].id if counted else "",
        wrong=any(each.state == "wrong" for each in must),
    )


def _line(each: Beside, speaker: Speaker) -> RepairLine:
    body = each.body
    parts = [str(part.get("part") or part.get("serial") or part.get("old")) for part in body.get("parts") or ()]
    told = [place_text(str(body.get("place", "")), speaker), str(body.get("done", "")), *parts]
    state = next((key for key in ("withdrawn", "came_back") if body.get(key)), "")
    return RepairLine(
        id=each.id,
        done=done_text(str(body.get("remedy", "")), speaker),
        told="; ".join(speaker.printable(text) for text in told if text),
        state=speaker.name("repair-state", state) if state else "",
    )


def done_text(remedy: str, speaker: Speaker) -> str:
    """Return what was done, as far as this version knows its word."""
    return sentence(speaker.name("done", remedy)) if remedy in REMEDIES else speaker.printable(remedy)


def place_text(place: str, speaker: Speaker) -> str:
    """Return where it was done: by its word, or as it was written."""
    return speaker.name("mended-at", place) if place in MENDED_AT else place


def _must(each: Stands, seen: VisitSeen, speaker: Speaker) -> MustView:
    band = proof_band(each.proof, seen.visit.pressure_unit, speaker)
    usual = speaker.tell("repair-gauge-holds" if each.proof.question == GAUGE else "repair-agrees")
    return MustView(
        check=key_of(each.proof.question),
        what=sentence(question_text(each.proof.question, speaker)),
        band=band or usual,
        value=value_text(each.reading, speaker) if each.reading is not None else "",
        state=each.state,
        says=speaker.name("proof-state", each.state),
    )
