"""How speeds, heights and flows of water are said: in the units that go with a reader's unit of pressure."""

from __future__ import annotations

from steadyhead.quantities import spell

#: Ways of saying a figure: its unit beside psi and feet, its unit beside everything else.
WATER_UNITS: dict[str, tuple[str, str]] = {
    "hertz": ("Hz", "Hz"), "head": ("ft", "m"), "flow": ("gpm", "L/min"), "volume": ("gal", "L"),
}  # fmt: skip
#: Two figures of a flow or a volume are as good as anybody measures it.
DIGITS = {"flow": 2, "volume": 2}
#: Ways of saying an id, by the kind that names it.
WATER_NAMES: dict[str, str] = {
    "way": "tonight-way", "possible": "tonight-possible", "watches": "tonight-watch", "limited-by": "tonight-part",
    "broken": "tonight-broken",
}  # fmt: skip


def water_unit(way: str, pressure_unit: str) -> str:
    """Return the unit that goes with a unit of pressure.

    >>> water_unit("flow", "psi"), water_unit("head", "bar")
    ('gpm', 'm')
    """
    american, other = WATER_UNITS[way]
    return american if pressure_unit in {"psi", "ft"} else other


def water_text(way: str, value: float, pressure_unit: str) -> str:
    """Return a speed, a height or a flow in SI units as text.

    >>> water_text("head", 30.48, "psi"), water_text("flow", 0.001, "bar"), water_text("hertz", 42.7, "bar")
    ('100 ft', '60 L/min', '42.7 Hz')
    """
    return spell(value, water_unit(way, pressure_unit), digits=DIGITS.get(way, 3))
