"""From a visit to an answer: belief, plan, verdict, and what goes with them."""

from __future__ import annotations

import gc
from collections.abc import Iterable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import dataclass

from steadyhead.diagnosis import checks, meter_doubt
from steadyhead.diagnosis.answer import Answer, NextCheck, Outcome, Remedy, Surprise, Suspect
from steadyhead.diagnosis.answer_text import DIAGNOSIS
from steadyhead.diagnosis.belief import Weighed
from steadyhead.diagnosis.besides import besides
from steadyhead.diagnosis.cautions import cautions, drive_state, how
from steadyhead.diagnosis.cells import BY_ID, SIZES, Cell
from steadyhead.diagnosis.complaint import told
from steadyhead.diagnosis.estimates import SHIPPED, Estimates
from steadyhead.diagnosis.expected import table
from steadyhead.diagnosis.left_open import left_open
from steadyhead.diagnosis.makes import Latents
from steadyhead.diagnosis.memory import Memory
from steadyhead.diagnosis.observing import Observation, Pressure, Question, no_gauge, observations
from steadyhead.diagnosis.opening import opened_belief
from steadyhead.diagnosis.outcomes import outcomes
from steadyhead.diagnosis.pairs import root_of
from steadyhead.diagnosis.planning import Plan, Planner
from steadyhead.diagnosis.purposes import purpose
from steadyhead.diagnosis.system import System
from steadyhead.diagnosis.taken_again import with_taken_again
from steadyhead.diagnosis.verdict import unproved_meter, verdict
from steadyhead.loop.faults import place_word
from steadyhead.messages import message
from steadyhead.visit.record import Visit

#: Checks that carry their outcomes.
WITH_OUTCOMES = 5
#: Faults whose size tells a person something; elsewhere it only chooses a variant.
TOLD_SIZES = (
    "resistive-", "leakage-", "short-", "sensor-shorted", "sensor-zero-shift", "sensor-span-shift", "sensor-wet-vent",
    "controller-supply-low", "controller-input-shifted", "setting-range", "setting-offset", "site-gauge-wrong",
)  # fmt: skip
#: A reading this many deviations from what the rest says, under every suspect that counts, is a surprise.
SURPRISING = 4.5


@dataclass(frozen=True, slots=True, kw_only=True)
class Diagnosed:
    """An answer with all that led to it, for whoever wants to follow its steps (`steadyhead.diagnosis.trace`)."""

    answer: Answer
    system: System
    seen: Sequence[Observation]
    suspected: Sequence[Cell]
    weighed: Sequence[Weighed]
    planner: Planner
    plans: Sequence[Plan]


def diagnose(visit: Visit, estimates: Estimates = SHIPPED, memory: Memory | None = None) -> Answer:
    """Return suspects, verdict and next checks for a visit.

    Parameters
    ----------
    visit
        What is known and what was read.
    estimates
        How often faults are met, what checks and repairs take.
    memory
        What was worked out for this visit before; the next answer takes a part of the time.

    Returns
    -------
    Answer
        The same visit and estimates give the same answer, always, with a memory or without.
    """
    known = Memory() if memory is None else memory
    return known.answer(visit, estimates, DIAGNOSIS, lambda: diagnosed(visit, estimates, known).answer)


def diagnosed(visit: Visit, estimates: Estimates = SHIPPED, memory: Memory | None = None) -> Diagnosed:
    """Return the answer with what led to it."""
    with _undisturbed():
        return _diagnosed(visit, estimates, memory)


@contextmanager
def _undisturbed() -> Iterator[None]:
    """Keep Python's search for rings of values away: none are made here, and looking through all takes a seventh.

    What was made here counts as old when it comes back, or it would be looked through then, which takes a twelfth.
    """
    searched = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if searched:
            gc.freeze()
            gc.unfreeze()
            gc.enable()


def _diagnosed(visit: Visit, estimates: Estimates, memory: Memory | None) -> Diagnosed:
    system = System(visit, estimates, Memory() if memory is None else memory)
    seen = observations(system)
    belief, suspected = opened_belief(system, seen)
    weighed = belief.after
    surprises = _surprises(system, seen, weighed)
    pressure = _last_pressure(system, seen)
    planner = Planner(system, weighed, pressure)
    doubtful = frozenset(s.reading for s in surprises)
    wanted = checks.candidates(system, doubtful)
    here = checks.standing(visit)
    now = _by_remedy(weighed)
    best = max(now, key=lambda r: (now[r], r))
    acted_after = checks.acted_after(visit)
    unexplained = frozenset(o.question for o in seen if o.number in doubtful and o.number > acted_after)
    again = [q for q in wanted if q in unexplained]
    plans = with_taken_again(system, planner.plans(wanted, here), again, here, best)
    judged = verdict(
        system, seen, (_by_remedy(weighed, said=False), _by_remedy(belief.before, said=False), now),
        (weighed, belief.before),
        best=best, settled=not plans, telling=planner.most_telling(), surprising=doubtful,
    )  # fmt: skip
    if judged.state == "proved" and meter_doubt.doubtful(system, seen, best):
        plans = meter_doubt.proofs(system, wanted, here, best)
        judged = unproved_meter(best, settled=not plans)
    suspects = _suspects(weighed, suspected)
    answer = Answer(
        suspects=suspects,
        remedies=tuple(
            Remedy(remedy=r, probability=p, cost_minutes=estimates.cost(r))
            for r, p in sorted(now.items(), key=lambda item: (-item[1], item[0]))
        ),
        verdict=judged,
        next_checks=tuple(_check(system, planner, plan, k, unexplained) for k, plan in enumerate(plans)),
        surprises=surprises,
        expected=table(system, pressure) if pressure.known == "gauge" else {},
        defaults=system.defaults(),
        complaint=told(visit.complaint, system.estimates),
        besides=besides(suspects, best),
        former=left_open(visit),
    )
    return Diagnosed(
        answer=answer, system=system, seen=seen, suspected=suspected, weighed=weighed, planner=planner, plans=plans
    )


