"""A paper in words, laid out as plain values, from which HTML and PDF are set: both say the same because of it.

Rules
-----
1. Everything that is said here is text: whoever sets it puts it in as text, never as markup.
2. A part of a line has its text, the number of its figure (0 for none) and its SI; a figure that stands in a column has
   its digits, what fills them up, its unit and its SI apart.
3. The same paper, words and look give the same values, byte for byte.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from typing import Any, Literal

from steadyhead.documents.canonical import SHORT, content_hash, way_back
from steadyhead.documents.made import Made, Say, Teller
from steadyhead.documents.numbers import DecimalSign, beside, number, pads
from steadyhead.documents.paper import (
    Blanks,
    Block,
    Bullets,
    Care,
    Column,
    Heading,
    Inline,
    Line,
    Next,
    Paper,
    Paragraph,
    Particulars,
    Pictures,
    Plot,
    Shown,
    Table,
    Traced,
)
from steadyhead.documents.plot import plot_svg
from steadyhead.documents.qr import qr_svg
from steadyhead.messages import Message, message

Sheet = Literal["a4", "letter", "a6"]
SHEETS: tuple[Sheet, ...] = ("a4", "letter", "a6")
Values = dict[str, Any]


@dataclass(frozen=True, slots=True, kw_only=True)
class Look:
    """How a paper is set: sheet, decimal sign, whether the making of its figures is printed, whose letterhead.

    The letterhead is lines of text, and a logo by the SHA-256 of its bytes, empty where there is none.
    """

    sheet: Sheet = "a4"
    decimal: DecimalSign = "."
    trace: bool = False
    issuer: tuple[str, ...] = ()
    logo: str = ""


def laid_out(paper: Paper, say: Say, look: Look, language: str = "en") -> Values:
    """Return a paper in words.

    Parameters
    ----------
    paper
        What it says.
    say
        Makes a sentence of a message; its decimal sign must be the look's.
    look
        How it is set.
    language
        Two letters: the language that `say` speaks.
    """
    setter = _Setter(say, look)
    blocks = [setter.block(block) for block in paper.blocks]
    full = content_hash(paper)
    teller = Teller(say=say, units=dict(paper.units), decimal=look.decimal)
    back = way_back(paper, full)
    return {
        "language": language, "kind": paper.kind, "form": paper.form, "sheet": look.sheet, "decimal": look.decimal,
        "trace": look.trace, "title": say(paper.title), "subject": say(paper.subject), "dated": paper.dated,
        "day": paper.day, "number": paper.number, "hash": full, "blocks": blocks, "made": setter.made.lines(teller),
        "short": " ".join(full[at : at + 4] for at in range(0, SHORT, 4)), "link": back,
        "qr": qr_svg(back) if back else "", "words": _furniture(say), "issuer": list(look.issuer),
        "logo": look.logo,
    }  # fmt: skip


def pictured(laid: Values) -> tuple[str, ...]:
    """Return the SHA-256 of each picture that a paper in words has, its letterhead's logo first."""
    blocks = (block for block in laid["blocks"] if block["is"] == "pictures")
    found = [laid["logo"], *(each["sha256"] for block in blocks for each in block["pictures"])]
    return tuple(dict.fromkeys(filter(None, found)))


def _furniture(say: Say) -> dict[str, str]:
    """Return the words that every paper has."""
    return {
        "made": say(message("paper-made-head")),
        "inputs": say(message("paper-made-of")),
        "number": say(message("paper-number")),
        "hash": say(message("paper-hash")),
        "qr": say(message("paper-qr")),
        "care": say(message("paper-care")),
        "next": say(message("paper-next")),
        "logo": say(message("paper-logo")),
        "lacking": say(message("paper-picture-lacking")),
    }


