"""When a diagnosis is settled, and when it is proved.

Rules
-----
1. Settled means that no check left is worth its minutes.
2. Proved means that, on top of that, meter readings have told the remedy from every other one that is not yet below
   one in a hundred, or was not before the meter was used: their odds have fallen tenfold by the meter, to below one in
   twenty.
3. Nothing is proved by display, gauge and looks alone, and no part that costs money without a reading that convicts it.
4. What does the best remedy and more besides is no rival of it: that the repair is needed stands as firmly; what may be
   at fault beside it is told apart (`steadyhead.diagnosis.besides`), and where that is likelier than one in three the
   first repair is a guess.
5. A reading that nothing explains proves nothing. Nothing is proved while a meter's reading is so, unless it was taken
   again and the second one is explained, nor where half of all readings are so.
6. A complaint proves nothing: proof is judged as if nothing had been said; and what was said must leave it as sure.
7. That it is none of these is proved by no reading: something else must be found first.
8. No part that costs money is proved while one wrong meter, which nobody proved, would explain all readings
   (`steadyhead.diagnosis.meter_doubt`): the check that takes this doubt away comes first.
9. No path between wires is proved by what the loop shows with its sensor in it: whatever a leak does to the signal, a
   sensor may do from within. A reading with the sensor out of the loop is needed (plug off, wires lifted, a spare, a
   lead on the floor, ohms).
10. No contact that comes and goes is proved by figures that jump at the panel alone: an overloaded supply that starts
   again and again jumps too. The display must have jumped as cable and plug were moved, or a figure at the sensor.
11. No remedy is proved whose faults explain a figure badly: the real one may be one that was not thought of.
12. Anything else that is settled is a best guess, and says which reading would prove it.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from steadyhead.diagnosis.answer import Verdict
from steadyhead.diagnosis.belief import Weighed
from steadyhead.diagnosis.checks import leads_at_sensor
from steadyhead.diagnosis.clamped import as_shown
from steadyhead.diagnosis.doubt import compared
from steadyhead.diagnosis.looking import look
from steadyhead.diagnosis.observing import Observation, Question
from steadyhead.diagnosis.pairs import covers
from steadyhead.diagnosis.priors import costs_money
from steadyhead.diagnosis.system import System
from steadyhead.errors import CircuitError
from steadyhead.loop.vocabulary import METER_MEASURES
from steadyhead.loop.wiring import has_own_sensor
from steadyhead.messages import Message, message

#: A remedy above this share is a rival; how far its odds must have fallen; how sure the best must be.
RIVAL, FALLEN, SURE, SURE_OF_A_PART = 0.01, 10.0, 0.85, 0.93
#: No remedy that is as likely as this is told from the best one.
NOT_TOLD = 0.05

#: A figure that lies further off [deviations] than this, by what all others say of the best remedy's faults, proves
#: none of them: one sound proof in twenty has such a figure, a false one nearly always.
FAR_OFF = 1.95

#: Faults that are a path between wires.
PATHS = ("leakage-", "short-")
#: How likely it must be that nothing more than the best remedy is needed.
ALONE = 2.0 / 3.0


def metered(observations: Sequence[Observation]) -> list[Observation]:
    """Return the readings that a meter made."""
    return [o for o in observations if o.question.measure in METER_MEASURES]


def proved(now: Mapping[str, float], before: Mapping[str, float], best: str) -> bool:
    """Tell whether meter readings told the best remedy from its rivals.

    Parameters
    ----------
    now, before
        Share of each remedy with all readings, and without those of the meter.
    best
        The remedy in question.
    """
    if best == "look-further" or not sure(now, best):
        return False
    rivals = {r for shares in (now, before) for r, p in shares.items() if p > RIVAL and not covers(r, best)}
    if not rivals or any(now.get(r, 0.0) > NOT_TOLD for r in rivals):
        return False
    base = max(before.get(best, 0.0), 1e-9)
    return all(
        now.get(r, 0.0) / now[best] * FALLEN <= max(before.get(r, 0.0), 1e-12) / base or now.get(r, 0.0) < RIVAL
        for r in rivals
    )


def sure(now: Mapping[str, float], best: str) -> bool:
    """Tell whether a remedy is as likely as a proof needs, and as likely that nothing more is needed."""
    needed = sum(p for r, p in now.items() if covers(r, best))
    return now[best] >= ALONE and needed >= (SURE_OF_A_PART if costs_money(best) else SURE)


def sensor_could_do_it(held: Sequence[Weighed], observations: Sequence[Observation], best: str) -> bool:
    """Tell whether the best remedy mends a path between wires that was read with the sensor in the loop only."""
    if any(not has_own_sensor(o.stance.arrangement) for o in metered(observations)):
        return False
    whole = sum(w.share for w in held if w.cell.remedy == best)
    paths = sum(w.share for w in held if w.cell.remedy == best and any(p.fault.startswith(PATHS) for p in w.cell.parts))
    return paths > 0.5 * whole


def seen_nowhere(held: Sequence[Weighed], observations: Sequence[Observation], best: str) -> bool:
    """Tell whether the best remedy mends what comes and goes, and nobody saw where it does."""
    for o in observations:
        if o.question.item == "wiggle" and o.word == "wrong":
            return False
        if o.jumping and o.question.measure in METER_MEASURES and leads_at_sensor(o.question):
            return False
    whole = sum(w.share for w in held if w.cell.remedy == best)
    return sum(w.share for w in held if w.cell.remedy == best and w.cell.comes_and_goes) > 0.5 * whole


def explained_badly(held: Sequence[Weighed], best: str) -> bool:
    """Tell whether the faults that the best remedy mends leave a figure far off."""
    those = [w for w in held if w.cell.remedy == best]
    off: dict[int, float] = {}
    for w in those:
        for number, misfit in w.misfits:
            off[number] = off.get(number, 0.0) + w.share * misfit
    return max(off.values(), default=0.0) > FAR_OFF * sum(w.share for w in those)


def contradicted(observations: Sequence[Observation], surprising: frozenset[int]) -> bool:
    """Tell whether a meter's reading is left that nothing explains, and that no second one has set right."""
    read = metered(observations)
    explained = {(o.stance, o.question) for o in read if o.number not in surprising}
    return any((o.stance, o.question) not in explained for o in read if o.number in surprising)


