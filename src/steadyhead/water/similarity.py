"""A centrifugal pump at another speed: the similarity (affinity) laws, and how far they may be trusted.

Rules
-----
1. At a speed ratio r = n / n0: flow goes with r, head with r^2, power with r^3; every point of the curve moves so.
2. Hertz stand for speed. An induction motor slips less when it is loaded less, so that a pump at no flow turns a
   little faster than its hertz say: `HEAD_MARGIN` covers that, and the tolerance of a printed curve.
3. Asked outside `RATIOS` they refuse: further down what is lost inside the pump no longer follows them.
4. They say nothing of a positive-displacement pump's head: that one presses until something gives.
"""

from __future__ import annotations

import math
from typing import Literal

from steadyhead.published.source import Source, Validity

SOURCE = Source(
    cite="Karassik et al., Pump Handbook; the affinity laws of any pump text",
    locator="flow with n, head with n squared, power with n cubed",
    seen="republished",
    via="public notes of pump-sizing tools (a tenth more speed: a tenth more flow, 21 % more head)",
)

#: n / n0 that is asked for. Common practice: from two fifths of the rated speed to a fifth above it.
RATIOS = Validity(quantity="speed ratio", low=0.4, high=1.2, unit="")

#: How far a shut-off head may be off, by where it comes from, as parts of it (common practice, no source). A printed
#: curve: some 7 % for the casting, as loose acceptance grades allow, and some 3 % for less slip at no flow. One's own
#: no-flow test: a gauge's 2 to 3 % and half a hertz in forty.
HEAD_MARGIN: dict[str, float] = {"curve": 0.10, "no-flow": 0.05}

Way = Literal["curve", "no-flow"]


def ratio(hertz: float, rated_hertz: float) -> float:
    """Return the speed ratio, where the laws hold.

    Parameters
    ----------
    hertz
        The speed that is asked for [Hz].
    rated_hertz
        The speed of the curve [Hz].

    Raises
    ------
    RangeOfValidityError
        The ratio is outside `RATIOS`.
    """
    found = hertz / rated_hertz
    RATIOS.require(found)
    return found


def head_at(hertz: float, rated_head_m: float, rated_hertz: float) -> float:
    """Return the head [m] of a curve's point at another speed.

    Parameters
    ----------
    hertz
        That speed [Hz].
    rated_head_m
        Head of the point at the curve's speed [m].
    rated_hertz
        The curve's speed [Hz].

    Raises
    ------
    RangeOfValidityError
        The speed ratio is outside `RATIOS`.

    Examples
    --------
    >>> round(head_at(66.0, 100.0, 60.0), 6)
    121.0
    """
    return rated_head_m * ratio(hertz, rated_hertz) ** 2


def flow_at(hertz: float, rated_flow_m3s: float, rated_hertz: float) -> float:
    """Return the flow [m3/s] of a curve's point at another speed.

    Raises
    ------
    RangeOfValidityError
        As `head_at`.
    """
    return rated_flow_m3s * ratio(hertz, rated_hertz)


def power_at(hertz: float, rated_power_w: float, rated_hertz: float) -> float:
    """Return the shaft power [W] of a curve's point at another speed.

    Raises
    ------
    RangeOfValidityError
        As `head_at`.
    """
    return rated_power_w * ratio(hertz, rated_hertz) ** 3


def hertz_for(head_m: float, rated_head_m: float, rated_hertz: float) -> float:
    """Return the speed [Hz] at which a point of the curve has this head: ``n0 sqrt(H / H0)``.

    Parameters
    ----------
    head_m
        Head that is wanted [m].
    rated_head_m
        Head of the point at the curve's speed [m].
    rated_hertz
        The curve's speed [Hz].

    Raises
    ------
    RangeOfValidityError
        The speed ratio is outside `RATIOS`; a head below zero asks for none at all.

    Examples
    --------
    >>> hertz_for(25.0, 100.0, 60.0)
    30.0
    """
    found = rated_hertz * math.sqrt(head_m / rated_head_m) if head_m > 0 else 0.0
    ratio(found, rated_hertz)
    return found
