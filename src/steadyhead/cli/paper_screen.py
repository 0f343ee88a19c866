"""A paper as plain text: the same words in the same order, at the width of the terminal.

Rules
-----
1. What is printed is what is laid out for HTML and PDF; nothing is added but rules of plain signs.
2. A figure whose making is told below carries its number in brackets.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Any

from steadyhead.cli.page import columns, paragraph

Values = dict[str, Any]


def paper_screen(laid: Values, wide: int) -> list[str]:
    """Return the lines of a paper, none longer than `wide` but for a table that cannot be narrower."""
    setter = _Setter(wide, laid["words"]["next"], numbered=laid["trace"])
    head = [laid["title"], laid["subject"], *([laid["dated"]] if laid["dated"] else [])]
    lines = [line for text in head for line in paragraph(text, wide)]
    lines.append("=" * max(map(len, lines)))
    headed = False
    for block in laid["blocks"]:
        lines += [*([] if headed else [""]), *setter.block(block)]
        headed = block["is"] == "heading"
    words = laid["words"]
    lines += ["", *paragraph(f"{words['number']} {laid['number']}   {words['hash']} {laid['short']}", wide)]
    lines += [laid["link"]] if laid["link"] else []
    if laid["trace"] and laid["made"]:
        lines += ["", words["made"], *(line for each in laid["made"] for line in _made(each, words["inputs"], wide))]
    return lines


def _made(each: Values, inputs: str, wide: int) -> list[str]:
    """Return how one figure was made."""
    said = f"{each['name']}: {each['value']}. {each['how']}"
    if each["inputs"]:
        said += f" {inputs} " + "; ".join(f"{one['number']} {one['name']}" for one in each["inputs"]) + "."
    return paragraph(f"{said} {each['source']}", wide, f"{each['number']:4}  ")


class _Setter:
    """Sets the blocks of one paper."""

    def __init__(self, wide: int, next_head: str, *, numbered: bool) -> None:
        self._wide, self._next_head, self._numbered = wide, next_head, numbered

    def block(self, block: Values) -> list[str]:
        """Return the lines of a block."""
        return _BLOCKS[block["is"]](self, block)

    def heading(self, block: Values) -> list[str]:
        """Return a heading."""
        return [*paragraph(block["text"], self._wide), "-" * min(len(block["text"]), self._wide)]

    def text(self, block: Values) -> list[str]:
        """Return running text."""
        return paragraph(self._line(block["line"]), self._wide)

    def lines(self, block: Values, mark: str = "- ") -> list[str]:
        """Return lines, each with a mark."""
        return [line for each in block["lines"] for line in paragraph(self._line(each), self._wide, mark)]

    def pictures(self, block: Values) -> list[str]:
        """Return what each photo shows; a terminal draws none."""
        return [line for each in block["pictures"] for line in paragraph(each["says"], self._wide, "* ")]

    def care(self, block: Values) -> list[str]:
        """Return cautions."""
        return self.lines(block, "! ")

    def next(self, block: Values) -> list[str]:
        """Return what is to be done next."""
        return [f"> {self._next_head}", *self.lines(block, "> ")]

    def particulars(self, block: Values) -> list[str]:
        """Return pairs of a name and what it is."""
        wide = min(max(len(row["name"]) for row in block["rows"]), self._wide // 2)
        said = ((row["name"], self._line(row["line"])) for row in block["rows"])
        return [line for name, value in said for line in paragraph(value, self._wide, f"{name:<{wide}}  ")]

    def table(self, block: Values) -> list[str]:
        """Return a table; one that is too broad becomes rows of pairs."""
        heads = tuple(column["head"] for column in block["columns"])
        rows = [tuple(self._cell(cell) for cell in row) for row in block["rows"]]
        set_ = columns(rows, heads)
        if all(len(line) <= self._wide for line in set_):
            return [*paragraph(block["says"], self._wide), *set_]
        return [*paragraph(block["says"], self._wide), *(line for row in rows for line in self._pairs(heads, row))]

    def _pairs(self, heads: Iterable[str], row: Iterable[str]) -> list[str]:
        """Return one row of a broad table as pairs of head and cell."""
        first, *rest = [(head, cell) for head, cell in zip(heads, row, strict=True) if cell]
        lines = paragraph(" ".join(first) if first[1].isdigit() else first[1], self._wide)
        return lines + [
            line for head, cell in rest for line in paragraph(f"{head}: {cell}", self._wide, "    ", "      ")
        ]

    def plot(self, block: Values) -> list[str]:
        """Return what a drawing shows; it is not drawn here."""
        return paragraph(f"({block['says']})", self._wide)

    def blanks(self, block: Values) -> list[str]:
        """Return lines to write on."""
        return [f"{name}: {'.' * max(0, self._wide - len(name) - 2)}" for name in block["names"]]

    def _cell(self, cell: Values) -> str:
        if not cell["digits"]:
            return self._line(cell["line"])
        number = cell["digits"] + " " * len(cell["pad"]) + self._mark(cell["figure"])
        rest = (cell["unit"], self._line(cell["line"]), cell["beside"])
        return " ".join(filter(None, (number, *rest)))

    def _line(self, line: Iterable[Values]) -> str:
        said = ""
        for part in line:
            text = part["text"] + self._mark(part["figure"]) + (f" {part['beside']}" if part["beside"] else "")
            said += text if not said or text[:1] in {",", ".", ";", ":", ")"} else f" {text}"
        return said

    def _mark(self, figure: int) -> str:
        return f" [{figure}]" if figure and self._numbered else ""


_BLOCKS: dict[str, Callable[[_Setter, Values], list[str]]] = {
    "heading": _Setter.heading,
    "paragraph": _Setter.text,
    "bullets": _Setter.lines,
    "particulars": _Setter.particulars,
    "table": _Setter.table,
    "plot": _Setter.plot,
    "pictures": _Setter.pictures,
    "care": _Setter.care,
    "next": _Setter.next,
    "blanks": _Setter.blanks,
}
