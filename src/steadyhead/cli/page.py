"""How text is set on a terminal: at most 80 columns, plain characters, nothing that needs colour.

Rules
-----
1. A page is a list of lines; nothing here prints.
2. A terminal narrower than 80 columns gets narrower lines, down to 48; a pipe gets 80 unless ``COLUMNS`` says
   otherwise.
3. Hatching stands for how likely something is: it prints on paper and needs no colour.
"""

from __future__ import annotations

import shutil
from collections.abc import Iterable, Sequence
from textwrap import wrap

WIDEST, NARROWEST = 80, 48
BAR = 10


def width() -> int:
    """Return how wide a page is here."""
    return max(NARROWEST, min(WIDEST, shutil.get_terminal_size((WIDEST, 24)).columns))


def paragraph(text: str, wide: int, first: str = "", rest: str | None = None) -> list[str]:
    """Return a text in lines; `first` stands before the first line, `rest` (or as many blanks) before the others.

    >>> paragraph("one two three", 10, "- ")
    ['- one two', '  three']
    """
    hang = " " * len(first) if rest is None else rest
    lines = wrap(text, wide, initial_indent=first, subsequent_indent=hang, break_on_hyphens=False)
    return lines or [first.rstrip()]


def bar(share: float) -> str:
    """Return a share of one as hatching.

    >>> bar(0.81), bar(0.004)
    ('////////..', '/.........')
    """
    full = max(1, round(BAR * share))
    return "/" * full + "." * (BAR - full)


def box(title: str, note: str, lines: Iterable[str], wide: int) -> list[str]:
    """Return lines in a frame with its title at the left of the upper edge and a note at the right.

    A note that finds no room there stands inside.

    >>> for line in box("Title", "note", ["text"], 24): print(line)
    +- Title ------- note -+
    | text                 |
    +----------------------+
    """
    inside = wide - 4
    room = wide - len(title) - len(note) - 8
    if room < 1:
        return (
            box(title, "", [*paragraph(note, inside), "", *lines], wide)
            if note
            else _frame(f"+- {title} ", lines, wide)
        )
    return _frame(f"+- {title} {'-' * room} {note} -+" if note else f"+- {title} ", lines, wide)


def _frame(edge: str, lines: Iterable[str], wide: int) -> list[str]:
    """Return lines between an upper edge that is filled up, and a lower one."""
    upper = edge if edge.endswith("+") else f"{edge[: wide - 1]:-<{wide - 1}}+"
    return [upper, *(f"| {line:<{wide - 4}} |" for line in lines), f"+{'-' * (wide - 2)}+"]


def columns(rows: Sequence[tuple[str, ...]], heads: tuple[str, ...] = ()) -> list[str]:
    """Return rows in columns under their heads; figures stand at the right, words at the left.

    A head that is broader than its column is broken into lines, ten signs broad or as broad as the column.

    >>> columns([("0 %", "a"), ("10 %", "b")])
    [' 0 %  a', '10 %  b']
    >>> columns([("1", "x")], ("a long head", "y"))
    ['a long', '  head  y', '     1  x']
    """
    if not rows:
        return []
    bodies = list(zip(*rows, strict=True))
    towers = [wrap(head, max(10, *map(len, body))) for head, body in zip(heads, bodies, strict=False)]
    high = max(map(len, towers), default=0)
    tops = [[""] * (high - len(tower)) + tower for tower in towers]
    lines = [*zip(*tops, strict=True), *rows]
    sides = [">" if _is_figures(body) else "<" for body in bodies]
    wides = [max(map(len, column)) for column in zip(*lines, strict=True)]
    return ["  ".join(f"{c:{s}{w}}" for c, s, w in zip(line, sides, wides, strict=True)).rstrip() for line in lines]


def _is_figures(body: tuple[str, ...]) -> bool:
    return sum(cell[:1].isdigit() or cell[:1] in {"-", "<"} for cell in body) > len(body) // 2
