"""How likely something is, in the words that a person bets with: never decimals, never percent."""

from __future__ import annotations

from math import log

#: The odds that are said, as (so many, in so many).
SAID = (
    (1, 50), (1, 20), (1, 10), (1, 8), (1, 6), (1, 5), (1, 4), (1, 3), (1, 2),
    (2, 3), (3, 4), (4, 5), (9, 10), (19, 20),
)  # fmt: skip
ALMOST_CERTAIN, HARDLY = 0.97, 0.012
#: Every phrase that is said.
PHRASES = ("almost certain", "under 1 in 100", *(f"{some} in {of}" for some, of in SAID))


def odds(probability: float) -> str:
    """Return the nearest odds that are said; nearness is measured where a bet is, on the log of the odds.

    Parameters
    ----------
    probability
        From 0 to 1.

    Examples
    --------
    >>> [odds(p) for p in (1.0, 0.81, 0.5, 0.31, 0.047, 0.001)]
    ['almost certain', '4 in 5', '1 in 2', '1 in 3', '1 in 20', 'under 1 in 100']
    """
    if probability > ALMOST_CERTAIN:
        return "almost certain"
    if probability < HARDLY:
        return "under 1 in 100"
    wanted = _logit(probability)
    some, of = min(SAID, key=lambda pair: abs(_logit(pair[0] / pair[1]) - wanted))
    return f"{some} in {of}"


def _logit(probability: float) -> float:
    return log(probability / (1.0 - probability))