class _Setter:
    """Says the blocks of one paper."""

    def __init__(self, say: Say, look: Look) -> None:
        self.made = Made()
        self._say = say
        self._look = look
        self._plots = 0

    def block(self, block: Block) -> Values:
        """Return a block in words."""
        return _BLOCKS[type(block)](self, block)

    def heading(self, block: Heading) -> Values:
        """Return a heading in words."""
        return {"is": "heading", "text": self._say(block.says)}

    def paragraph(self, block: Paragraph) -> Values:
        """Return a paragraph in words."""
        return {"is": "paragraph", "tone": block.tone, "line": self.line(block.line)}

    def bullets(self, block: Bullets) -> Values:
        """Return lines in words."""
        return {"is": "bullets", "lines": self.lines(block.lines)}

    def particulars(self, block: Particulars) -> Values:
        """Return pairs of a name and what it is in words."""
        rows = [{"name": self._say(name), "line": self.line(line)} for name, line in block.rows]
        return {"is": "particulars", "rows": rows}

    def care(self, block: Care) -> Values:
        """Return cautions in words."""
        return {"is": "care", "lines": self.lines(block.lines)}

    def next(self, block: Next) -> Values:
        """Return what is to be done next in words."""
        return {"is": "next", "lines": self.lines(block.lines)}

    def blanks(self, block: Blanks) -> Values:
        """Return lines to write on in words."""
        return {"is": "blanks", "names": [self._say(name) for name in block.names]}

    def plot(self, block: Plot) -> Values:
        """Return a drawing in words."""
        self._plots += 1
        svg = plot_svg(block, self._say, self._look.decimal, self._plots)
        return {"is": "plot", "says": self._say(block.says), "svg": svg}

    def pictures(self, block: Pictures) -> Values:
        """Return photos in words: their bytes stand beside the paper, by their SHA-256."""
        return {"is": "pictures", "pictures": [{"sha256": p.sha256, "says": self._say(p.says)} for p in block.pictures]}

    def table(self, block: Table) -> Values:
        """Return a table, its cells column by column, since figures stand by the column in words."""
        columns = [{"head": self._say(c.head), "align": c.align, "share": c.share} for c in block.columns]
        bodies = [self._column(column, cells) for column, cells in _by_column(block)]
        rows = [list(row) for row in zip(*bodies, strict=True)]
        return {"is": "table", "says": self._say(block.says), "columns": columns, "rows": rows}

    def _column(self, column: Column, cells: list[Line]) -> list[Values]:
        if column.align != "decimal":
            return [self._plain(cell) for cell in cells]
        places = [cell[0].places if cell and isinstance(cell[0], Shown) else None for cell in cells]
        return [self._aligned(cell, pad) for cell, pad in zip(cells, pads(places), strict=True)]

    def _plain(self, cell: Line) -> Values:
        """Return a cell that is a line of words and figures."""
        return {"digits": "", "pad": "", "unit": "", "beside": "", "figure": 0, "line": self.line(cell)}

    def _aligned(self, cell: Line, pad: int) -> Values:
        """Return a cell whose first part stands by its decimal sign."""
        if not cell or not isinstance(cell[0], Shown):
            return self._plain(cell)
        first = cell[0]
        return {
            "digits": number(first, self._look.decimal),
            "pad": ("" if pad >= 0 else self._look.decimal) + "0" * abs(pad),
            "unit": "" if first.bare else self._unit(first.unit),
            "beside": self._beside(first),
            "figure": self.made.number(first.figure),
            "line": self.line(cell[1:]),
        }

    def lines(self, lines: Iterable[Line]) -> list[list[Values]]:
        """Return lines in words."""
        return [self.line(line) for line in lines]

    def line(self, line: Line) -> list[Values]:
        """Return a line in words, part by part."""
        return [self._part(part) for part in line]

    def _part(self, part: Inline) -> Values:
        if isinstance(part, Message):
            return {"text": self._say(part), "figure": 0, "beside": ""}
        figure = self.made.number(part.figure)
        if isinstance(part, Traced):
            return {"text": self._say(part.says), "figure": figure, "beside": ""}
        unit = "" if part.bare else self._unit(part.unit)
        text = " ".join(filter(None, (number(part, self._look.decimal), unit)))
        return {"text": text, "figure": figure, "beside": self._beside(part)}

    def _beside(self, shown: Shown) -> str:
        """Return a figure in SI, in its brackets; nothing where it stands so already."""
        found = beside(shown, self._look.decimal) if shown.beside else None
        return f"({found[0]} {self._unit(found[1])})" if found else ""

    def _unit(self, unit: str) -> str:
        return self._say(message("paper-unit", unit=unit)) if unit else ""


def _by_column(table: Table) -> list[tuple[Column, list[Line]]]:
    return [(column, [row[k] for row in table.rows]) for k, column in enumerate(table.columns)]


_BLOCKS: dict[type, Callable[[_Setter, Any], Values]] = {
    Heading: _Setter.heading,
    Paragraph: _Setter.paragraph,
    Bullets: _Setter.bullets,
    Particulars: _Setter.particulars,
    Table: _Setter.table,
    Plot: _Setter.plot,
    Care: _Setter.care,
    Next: _Setter.next,
    Blanks: _Setter.blanks,
    Pictures: _Setter.pictures,
}
