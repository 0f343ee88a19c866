"""The loop drawing: this system's loop as it stands for a reading, drawn as SVG with its own labels and colours."""

from steadyhead.web.drawing.draw import draw
from steadyhead.web.drawing.picture import Picture

__all__ = ["Picture", "draw"]
