"""Finds what is at fault in the sensing loop of a constant-pressure water system, and proves it.

The names below are the whole public Python interface; everything else may move.
"""

__version__ = "0.1.0"
