"""Messages to sentences, in a language, a region and a panel's own labels."""

from steadyhead.words.manner import USUAL, Manner
from steadyhead.words.speaker import Speaker

__all__ = ["USUAL", "Manner", "Speaker"]
