"""What may be at fault beside the likeliest repair, where no reading can tell yet: a dead sensor hides a dead input.

Rules
-----
1. A pair whose remedy does the likeliest one and more is no rival of it: the likeliest is needed either way. What is
   more is told, so that it is read before anybody leaves, once the first part is mended.
2. Pairs that ask for the same second remedy are told together, by the likeliest fault among them.
3. What is less likely than `WORTH_A_LOOK` is not told.
"""

from __future__ import annotations

from collections.abc import Sequence

from steadyhead.diagnosis.answer import Suspect
from steadyhead.diagnosis.cells import BY_ID
from steadyhead.diagnosis.pairs import covers
from steadyhead.messages import Message, message

#: Second faults below this share of the visits in which the first repair is needed are not told.
WORTH_A_LOOK = 0.02


def besides(suspects: Sequence[Suspect], best: str) -> tuple[Message, ...]:
    """Return what to prove before leaving, once `best` is done, likeliest first.

    Parameters
    ----------
    suspects
        Most probable first.
    best
        The likeliest remedy.
    """
    needed = sum(s.probability for s in suspects if covers(s.remedy, best))
    shares: dict[str, float] = {}
    faults: dict[str, str] = {}
    for suspect in suspects:
        more = _more(suspect.remedy, best)
        if more:
            shares[more] = shares.get(more, 0.0) + suspect.probability
            faults.setdefault(more, next(f for f in suspect.fault.split("+") if BY_ID[f].remedy == more))
    told = sorted(shares, key=lambda more: (-shares[more], more))
    return tuple(
        message("check-besides", after=best, remedy=more, fault=faults[more], share=shares[more] / needed)
        for more in told
        if shares[more] > WORTH_A_LOOK * needed
    )


def _more(remedy: str, best: str) -> str:
    """Return what a pair's remedy does beyond the best one; nothing where it does not do that, or no more."""
    rest = set(remedy.split("+")) - set(best.split("+"))
    return rest.pop() if covers(remedy, best) and len(rest) == 1 else ""
