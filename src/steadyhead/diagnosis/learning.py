"""What closed visits teach: how often each fault is met, and what each check takes here.

Theory of operation
-------------------
1. The estimates given are the prior, worth `WORTH` calls, spread over the faults as they stand: a Dirichlet
   distribution. Each closed visit adds its count to its fault, so a fault's part of all calls is (its part of `WORTH` +
   its count) / (`WORTH` + all counts), and a family's is the sum of its faults'.
2. A visit that is not closed does not count. A proved one counts `PROVED`, another `NOT_PROVED`: it may be the
   program's own guess handed back. The two of a pair share its count evenly.
3. A check's minutes are those of a gamma distribution of known shape, their mean's prior the inverse gamma that is its
   conjugate, worth `TIMED` checks: the new figure is (`TIMED` times the estimate + all minutes taken) / (`TIMED` + how
   many there were).
4. What a check took is charged to the largest part of it: setting up where the loop was set up for it, else the way
   where the leads went to the sensor, else the reading; less the estimates of its other parts, and never below nothing.
5. The order of visits changes nothing, and a visit learnt twice counts once.

References
----------
Gelman and others, "Bayesian Data Analysis", 3rd edition, sections 2.6 and 3.4 (from memory).
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from hashlib import sha256

from steadyhead.diagnosis.checks import Standing, charges, standing
from steadyhead.diagnosis.estimates import NONE_OF_THESE, Estimates, Row
from steadyhead.diagnosis.observing import question_of
from steadyhead.diagnosis.system import System
from steadyhead.loop.faults import FAULTS
from steadyhead.loop.vocabulary import ARRANGEMENTS, METER_MEASURES
from steadyhead.visit.dump import dump_visit
from steadyhead.visit.record import Reading, Visit

#: How many calls the estimates are worth, and how many timings of a check its minutes are worth.
WORTH, TIMED = 100.0, 5.0
#: What a closed visit counts, where its fault was proved and where it was not.
PROVED, NOT_PROVED = 1.0, 0.25
#: Section and name of a row.
Place = tuple[str, str]

_FAMILY: dict[str, str] = {**{fault.id: fault.family for fault in FAULTS}, NONE_OF_THESE: NONE_OF_THESE}


@dataclass(frozen=True, slots=True, kw_only=True)
class Learnt:
    """What one closed visit teaches.

    Parameters
    ----------
    visit
        Digest of what the visit says; the same visit has the same one.
    fault
        What was at fault, a pair joined by ``+``.
    counts
        What it counts, in calls.
    second_trip
        Whether somebody had to come again; None where nobody said.
    took
        Rows of the estimates, each with what was taken for it once [min].
    """

    visit: str
    fault: str
    counts: float
    second_trip: bool | None = None
    took: tuple[tuple[Place, float], ...] = ()


def learnt_of(visit: Visit, estimates: Estimates) -> Learnt | None:
    """Return what a visit teaches; None while it is not closed.

    Parameters
    ----------
    visit
        A visit.
    estimates
        What a check's other parts take.
    """
    closed = visit.closed
    if closed.fault is None:
        return None
    return Learnt(
        visit=digest(visit),
        fault="+".join(sorted(closed.fault.split("+"))),
        counts=PROVED if closed.proved else NOT_PROVED,
        second_trip=closed.second_trip,
        took=tuple(_timings(visit, estimates)),
    )


def digest(visit: Visit) -> str:
    """Return the digest of what a visit says; comments and the order of keys change nothing."""
    return sha256(dump_visit(visit).encode("utf-8")).hexdigest()[:32]


def _timings(visit: Visit, estimates: Estimates) -> Iterator[tuple[Place, float]]:
    """Yield the row and the minutes of each reading that was timed."""
    system = System(visit, estimates)
    here = Standing(None, at_sensor=False)
    for number, reading in enumerate(visit.readings, start=1):
        known = reading.measure in METER_MEASURES or reading.measure in estimates.readings
        if reading.took_s is not None and (known or reading.measure == "inspection"):
            yield from _charged(system, reading, here)
        here = standing(_up_to(visit, number))


def _up_to(visit: Visit, number: int) -> Visit:
    return replace(visit, readings=visit.readings[:number])


def _charged(system: System, reading: Reading, here: Standing) -> Iterator[tuple[Place, float]]:
    """Yield the row that a timing is charged to; none where the largest part is a site's own walk, or of the water."""
    if ARRANGEMENTS[reading.arrangement].water_side or reading.took_s is None:
        return
    parts = charges(system, question_of(reading), here)
    by_section = {place[0]: place for place, _ in parts}
    place = next(by_section[s] for s in ("arrangements", "walk", "", "inspections", "readings") if s in by_section)
    if place[0]:
        others = sum(spent for row, spent in parts if row != place)
        yield place, max(reading.took_s / 60.0 - others, 0.0)


def updated(estimates: Estimates, learnt: Iterable[Learnt]) -> Estimates:
    """Return the estimates after these visits; each visit counts once, however often it stands there."""
    visits = {each.visit: each for each in learnt}.values()
    if not visits:
        return estimates
    counts: dict[str, float] = {}
    timed: dict[Place, list[float]] = {}
    for each in sorted(visits, key=lambda one: one.visit):
        parts = each.fault.split("+")
        for part in parts:
            counts[part] = counts.get(part, 0.0) + each.counts / len(parts)
        for place, minutes in each.took:
            timed.setdefault(place, []).append(minutes)
    return estimates.replaced({**_shares(estimates, counts), **_minutes(estimates, timed)})


def _shares(estimates: Estimates, counts: Mapping[str, float]) -> dict[Place, Row]:
    """Return the new rows of families and faults: rule 1."""
    calls, total = estimates.families, sum(estimates.families.values())
    seen = sum(counts.values())
    changed: dict[Place, Row] = {}
    for family, value in calls.items():
        prior = WORTH * value / total
        members = [fault for fault, its in _FAMILY.items() if its == family]
        met = sum(counts.get(fault, 0.0) for fault in members)
        after = total * (prior + met) / (WORTH + seen)
        changed["families", family] = estimates.rows["families"][family]._replace(value=after)
        if met and family != NONE_OF_THESE:
            changed |= _within(estimates, members, (prior, met), counts)
    return changed


def _within(
    estimates: Estimates, members: list[str], family: tuple[float, float], counts: Mapping[str, float]
) -> dict[Place, Row]:
    """Return the new shares within one family, of which `family` has prior calls and counted ones; their sum stays."""
    prior, met = family
    total = sum(estimates.faults[fault] for fault in members)
    return {
        ("faults", fault): estimates.rows["faults"][fault]._replace(
            value=total * (prior * estimates.faults[fault] / total + counts.get(fault, 0.0)) / (prior + met)
        )
        for fault in members
    }


def _minutes(estimates: Estimates, timed: Mapping[Place, list[float]]) -> dict[Place, Row]:
    """Return the new rows of minutes: rule 3."""
    changed: dict[Place, Row] = {}
    for (section, name), minutes in timed.items():
        row = estimates.rows[section][name]
        mean = (TIMED * row.value + sum(minutes)) / (TIMED + len(minutes))
        changed[section, name] = row._replace(value=mean)
    return changed
