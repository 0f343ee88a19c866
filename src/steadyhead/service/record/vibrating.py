"""Use cases: whether the phone buzzes when a reading was kept, as each person's own setting here.

Rules
-----
1. It is a setting, no fact: it changes nothing of the record, and is never passed on.
2. It buzzes until somebody says no. Whoever joined from another device has a setting of their own.
"""

from __future__ import annotations

from steadyhead.service.record.given import Given

VIBRATION, OFF = "vibration", "off"


def vibrates(given: Given, who: str) -> bool:
    """Tell whether it buzzes for somebody: empty for this device itself, else who joined from another."""
    with given.reading() as work:
        return work.setting(_key(who)) != OFF


def set_vibrates(given: Given, who: str, *, on: bool) -> None:
    """Keep whether it buzzes."""
    with given.writing() as work:
        work.set_setting(_key(who), "on" if on else OFF)
        work.commit()


def _key(who: str) -> str:
    return f"{VIBRATION}.{who}" if who else VIBRATION
