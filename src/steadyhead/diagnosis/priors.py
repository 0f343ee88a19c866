"""How often each fault is met, and what it costs to be wrong, by a set of estimates.

The figures and their reasons stand in `steadyhead.diagnosis.shipped`; a company's own replace them row by row
(`steadyhead.diagnosis.estimates`).
"""

from __future__ import annotations

from steadyhead.diagnosis.estimates import NONE_OF_THESE, SHIPPED, Estimates
from steadyhead.loop.faults import Fault, faults_of

#: Remedies that need a part.
COSTS_MONEY = frozenset(("replace-sensor", "replace-board", "replace-gauge"))


def prior(wires: int, kind: str, estimates: Estimates = SHIPPED) -> dict[str, float]:
    """Return each fault's probability before the first reading, for a loop with this many wires and kind of sensor."""
    members: dict[str, list[Fault]] = {}
    for fault in faults_of(wires, kind):
        members.setdefault(fault.family, []).append(fault)
    raw: dict[str, float] = {}
    for family, faults in members.items():
        shares = {fault.id: estimates.faults.get(fault.id, fault.share) for fault in faults}
        total = sum(shares.values())
        for id_, share in shares.items():
            raw[id_] = estimates.families[family] * share / total
    raw[NONE_OF_THESE] = estimates.families[NONE_OF_THESE]
    whole = sum(raw.values())
    return {fault: value / whole for fault, value in raw.items()}


def costs_money(remedy: str) -> bool:
    """Tell whether a repair, or one of a pair ``x+y``, needs a part.

    >>> costs_money("replace-sensor+repair-cable"), costs_money("repair-cable")
    (True, False)
    """
    return not COSTS_MONEY.isdisjoint(remedy.split("+"))