def verdict(
    system: System,
    observations: Sequence[Observation],
    shares: tuple[Mapping[str, float], Mapping[str, float], Mapping[str, float]],
    weighed: tuple[Sequence[Weighed], Sequence[Weighed]],
    *,
    best: str,
    settled: bool,
    telling: Question | None,
    surprising: frozenset[int],
) -> Verdict:
    """Return the verdict.

    `shares` are the remedies' with all readings, and without the meter's, both as if nothing had been said, and those
    with all that was read and said; `weighed` the cells with all readings, and without the meter's; `best` is the
    remedy that is likeliest with what was said; `telling` is the meter reading that would tell most, whatever its
    minutes; `surprising` are the readings that nothing explains.
    """
    now, before, said = shares
    if not settled:
        return Verdict(state="open", settled=False, remedy=best, because=message("more-to-learn", remedy=best))
    readings = [o for o in metered(observations) if o.number not in surprising]
    off = contradicted(observations, surprising)
    if not readings or off or 2 * len(surprising) >= len(observations) or not (
        proved(now, before, best)
        and sure(said, best)
        and not sensor_could_do_it(weighed[0], readings, best)
        and not seen_nowhere(weighed[0], observations, best)
        and not explained_badly(weighed[0], best)
    ):
        return Verdict(state="best-guess", settled=True, remedy=best, because=_not_proved(best, telling))
    beside = [o for o in observations if o.shared and o.number not in surprising and best == "replace-gauge"]
    told = beside or readings
    return Verdict(state="proved", settled=True, remedy=best, because=_because(system, told, weighed[1], best))


def unproved_meter(best: str, *, settled: bool) -> Verdict:
    """Return the verdict where one wrong meter would explain all; `settled` where no check can take that away."""
    told = message("meter-would-explain", remedy=best)
    return Verdict(state="best-guess" if settled else "open", settled=settled, remedy=best, because=told)


def _not_proved(best: str, telling: Question | None) -> Message:
    """Return why it is a guess, with the reading that would prove it where there is one."""
    if telling is None:
        return message("no-check-worth-it", remedy=best)
    return message(
        "reading-would-prove", remedy=best, measure=telling.measure, red=telling.red, black=telling.black,
        arrangement=telling.arrangement,
    )  # fmt: skip


def _because(system: System, readings: Sequence[Observation], rivals: Sequence[Weighed], best: str) -> Message:
    """Return the reading that the rivals would have made differently; a gauge is convicted by the one beside it."""
    scores: dict[int, float] = {}
    others = [w for w in rivals if w.cell.remedy != best][:12]
    for o in readings:
        off = 0.0
        for w in others:
            try:
                value = look(system, w.cell, w.at, o.stance, (o.question,)).values[0]
            except CircuitError:
                continue
            value = as_shown(system, o.question.measure, value)
            off += w.share * min(abs(compared(o.question.measure, value) - o.value) / o.sd, 30.0)
        scores[o.number] = off
    number = max(scores, key=lambda n: (scores[n], -n))
    told = next(o for o in readings if o.number == number)
    return message(
        "reading-convicts", reading=number, remedy=best, measure=told.question.named,
        red=told.question.red, black=told.question.black, arrangement=told.question.arrangement,
    )  # fmt: skip
