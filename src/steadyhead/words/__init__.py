"""Messages to sentences, in a language, a region and a panel's own labels."""

from steadyhead.words.speaker import Speaker

__all__ = ["Speaker"]
