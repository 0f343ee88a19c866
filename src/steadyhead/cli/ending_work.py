"""What follow-ups and end do and say: for programs, and for people."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import asdict, dataclass, field
from typing import Any

from steadyhead.cli.exchange_work import LAST, last_visit, record
from steadyhead.cli.manner import usual_speaker
from steadyhead.cli.page import paragraph
from steadyhead.diagnosis.diagnose import diagnose
from steadyhead.service.after_repair import reads_right
from steadyhead.service.record.ending import COMES_BACK, WATCHING, Ending, end_with
from steadyhead.service.record.follow_ups import Waits, day_after, what_waits
from steadyhead.service.record.given import Given
from steadyhead.service.record.left_open import believed_of
from steadyhead.service.record.pages import visit_page
from steadyhead.service.record.times import judging_by
from steadyhead.service.record.visits import end_visit
from steadyhead.visit.fact_kinds import OPEN
from steadyhead.words.due import when
from steadyhead.words.saying import sentence


@dataclass(frozen=True, slots=True, kw_only=True)
class Said:
    """What the command was given."""

    visit: str
    state: str
    fault: str = ""
    due: str = ""
    night: Mapping[str, str] = field(default_factory=dict)
    says: Mapping[str, Any] = field(default_factory=dict)


def follow_ups_said(data: str | None, columns: int) -> tuple[dict[str, Any], list[str]]:
    """List what comes back.

    Raises
    ------
    StoreError
        The record cannot be opened.
    """
    with record(data) as given:
        found = what_waits(given)
    lines = [line for each in found for line in _lines(each, columns)]
    none = [usual_speaker().tell("follow-up-none")]
    return {"schema": 1, "follow_ups": [_json(each) for each in found]}, lines or none


def _json(each: Waits) -> dict[str, Any]:
    return {**asdict(each.pending), "name": each.name, "days": each.days, "overdue": each.overdue}


def _lines(each: Waits, columns: int) -> list[str]:
    speaker, told = usual_speaker(), each.pending
    name = each.name or speaker.tell("web-nameless")
    head = speaker.tell("ending-line", key=sentence(speaker.name("follow-up", told.kind)), text=name)
    beside = "; ".join(part for part in (when(told.due, each.days, speaker), told.what, told.visit) if part)
    return [head, *paragraph(beside, columns, "  ", "  ")]


def ended(asked: Said, data: str | None, columns: int) -> tuple[dict[str, Any], list[str]]:
    """Keep how a visit ended.

    Raises
    ------
    NotFoundError
        There is no such visit.
    InputError
        Something is lacking, or is no word of its list.
    """
    with record(data) as given:
        visit = last_visit(given) if asked.visit == LAST else asked.visit
        if asked.state == OPEN:
            end_visit(given, visit, OPEN)
        else:
            end_with(given, visit, _ending(given, visit, asked))
        waits = what_waits(given, visit)
        state = visit_page(given, visit).state
    speaker = usual_speaker()
    lines = paragraph(speaker.tell("ending-kept", visit=visit, state=state), columns)
    lines += [line for each in waits for line in _lines(each, columns)]
    return {"schema": 1, "visit": visit, "state": state, "follow_ups": [_json(each) for each in waits]}, lines


def _ending(given: Given, visit: str, asked: Said) -> Ending:
    """Return the ending that was asked; where nobody says when it comes back, on the usual day."""
    _, days = COMES_BACK.get(asked.state, ("", 0))
    due = asked.due or (day_after(given, days) if days else "")
    proved = bool(asked.fault) and reads_right(visit_page(given, visit).visit)
    believed = {"believed": _believed(given, visit)} if asked.state == WATCHING else {}
    return Ending(
        state=asked.state, says={**asked.says, **believed}, fault=asked.fault, proved=proved, due=due, night=asked.night
    )


def _believed(given: Given, visit: str) -> list[str]:
    """Return what is suspected now: the system's next visit begins with it."""
    seen = visit_page(given, visit)
    return [] if seen.assumed else believed_of(diagnose(seen.visit, judging_by(given).estimates))
