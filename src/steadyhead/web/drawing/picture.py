"""What the drawing is told: the system's own words, how it stands, where the leads go, and how suspect each part is."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from steadyhead.web.drawing.places import HookUp, hook_up
from steadyhead.web.drawing.suspicion import Level


@dataclass(frozen=True, slots=True)
class Link:
    """Where a tap on a point leads, and what a reader of the page without eyes hears."""

    href: str
    says: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Picture:
    """Everything that the drawing shows.

    Parameters
    ----------
    wires
        Wires of the sensor.
    arrangement
        How the loop stands.
    labels
        What this panel and plug call each point.
    levels
        How suspect each part is, by part.
    measure, red, black, item
        What is read next, and where the leads go; empty or None where nothing is.
    gauge, display, source
        Figures to show at the gauge, on the display and at the signal source; empty where unknown.
    cable
        Its length, as text; empty where unknown.
    cock, shield
        Whether the system has them; None where nobody looked.
    links
        Where a tap on each point leads; none where nothing can be tapped.
    """

    wires: int = 3
    arrangement: str = "connected"
    labels: Mapping[str, str] = field(default_factory=dict)
    levels: Mapping[str, Level] = field(default_factory=dict)
    measure: str = ""
    red: str | None = None
    black: str | None = None
    item: str | None = None
    gauge: str = ""
    display: str = ""
    source: str = ""
    cable: str = ""
    cock: bool | None = None
    shield: bool | None = None
    links: Mapping[str, Link] = field(default_factory=dict)

    @property
    def stands(self) -> HookUp:
        """How the loop stands."""
        return hook_up(self.arrangement)
