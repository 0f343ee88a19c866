"""What left-open does and says: for programs, and for people."""

from __future__ import annotations

from steadyhead.cli.exchange_work import LAST, Said, last_visit, record
from steadyhead.cli.manner import manner
from steadyhead.cli.page import paragraph
from steadyhead.diagnosis.left_open import left_open
from steadyhead.errors import NotFoundError, RecordError
from steadyhead.messages import message
from steadyhead.service.answer_json import message_json
from steadyhead.service.diagnosis import speaker_of
from steadyhead.service.record.pages import visit_page
from steadyhead.service.record.visits import count_former
from steadyhead.visit.kinds_of_belief import texts_of
from steadyhead.visit.record import Visit

REGION = "north-america"


def left_open_said(visit: str, data: str | None, columns: int, *, leave_out: bool, count: bool) -> Said:
    """Say what the visit before left open at a visit's system, after that was left out or let count again.

    Raises
    ------
    NotFoundError
        There is no such visit, or its system's visit before left nothing open.
    RecordError
        Both are wanted at once.
    """
    if leave_out and count:
        raise RecordError(message("kept-left-open-both"))
    with record(data) as given:
        visit = last_visit(given) if visit == LAST else visit
        if not left_open(visit_page(given, visit).visit):
            raise NotFoundError(message("kept-left-open-none", got=visit))
        if leave_out or count:
            count_former(given, visit, counts=count)
        found = visit_page(given, visit).visit
    return _told(visit, found, columns)


def _told(id_: str, visit: Visit, columns: int) -> Said:
    speaker, says, former = speaker_of(visit, manner(REGION)), left_open(visit), visit.former
    lines = [line for each in says for line in paragraph(speaker.say(each), columns)]
    found = {
        "schema": 1, "visit": id_, "ended": former.ended, "believed": texts_of(former.believed),
        "mended": list(former.mended), "counts": former.counts, "says": [message_json(each, speaker) for each in says],
    }  # fmt: skip
    return found, lines
