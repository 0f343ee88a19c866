"""Every figure of the answers to the examples, so that two Pythons can be held against each other.

Rules
-----
1. A figure stands under the way to it: ``house-noise next_checks 2 saves_minutes``. Words stand there too.
2. Two answers are the same where they have the same ways and words, and no figure differs by more than 1e-9, or by more
   than this part of itself where it is above one.
3. It runs on a bare Python of any version, without the tests' libraries:
   ``python -m tests.diagnosis.figures FILE`` writes the figures of all examples.
"""

from __future__ import annotations

import json
import sys
from collections.abc import Iterator, Mapping
from pathlib import Path

from steadyhead import diagnose_text

EXAMPLES = sorted((Path(__file__).resolve().parents[2] / "examples").glob("*.toml"))
#: How far a figure may be off, absolute and for each unit of its size.
SAME = 1e-9

Figures = Mapping[str, object]


def figures(name: str, value: object) -> dict[str, object]:
    """Return what an answer says, by the way to it.

    >>> figures("a", {"b": [1.5, {"c": "x"}], "d": []})
    {'a b 0': 1.5, 'a b 1 c': 'x', 'a d': 'none'}
    """
    return dict(_walked(name, value))


def _walked(way: str, value: object) -> Iterator[tuple[str, object]]:
    inside = value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else None
    if inside is None:
        yield way, value
    elif not value:
        yield way, "none"
    else:
        for key, each in inside:
            yield from _walked(f"{way} {key}", each)


def differences(one: Figures, other: Figures) -> list[str]:
    """Return where two sets of figures are not the same.

    >>> differences({"p": 0.5, "q": 1}, {"p": 0.5 + 1e-12, "q": 1})
    []
    >>> differences({"p": 0.5}, {"p": 0.50001, "q": 1})
    ['p: 0.5 and 0.50001', 'q: nothing and 1']
    """
    return [
        f"{way}: {one.get(way, 'nothing')} and {other.get(way, 'nothing')}"
        for way in sorted({*one, *other})
        if way not in one or way not in other or not _same(one[way], other[way])
    ]


def _same(one: object, other: object) -> bool:
    if isinstance(one, float) and isinstance(other, float):
        return abs(one - other) <= SAME * max(abs(one), abs(other), 1.0)
    return one == other and type(one) is type(other)


def of_examples() -> dict[str, dict[str, object]]:
    """Return the figures of every example, by its name."""
    return {path.stem: figures(path.stem, diagnose_text(path.read_text(encoding="utf-8"))) for path in EXAMPLES}


if __name__ == "__main__":
    Path(sys.argv[1]).write_text(json.dumps(of_examples()), encoding="utf-8")
