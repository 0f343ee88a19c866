"""Heads and pressures of a pump that moves no water: what stands at the surface, and which speed brings it there.

Rules
-----
1. A column of water of 1 m presses `PASCAL_PER_M`: water at its heaviest, so that no pressure is understated.
2. At no flow, at the surface: pressure = weight of (H0 r^2 - lift) + what comes in. Nothing is lost to friction.
3. The lift is from the water's level up to the gauge; at no flow that is the level at rest, the least lift there is.
4. What is not known within a range is told as its two ends; whoever asks takes the end that is worse.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import NamedTuple

from steadyhead.published.source import Source
from steadyhead.published.water_density import MOST_KG_PER_M3
from steadyhead.water.similarity import HEAD_MARGIN, Way, head_at, hertz_for, ratio

#: By definition (3rd General Conference on Weights and Measures, 1901) [m/s2]; a place is within 0.3 % of it.
STANDARD_GRAVITY_M_PER_S2 = 9.80665
PASCAL_PER_M = MOST_KG_PER_M3 * STANDARD_GRAVITY_M_PER_S2
HYDROSTATICS = Source(
    cite="hydrostatics: pressure = density x gravity x height",
    locator="density of water at 4 °C, standard gravity",
    seen="original",
)


class Between(NamedTuple):
    """Two ends between which something lies; both the same where it is known."""

    low: float
    high: float

    @property
    def middle(self) -> float:
        """What is taken where one figure must do."""
        return (self.low + self.high) / 2.0


def weight_pa(head_m: float) -> float:
    """Return the pressure [Pa] of a head of water [m].

    Examples
    --------
    >>> round(weight_pa(10.0))
    98064
    """
    return head_m * PASCAL_PER_M


def head_m(pressure_pa: float) -> float:
    """Return the head of water [m] of a pressure [Pa]."""
    return pressure_pa / PASCAL_PER_M


#: No lift, nothing that comes in.
NOTHING = Between(0.0, 0.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class PumpAtRest:
    """A centrifugal pump and what its water stands at, for all that is asked at no flow.

    Parameters
    ----------
    shut_off_m
        Shut-off head at the rated speed [m].
    rated_hz
        That speed [Hz].
    lift_m
        From the water's level up to the gauge [m]; zero where water comes in under pressure.
    incoming_pa
        Pressure that comes in [Pa]; zero from a well.
    way
        Where the shut-off head comes from: a printed curve, or one's own no-flow test. It says the margin.
    """

    shut_off_m: float
    rated_hz: float
    lift_m: Between = NOTHING
    incoming_pa: Between = NOTHING
    way: Way = "curve"

    @property
    def margin(self) -> float:
        """How far its head may be off, as a part of it."""
        return HEAD_MARGIN[self.way]

    def surface_pa(self, hertz: float) -> float:
        """Return the pressure at the surface at no flow [Pa], as it most probably is.

        Raises
        ------
        RangeOfValidityError
            The speed ratio is outside that of the similarity laws.
        """
        head = head_at(hertz, self.shut_off_m, self.rated_hz)
        return weight_pa(head - self.lift_m.middle) + self.incoming_pa.middle

    def surface_most_pa(self, hertz: float) -> float:
        """Return the most that it can be [Pa]: the head's margin above, least lift, most that comes in.

        Raises
        ------
        RangeOfValidityError
            As `surface_pa`.
        """
        head = head_at(hertz, self.shut_off_m * (1.0 + self.margin), self.rated_hz)
        return weight_pa(head - self.lift_m.low) + self.incoming_pa.high

    def surface_least_pa(self, hertz: float) -> float:
        """Return the least that a pump in order gives [Pa]: the margin below, most lift, least that comes in.

        Raises
        ------
        RangeOfValidityError
            As `surface_pa`.
        """
        head = head_at(hertz, self.shut_off_m * (1.0 - self.margin), self.rated_hz)
        return weight_pa(head - self.lift_m.high) + self.incoming_pa.low

    def no_flow_hz(self, pressure_pa: float) -> float:
        """Return the speed [Hz] that just brings a pressure [Pa] to the surface: ``n0 sqrt(H_needed / H0)``.

        Raises
        ------
        RangeOfValidityError
            As `surface_pa`.
        """
        needed = head_m(pressure_pa - self.incoming_pa.middle) + self.lift_m.middle
        return hertz_for(needed, self.shut_off_m, self.rated_hz)

    def highest_hz(self, limit_pa: float) -> float:
        """Return the highest speed [Hz] at which a shut tap cannot bring the surface above a limit [Pa].

        It is the rated speed where even that cannot.

        Raises
        ------
        RangeOfValidityError
            As `surface_pa`: even the slowest would be too much.
        """
        if self.surface_most_pa(self.rated_hz) <= limit_pa:
            return self.rated_hz
        allowed = head_m(limit_pa - self.incoming_pa.high) + self.lift_m.low
        return hertz_for(allowed, self.shut_off_m * (1.0 + self.margin), self.rated_hz)


def shut_off_from_test_m(hertz: float, pressure_pa: float, lift_m: float, rated_hz: float) -> float:
    """Return the shut-off head at the rated speed [m] that one's own no-flow test tells: ``(P + lift) (n0 / n)^2``.

    Parameters
    ----------
    hertz
        Speed at which the pump just held the pressure with nothing drawn [Hz].
    pressure_pa
        The pressure at the surface, less what comes in [Pa].
    lift_m
        From the water's level up to the gauge [m].
    rated_hz
        The rated speed [Hz].

    Raises
    ------
    RangeOfValidityError
        The speed ratio is outside that of the similarity laws.

    Examples
    --------
    >>> round(shut_off_from_test_m(30.0, 0.0, 40.0, 60.0), 6)
    160.0
    """
    return (head_m(pressure_pa) + lift_m) / ratio(hertz, rated_hz) ** 2
