"""The visit that a command works on: a file, standard input, or the example that every installation carries."""

from __future__ import annotations

import sys

from steadyhead.service.record.demo import EXAMPLE, example_text
from steadyhead.visit import VisitFile, load_visit, parse_visit

STDIN = "-"
#: More than the largest visit file, so that a larger one is refused by its size.
_MOST_READ = (1 << 20) + 1


def visit_file(name: str) -> VisitFile:
    """Return the visit file called `name`; ``-`` is standard input.

    Raises
    ------
    InputError
        It cannot be read, or is no visit file.
    """
    if name == STDIN:
        return parse_visit(sys.stdin.buffer.read(_MOST_READ), "standard input")
    return load_visit(name)


def example_file() -> VisitFile:
    """Return the example that every installation carries."""
    return parse_visit(example_text(), EXAMPLE)
