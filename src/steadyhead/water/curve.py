"""A pump's curve from two points: its head at no flow and one duty, and what that gives at another speed.

Rules
-----
1. Between the two points the head falls with the square of the flow: H = H0 - k Q^2 (common practice for a curve that
   falls steadily). At a speed ratio r that becomes r^2 H0 - k Q^2: the similarity laws, exactly.
2. Beyond the flow of the duty point, itself moved by r, nothing is told: there the curve is not known.
3. Friction on the way to the surface is not in it: what the house gets is less.
"""

from __future__ import annotations

from dataclasses import dataclass

from steadyhead.published.source import Source, Validity
from steadyhead.water.similarity import flow_at, head_at

PARABOLA = Source(cite="common practice", locator="a parabola through shut-off and one duty point", seen="memory")


@dataclass(frozen=True, slots=True, kw_only=True)
class TwoPoints:
    """Shut-off and one duty point of a curve.

    Parameters
    ----------
    shut_off_m
        Head at no flow [m].
    duty_m
        Head at the duty flow [m], below the shut-off head.
    duty_m3s
        The duty flow [m3/s].
    rated_hz
        The curve's speed [Hz].
    """

    shut_off_m: float
    duty_m: float
    duty_m3s: float
    rated_hz: float

    def head_m(self, flow_m3s: float, hertz: float) -> float:
        """Return the head [m] at a flow [m3/s] and a speed [Hz].

        Raises
        ------
        RangeOfValidityError
            The flow is beyond the duty's, moved to this speed; or the speed ratio is outside the similarity laws.

        Examples
        --------
        >>> pump = TwoPoints(shut_off_m=100.0, duty_m=64.0, duty_m3s=0.002, rated_hz=60.0)
        >>> round(pump.head_m(0.001, 30.0), 6), round(pump.head_m(0.0005, 60.0), 6)
        (16.0, 97.75)
        """
        most = flow_at(hertz, self.duty_m3s, self.rated_hz)
        Validity(quantity="flow", low=0.0, high=most * (1.0 + 1e-9), unit="m3/s").require(flow_m3s)
        falls = (self.shut_off_m - self.duty_m) * (flow_m3s / self.duty_m3s) ** 2
        return head_at(hertz, self.shut_off_m, self.rated_hz) - falls
