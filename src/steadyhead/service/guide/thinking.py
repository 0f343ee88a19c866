"""What is asked next: the diagnosis of the file as it stands, and the check that follows from it.

Rules
-----
1. After a repair what must read right is asked first, gauge before the rest; where all of it is right, that is the end.
2. Before a cover comes off, gauge and display are read: every expected figure hangs on the one, and the other costs
   nothing. Without a gauge reading the gauge is asked for later too.
3. Then the check that saves most minutes and was not passed over; once all were passed over they come again.
4. A check whose odd figure was confirmed is not asked again.
"""

from __future__ import annotations

from dataclasses import replace

from steadyhead.diagnosis.answer import Answer, NextCheck
from steadyhead.diagnosis.cautions import cautions, drive_state, how
from steadyhead.diagnosis.checks import candidates, minutes, standing
from steadyhead.diagnosis.course import ruled_out
from steadyhead.diagnosis.diagnose import diagnose
from steadyhead.diagnosis.observing import Question
from steadyhead.diagnosis.system import System
from steadyhead.loop.vocabulary import METER_MEASURES
from steadyhead.messages import Message, message
from steadyhead.service.after_repair import DISPLAY, GAUGE, missing, reads_right
from steadyhead.service.guide.state import Close, Guide, Said, Settled, Show, Take, Turn

MOST_NAMED = 4
#: A fault that was less likely than this before the repair is not offered as what was at fault.
LIKELY = 0.2


def think(guide: Guide) -> Turn:
    """Return the guide with the diagnosis of its file, and what is asked next."""
    proofs = [p for p in missing(guide.known.visit) if p.question not in guide.left]
    if proofs:
        return asked(guide, Take(plain_check(guide, proofs[0].question), proofs[0]), ())
    if reads_right(guide.known.visit):
        return _mended(replace(guide, asks=Settled(), answer=None, before=None))
    answer = diagnose(guide.known.visit, guide.estimates, guide.memory)
    said = tuple(_ruled_out(guide.before, answer))
    return ask_next(replace(guide, answer=answer, before=None), said)


def _mended(guide: Guide) -> Turn:
    """Return the good word, and whether the visit may be closed as what was likeliest before the repair."""
    already = guide.known.visit.closed.fault
    if already is not None:
        return Turn(guide=guide, said=(message("guide-closed", fault=already),))
    fault = _was_at_fault(guide)
    if not fault:
        return Turn(guide=guide, said=(message("guide-mended"),))
    said = (message("guide-mended"), message("guide-asks-close", fault=fault))
    return Turn(guide=replace(guide, asks=Close(fault)), said=said)


def _was_at_fault(guide: Guide) -> str:
    """Return the likeliest fault, before the last repair, that this repair mends; empty where none was likely."""
    visit = guide.known.visit
    last = max(visit.actions, key=lambda action: action.after_reading)
    earlier = tuple(action for action in visit.actions if action.after_reading < last.after_reading)
    then = replace(visit, readings=visit.readings[: last.after_reading], actions=earlier)
    suspects = diagnose(then, guide.estimates, guide.memory).suspects
    return next((s.fault for s in suspects if s.remedy == last.remedy and s.probability > LIKELY), "")


def ask_next(guide: Guide, said: tuple[Said, ...] = ()) -> Turn:
    """Return the guide asking for the best check that was not passed over."""
    first = _covers_on_first(guide)
    if first is not None:
        return asked(guide, Take(first), said)
    checks = open_checks(guide)
    if checks:
        return asked(guide, Take(checks[0]), said)
    fresh = replace(guide, left=frozenset())
    if guide.left and (open_checks(fresh) or _covers_on_first(fresh)):
        return ask_next(fresh, (*said, message("guide-all-skipped")))
    settled = replace(guide, asks=Settled())
    more = (message("guide-prove-it"),) if would_prove(settled) else ()
    return Turn(guide=settled, said=(*said, Show("verdict"), *more))


def would_prove(guide: Guide) -> Question | None:
    """Return the reading that would prove a best guess, None where it is no guess or nothing would."""
    if guide.answer is None or guide.answer.verdict.because.id != "reading-would-prove":
        return None
    told = guide.answer.verdict.because.values
    red, black = (None if told[lead] is None else str(told[lead]) for lead in ("red", "black"))
    return Question(str(told["measure"]), str(told["arrangement"]), red, black)


def open_checks(guide: Guide) -> list[NextCheck]:
    """Return the checks that are worth their minutes, were not passed over and have no confirmed figure."""
    found = guide.answer.next_checks if guide.answer else ()
    return [check for check in found if check.question not in guide.left | guide.trusted]


def asked(guide: Guide, take: Take, said: tuple[Said, ...]) -> Turn:
    """Return the guide asking for a reading, its cautions told in full once a visit."""
    ids = {told.id for told in take.check.cautions}
    held = replace(guide, asks=take, told=guide.told | ids)
    return Turn(guide=held, said=(*said, *_once_more(guide, take), Show("check", told=guide.told)))


def _once_more(guide: Guide, take: Take) -> list[Message]:
    """Return why a check is asked that has its reading already: nothing explains that."""
    surprises = {s.reading for s in guide.answer.surprises} if guide.answer else set()
    odd = [r for r in guide.known.visit.readings if r.number in surprises]
    same = [r for r in odd if (r.measure, r.red, r.black, r.arrangement, r.item) == _key(take.check.question)]
    return [message("guide-take-again", number=r.number) for r in same[-1:]]


def _key(q: Question) -> tuple[str | None, ...]:
    return q.measure, q.red, q.black, q.arrangement, q.item


def _covers_on_first(guide: Guide) -> NextCheck | None:
    """Return the check of gauge or display, where it is still to be made and comes before the others."""
    visit = guide.known.visit
    opened = any(reading.measure in METER_MEASURES for reading in visit.readings)
    wanted = set(candidates(System(visit, guide.estimates), frozenset())) - guide.left - guide.trusted
    first = next((q for q in ((GAUGE,) if opened else (GAUGE, DISPLAY)) if q in wanted), None)
    if first is None:
        return None
    planned = guide.answer.next_checks if guide.answer else ()
    return next((check for check in planned if check.question == first), None) or plain_check(guide, first)


def plain_check(guide: Guide, question: Question) -> NextCheck:
    """Return a check that is asked whatever it saves."""
    system = System(guide.known.visit, guide.estimates)
    return NextCheck(
        question=question, drive=drive_state(question), saves_minutes=0.0, outcomes=(), while_there=(),
        minutes=minutes(system, question, standing(guide.known.visit)),
        cautions=cautions(system, question), how=how(system, question),
    )  # fmt: skip


def _ruled_out(before: Answer | None, now: Answer) -> list[Message]:
    """Return what the last answer has ruled out, the likeliest first."""
    if before is None:
        return []
    gone = ruled_out(*({s.fault: s.probability for s in answer.suspects} for answer in (before, now)))
    if not gone:
        return []
    if len(gone) > MOST_NAMED:
        return [message("guide-rules-out-more", faults=gone[:MOST_NAMED], count=len(gone) - MOST_NAMED)]
    return [message("guide-rules-out", faults=gone)]
