"""Charges minutes for checks as the benchmark's rules say, so that two planners can be compared.

Rules
-----
1. An arrangement is paid when it changes, and also by the first meter reading of the visit; each reading there costs 1.
2. Leads that go from the panel to ``sensor.*`` cost 5 more, each way back 1; a known walk makes the 5 into 1 + 2 walks.
3. A screen, a gauge or a look has its own price and needs no change back to ``connected``.
4. A wrong remedy costs 120: a second trip.

These are our own estimates (common practice); they stand in the design that the tool under test follows too.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from benchmarks.truth.witness import Check

SET_UP = {
    "connected": 2.0,
    "sensor-unplugged": 3.0,
    "supply-terminal-clear": 3.0,
    "meter-in-signal": 5.0,
    "sensor-leads-lifted": 6.0,
    "vented": 7.0,
    "all-lifted": 8.0,
    "source-at-controller": 8.0,
    "temporary-cable": 9.0,
    "dead-both-free": 10.0,
    "spare-at-controller": 12.0,
    "dead-looped": 12.0,
    "spare-at-plug": 15.0,
}
LIGHT = {
    "displayed-fault": 0.2,
    "displayed-pressure": 0.3,
    "displayed-signal": 0.5,
    "gauge-pressure": 0.5,
    "inspection": 4.0,
}
#: The technician's own gauge, beside the site's.
OWN_GAUGE = 5.0
#: Looks that take longer than the others.
LOOKS = {"min-max": 10.0}
READING = 1.0
TO_SENSOR = 5.0
BACK = 1.0
WRONG_REMEDY = 120.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Clock:
    """Where the technician stands and how long it took; `walk_min` is the file's walk, None where it gives none."""

    walk_min: float | None = None
    minutes: float = 0.0
    arrangement: str = "connected"
    opened: bool = False
    at_sensor: bool = False

    def after(self, check: Check) -> Clock:
        """Return the clock after one check."""
        wanted = check.get("arrangement") or "connected"
        light = OWN_GAUGE if check.get("whose") == "own" else LIGHT.get(check["measure"])
        if light is not None and (wanted == "connected" or check["measure"] in ("gauge-pressure", "inspection")):
            return replace(self, minutes=self.minutes + LOOKS.get(str(check.get("item")), light))
        metered = light is None
        changes = wanted != self.arrangement or (metered and not self.opened)
        cost = (SET_UP[wanted] if changes else 0.0) + (READING if light is None else light)
        there = any(str(check.get(lead) or "").startswith("sensor.") for lead in ("red", "black"))
        if there != self.at_sensor and metered:
            cost += self._way_there() if there else BACK
        return replace(
            self,
            minutes=self.minutes + cost,
            arrangement=wanted,
            opened=self.opened or metered,
            at_sensor=there if metered else self.at_sensor,
        )

    def _way_there(self) -> float:
        return TO_SENSOR if self.walk_min is None else 1 + 2 * self.walk_min
