"""What it still costs to end a visit from a state of knowledge: the price that checks are to lower.

Rules
-----
1. Stopping costs, for each remedy that may be right instead of the likeliest, a second trip and the repair made in
   vain, with its part.
2. Going on costs, for each rival, the minutes of the checks that tell it best from the likelier remedies, as far as
   that is open: the entropy of the two, in bits. A rival that no check can tell costs what stopping costs.
3. A check tells two remedies apart as far as what it would show under them does not overlap.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from math import log2, sqrt

from steadyhead.diagnosis.estimates import Estimates
from steadyhead.diagnosis.observing import Question
from steadyhead.diagnosis.predicting import Outlook

#: Where the repair was needed and another one beside it, the reading after the first says so while one is still there:
#: this part of a second trip is saved.
HALF_DONE = 0.6
#: Remedies below this share are told apart by no check of their own.
SMALL = 0.004
#: A price that is not worth telling apart [min].
NEGLIGIBLE = 0.2
#: Minutes in which two machines may differ: no check is preferred for them.
EVEN = 1e-9
#: How many times a check's minutes each bit costs, and what overlap leaves nothing told.
A_BIT, USELESS = 1.2, 0.89

Mass = Mapping[str, float]


def stopping(mass: Mass, estimates: Estimates) -> float:
    """Return what it costs to stop here and mend what is likeliest: a second trip where that is wrong [min x mass]."""
    total = sum(mass.values())
    if total <= 0.0:
        return 0.0
    best, remedy = max((p, r) for r, p in mass.items())
    half = sum(p for r, p in mass.items() if half_done(remedy, r))
    return in_vain(remedy, estimates) * (total - best - HALF_DONE * half)


def in_vain(remedy: str, estimates: Estimates) -> float:
    """Return what it costs to mend what was not at fault: a second trip, the repair and its part [min]."""
    return estimates.second_trip + estimates.cost(remedy)


def half_done(done: str, needed: str) -> bool:
    """Tell whether a repair is one of the two that are needed."""
    return done != needed and "+" in needed and done in needed.split("+")


class Prices:
    """The prices of one visit: `apart` are the minutes of telling two remedies apart, by the best check for it."""

    def __init__(
        self,
        estimates: Estimates,
        cells: Sequence[tuple[float, str]],
        looks: Mapping[Question, Sequence[Outlook]],
        minutes: Mapping[Question, float],
    ) -> None:
        self._estimates = estimates
        self._trips: dict[str, float] = {}
        #: For each two remedies, what telling them apart costs [min], and the check that does.
        self.apart: dict[tuple[str, str], tuple[float, Question]] = {}
        mass: dict[str, float] = {}
        for share, remedy in cells:
            mass[remedy] = mass.get(remedy, 0.0) + share
            self._trips[remedy] = in_vain(remedy, estimates)
        counted = sorted(r for r, p in mass.items() if p > SMALL)
        for question, seen in looks.items():
            self._tell(question, _by_remedy(cells, seen, counted), minutes[question])

    def _tell(self, question: Question, shown: Mapping[str, Mapping[int | str, float]], minutes: float) -> None:
        names = list(shown)
        for i, a in enumerate(names):
            for b in names[:i]:
                common = sum(sqrt(p * shown[b][bin_]) for bin_, p in shown[a].items() if bin_ in shown[b])
                if common < USELESS:
                    cost = minutes / (1.0 - common)
                    if cost < self.apart.get((a, b), (1e9,))[0] - EVEN:
                        self.apart[a, b] = self.apart[b, a] = (cost, question)

    def stopping(self, mass: Mass) -> float:
        """Return what it costs to stop here."""
        return stopping(mass, self._estimates)

    def price(self, mass: Mass) -> float:
        """Return what is still to be paid: for each rival the smaller of leaving it and of finding out.

        A rival has to be told from every likelier remedy: what is hardest counts. Where nothing tells it from one of
        them, that one is what is done once all others are excluded.
        """
        order = sorted(((p, r) for r, p in mass.items() if p > 0.0), reverse=True)
        if not order:
            return 0.0
        likeliest, best = order[0]
        found = 0.0
        for i, rival in enumerate(order[1:], 1):
            left = self._left(best, rival)
            if left > NEGLIGIBLE * likeliest:
                left = max(self._told(heavier, rival) for heavier in order[:i])
            found += left
        return found

    def _left(self, done: str, rival: tuple[float, str]) -> float:
        """Return what it costs that a rival is right where another remedy is done."""
        part, remedy = rival
        return self._trips[done] * part * (1.0 - HALF_DONE if half_done(done, remedy) else 1.0)

    def _told(self, one: tuple[float, str], rival: tuple[float, str]) -> float:
        """Return what a rival costs beside one likelier remedy, which is done where no check tells the two."""
        left, known = self._left(one[1], rival), self.apart.get((one[1], rival[1]))
        return left if known is None else min(left, A_BIT * known[0] * _bits(one[0], rival[0]))


def _bits(p: float, q: float) -> float:
    """Return the entropy between two masses, times their sum [bit]."""
    whole = p + q
    return -(p * log2(p / whole) + q * log2(q / whole))


def _by_remedy(
    cells: Iterable[tuple[float, str]], seen: Sequence[Outlook], counted: Sequence[str]
) -> dict[str, dict[int | str, float]]:
    """Return how likely each bin is under each remedy."""
    found: dict[str, dict[int | str, float]] = {remedy: {} for remedy in counted}
    whole = dict.fromkeys(counted, 0.0)
    for (share, remedy), look in zip(cells, seen, strict=True):
        if remedy not in found:
            continue
        whole[remedy] += share
        bins = found[remedy]
        for bin_, part in look.bins:
            bins[bin_] = bins.get(bin_, 0.0) + share * part
    return {r: {b: p / whole[r] for b, p in bins.items()} for r, bins in found.items() if whole[r] > 0.0}