def _last_pressure(system: System, seen: Iterable[Observation]) -> Pressure:
    held = no_gauge(system)
    for o in seen:
        if o.stance.pressure.known != "nothing" and o.stance.arrangement != "vented":
            held = o.leaves or o.stance.pressure
    return held


def _by_remedy(weighed: Sequence[Weighed], *, said: bool = True) -> Mapping[str, float]:
    """Return each remedy's share; not `said`, as if there had been no complaint."""
    found: dict[str, float] = {}
    for w in weighed:
        share = w.share if said else w.share / w.cell.said
        found[w.cell.remedy] = found.get(w.cell.remedy, 0.0) + share
    return _summing_to_one(found)


def _summing_to_one(shares: dict[str, float]) -> dict[str, float]:
    total = sum(shares.values())
    return {key: value / total for key, value in shares.items()}


def _suspects(weighed: Sequence[Weighed], suspected: Sequence[Cell]) -> tuple[Suspect, ...]:
    """Return every suspect, most probable first; one that was left early, since it cannot count, at nothing."""
    shares: dict[str, float] = {}
    heaviest: dict[str, Weighed] = {}
    for w in weighed:
        shares[w.cell.fault] = shares.get(w.cell.fault, 0.0) + w.share
        heaviest.setdefault(w.cell.fault, w)
    shares = _summing_to_one(shares)
    found = [_suspect(heaviest[fault], p) for fault, p in shares.items()]
    left = {cell.fault: cell for cell in suspected if cell.fault not in shares}
    found += [_suspect(Weighed(cell, 0.0, Latents(), ()), 0.0, told=False) for cell in left.values()]
    return tuple(sorted(found, key=lambda s: (-s.probability, s.fault)))


def _suspect(w: Weighed, probability: float, *, told: bool = True) -> Suspect:
    """Return a cell as a suspect, its size and its place `told` or not."""
    size, unit = size_of(w) if told else (None, None)
    wires = [part for part in w.cell.parts if told and BY_ID[part.fault].remedy == "repair-cable"]
    places = [place_word(part.place) for part in wires]
    return Suspect(
        fault=w.cell.fault,
        remedy=w.cell.remedy,
        probability=probability,
        severity=size,
        severity_unit=unit,
        place=places[0] if places else None,
        cause=root_of(*w.cell.fault.split("+")),
    )


def size_of(w: Weighed) -> tuple[float | None, str | None]:
    """Return the size that a person can use, and its unit: of a pair the first one's that has such a size."""
    for part, name in zip(w.cell.parts, SIZES, strict=False):
        scale = BY_ID[part.fault].severity
        if scale and part.fault.startswith(TOLD_SIZES):
            return part.severity(getattr(w.at, name)), scale.unit
    return None, None


def _surprises(system: System, seen: Sequence[Observation], weighed: Sequence[Weighed]) -> tuple[Surprise, ...]:
    off: dict[int, float] = {}
    for w in weighed:
        for number, misfit in w.misfits:
            off[number] = off.get(number, 0.0) + w.share * min(misfit, 20.0)
    found = {n: message("nothing-explains") for n, misfit in off.items() if misfit > SURPRISING}
    for o in seen:
        if o.question.measure == "gauge-pressure" and not o.word and system.beyond_gauge(o.stance.pressure.pa):
            found[o.number] = message("outside-gauge-scale")
    return tuple(Surprise(reading=n, text=text) for n, text in sorted(found.items()))


def _check(
    system: System, planner: Planner, plan: Plan, place: int, unexplained: frozenset[Question]
) -> NextCheck:
    shown: tuple[Outcome, ...] = outcomes(system, planner, plan.question) if place < WITH_OUTCOMES else ()
    return NextCheck(
        question=plan.question,
        drive=drive_state(plan.question),
        minutes=plan.minutes,
        saves_minutes=plan.saves,
        outcomes=shown,
        cautions=cautions(system, plan.question),
        how=how(system, plan.question),
        while_there=plan.while_there,
        why=purpose(shown, plan.saves, again=plan.question in unexplained),
    )
