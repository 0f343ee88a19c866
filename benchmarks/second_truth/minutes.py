"""What a visit costs: set-ups, readings and walks, by the contract's list."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

SET_UP = {
    "connected": 2,
    "sensor-unplugged": 3,
    "supply-terminal-clear": 3,
    "meter-in-signal": 5,
    "sensor-leads-lifted": 6,
    "vented": 7,
    "all-lifted": 8,
    "source-at-controller": 8,
    "temporary-cable": 9,
    "dead-both-free": 10,
    "spare-at-controller": 12,
    "dead-looped": 12,
    "spare-at-plug": 15,
}
COVERED = {
    "displayed-fault": 0.2,
    "displayed-pressure": 0.3,
    "displayed-signal": 0.5,
    "gauge-pressure": 0.5,
    "inspection": 4.0,
}
#: The technician's own gauge beside the site's: three minutes on a hose tap, fifteen in a plugged port.
OWN_GAUGE = 5.0
WRONG_REMEDY = 120.0


@dataclass(slots=True)
class Clock:
    """Adds up minutes; knows the arrangement that stands, and where the leads are."""

    walk_min: float | None
    minutes: float = 0.0
    standing: str | None = None
    at_sensor: bool = False

    def charge(self, check: Mapping[str, object]) -> float:
        """Add one check and return its minutes."""
        measure, arrangement = str(check["measure"]), str(check.get("arrangement") or "connected")
        spent = COVERED.get(measure, 1.0)
        if measure == "gauge-pressure" and self.minutes and check.get("whose") == "own":
            spent = OWN_GAUGE
        metered = measure not in COVERED
        if arrangement != self.standing and (
            metered or (arrangement != "connected" and measure not in {"inspection", "gauge-pressure"})
        ):
            spent += SET_UP[arrangement]
            self.standing = arrangement
        if metered:
            leads = (str(check.get(lead) or "") for lead in ("red", "black"))
            spent += self._walk(to_sensor=any(lead.startswith("sensor.") for lead in leads))
        self.minutes += spent
        return spent

    def _walk(self, *, to_sensor: bool) -> float:
        if to_sensor == self.at_sensor:
            return 0.0
        self.at_sensor = to_sensor
        if not to_sensor:
            return 1.0
        return 5.0 if self.walk_min is None else 1.0 + 2.0 * self.walk_min
