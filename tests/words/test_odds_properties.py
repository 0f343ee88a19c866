"""Odds are said in words that keep their order."""

from __future__ import annotations

import re

from hypothesis import given
from hypothesis import strategies as st

from steadyhead.words.odds import ALMOST_CERTAIN, HARDLY, odds

PROBABILITIES = st.floats(0.0, 1.0)


def worth(said: str) -> float:
    """Return the probability that a phrase stands for."""
    if said == "almost certain":
        return 1.0
    found = re.fullmatch(r"(\d+) in (\d+)", said)
    return int(found[1]) / int(found[2]) if found else 0.0


@given(PROBABILITIES)
def test_no_decimals_and_no_percent(probability: float) -> None:
    """The house's way of saying how likely something is."""
    assert re.fullmatch(r"almost certain|under 1 in 100|\d+ in \d+", odds(probability))


@given(PROBABILITIES, PROBABILITIES)
def test_the_likelier_is_never_said_to_be_less_likely(one: float, other: float) -> None:
    """Order is kept."""
    low, high = sorted((one, other))
    assert worth(odds(low)) <= worth(odds(high))


@given(st.floats(HARDLY, ALMOST_CERTAIN))
def test_what_is_said_is_near_what_is_meant(probability: float) -> None:
    """The odds said are within a factor of 2 of the odds meant: the widest gap is from 1:19 to 1:49."""
    said = worth(odds(probability))
    ratio = said / (1 - said) / (probability / (1 - probability))
    assert 0.5 < ratio < 2.0
