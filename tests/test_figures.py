"""A figure that can be traced: it has a descent or an origin, and its trail visits each figure once."""

import pytest

from steadyhead.figures import Figure, given, trail


def test_a_figure_with_neither_formula_nor_origin_is_refused() -> None:
    """A property: rule 3 of the module."""
    with pytest.raises(TypeError, match="'hysteresis'"):
        Figure(name="hysteresis", value=1.0, dimension="pressure")


def test_a_figure_with_both_is_refused() -> None:
    """A property: what was read is not computed."""
    with pytest.raises(TypeError, match="not both"):
        Figure(name="hysteresis", value=1.0, dimension="pressure", formula="a - b", whence="plate")


def test_a_trail_visits_a_figure_that_is_used_twice_once() -> None:
    """A property: the trail is a list for a paper, not a tree."""
    span = given("span", 4.0, "voltage", "plate")
    zero = Figure(name="zero-error", value=0.01, dimension="number", formula="offset / span", inputs=(span,))
    total = Figure(name="total", value=0.02, dimension="number", formula="zero + offset / span", inputs=(zero, span))
    assert [each.name for _, each in trail(total)] == ["total", "zero-error", "span"]
