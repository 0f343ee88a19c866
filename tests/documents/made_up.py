"""Papers made up for tests, and what they say, worked out from the description alone."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from decimal import ROUND_HALF_EVEN, Decimal
from fractions import Fraction
from html.parser import HTMLParser
from typing import Any

from steadyhead.documents.paper import (
    Axis,
    Blanks,
    Block,
    Bullets,
    Care,
    Column,
    Heading,
    Line,
    Mark,
    Next,
    Paper,
    Paragraph,
    Particulars,
    Picture,
    Pictures,
    Plot,
    Shown,
    Table,
    Traced,
)
from steadyhead.figures import Figure, given
from steadyhead.messages import Message, message
from steadyhead.quantities.units import unit_named
from steadyhead.words import Speaker

#: What would be obeyed by a typesetter, a browser or a terminal, if any of it were not data.
HOSTILE = '#eval("1") *b* _i_ $x^2$ <script>alert(1)</script> "q" \'s\' \\ ] } @ref </style> &amp; {{ 7*7 }} = head'


def text(words: str) -> Message:
    """Return words of a person's own."""
    return message("paper-as-written", text=words)


def shown(value: float, unit: str = "V", places: int = 2, **more: Any) -> Shown:  # noqa: ANN401 - any field
    """Return a figure that was read."""
    dimension = {"V": "voltage", "psi": "pressure", "bar": "pressure", "": "number"}[unit]
    return Shown(figure=given("volts", value, dimension, "reading 1"), unit=unit, places=places, **more)


def computed() -> Figure:
    """Return a figure made of two others."""
    inputs = (given("signal-low", 0.5, "voltage", "plate"), given("signal-high", 4.5, "voltage", "plate"))
    return Figure(
        name="nominal-signal", value=2.5, dimension="voltage", formula="(signal-low + signal-high) / 2", inputs=inputs
    )


def every_block(typed: str = "Fernhill Row") -> Paper:
    """Return a paper with every kind of block."""
    two = Shown(figure=computed(), unit="V", places=2)
    blocks: tuple[Block, ...] = (
        Heading(says=message("paper-wrong-head")),
        Paragraph(line=(message("paper-called", text=typed),)),
        Paragraph(line=(two, message("paper-to"), shown(4.75)), tone="strong"),
        Bullets(lines=((text("one"),), (text(typed),))),
        Particulars(rows=((message("paper-range"), (shown(344737.864658, "psi", 0, beside=True),)),)),
        table(
            ((text("a"),), (shown(1.5, places=1),)), ((text(typed),), (shown(-12.25),)), ((text("c"),), (text("OL"),)),
        ),
        Plot(
            says=message("paper-card-plot"), x=Axis(says=text("x"), low=0.0, high=10.0, step=5.0),
            y=Axis(says=text(typed), low=0.0, high=1.0, step=0.5), line=((0.0, 0.0), (10.0, 1.0)),
            band=((0.0, 0.0, 0.1), (10.0, 0.9, 1.0)), marks=(Mark(x=5.0, y=0.5), Mark(x=6.0, y=0.5, shape="cross")),
        ),
        Care(lines=((message("local-codes-first"),),)),
        Next(lines=((Traced(says=message("paper-watch-call"), figure=computed()),),)),
        Blanks(names=(message("paper-sign-customer"), message("paper-sign-technician"))),
    )  # fmt: skip
    return Paper(
        kind="customer", title=message("paper-customer"), subject=message("paper-subject", name=typed),
        dated="2026-05-04 09:07", day="2026-05-04", number="69G5FAV0-customer",
        link="steadyhead:visit/01ARZ3NDEKTSV4RRFFQ69G5FAV", units=(("pressure", "psi"),), blocks=blocks,
    )  # fmt: skip


def table(*rows: tuple[Line, ...]) -> Table:
    """Return a table of two columns, the second one of figures."""
    columns = (Column(head=text("What"), share=2), Column(head=text("Shows"), align="decimal"))
    return Table(says=text("A table"), columns=columns, rows=rows)


def long_table(rows: int) -> Paper:
    """Return a paper with a table of so many rows."""
    body = table(*(((text(f"row {k}"),), (shown(k / 8, places=k % 4),)) for k in range(rows)))
    return replace(every_block(), blocks=(body,))


class Said:
    """Says what stands on a paper, from its description alone: figures by exact decimals, words by the speaker."""

    def __init__(self, decimal: str = ".") -> None:
        self.speaker, self.decimal = Speaker(decimal=decimal), decimal

    def words(self, paper: Paper) -> list[str]:
        """Return the words of a paper in their order, from its title to its last block."""
        said = [self.speaker.say(paper.title), self.speaker.say(paper.subject), paper.dated]
        said += [one for block in paper.blocks for one in self._block(block)]
        return " ".join(said).split()

    def _block(self, block: Block) -> Iterator[str]:
        if isinstance(block, Heading):
            yield self.speaker.say(block.says)
        elif isinstance(block, Paragraph):
            yield self._line(block.line)
        elif isinstance(block, (Bullets, Care, Next)):
            yield from ["Do this next"] if isinstance(block, Next) else []
            for line in block.lines:
                mark = {Care: "! ", Bullets: "• "}.get(type(block), "")
                yield mark + self._line(line)
        elif isinstance(block, Particulars):
            for name, line in block.rows:
                yield f"{self.speaker.say(name)} {self._line(line)}"
        elif isinstance(block, Table):
            yield self.speaker.say(block.says)
            yield from (self.speaker.say(column.head) for column in block.columns)
            yield from (self._line(cell) for row in block.rows for cell in row)
        elif isinstance(block, Blanks):
            yield from map(self.speaker.say, block.names)

    def _line(self, line: Line) -> str:
        return " ".join(filter(None, map(self._part, line)))

    def _part(self, part: Message | Shown | Traced) -> str:
        if isinstance(part, Message):
            return self.speaker.say(part)
        if isinstance(part, Traced):
            return self.speaker.say(part.says)
        whole = self._figure(part.figure.value, part.unit, part.places)
        said = whole if part.bare or not part.unit else f"{whole} {part.unit}"
        return (
            f"{said} ({self._figure(part.figure.value, 'kPa', 0)} kPa)" if part.beside and part.unit == "psi" else said
        )

    def _figure(self, value: float, unit: str, places: int) -> str:
        known = unit_named(unit)
        exact = Fraction(value) / (Fraction(known.numerator, known.denominator) if known else 1)
        near = Decimal(exact.numerator) / Decimal(exact.denominator)
        text_ = f"{near.quantize(Decimal(1).scaleb(-places), ROUND_HALF_EVEN)}"
        return text_.replace("-", "\N{MINUS SIGN}").replace(".", self.decimal)


class Html(HTMLParser):
    """What a page of HTML holds: its words in order, its elements, its anchors."""

    def __init__(self, page: str) -> None:
        super().__init__()
        self.tags: list[tuple[str, dict[str, str | None]]] = []
        self.parts: list[str] = []
        self._silent = 0
        self.feed(page)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Take a tag in; what is in a style, a head or a drawing is not read."""
        self.tags.append((tag, dict(attrs)))
        self._silent += tag in {"style", "svg", "title", "figcaption"}
        self.parts.append(" " if tag not in {"a", "span", "i", "b"} else "")
        self.parts.append(" " if "under" in (dict(attrs).get("class") or "") else "")
        self.parts.append("• " if tag == "li" else "")

    def handle_endtag(self, tag: str) -> None:
        """Close a tag."""
        self._silent -= tag in {"style", "svg", "title", "figcaption"}
        self.parts.append(" " if tag not in {"a", "span", "i", "b"} else "")

    def handle_data(self, data: str) -> None:
        """Take text in."""
        if not self._silent:
            self.parts.append(data)

    @property
    def words(self) -> list[str]:
        """Return the words in their order."""
        return "".join(self.parts).split()


def with_photos(*shown: tuple[str, str]) -> Paper:
    """Return a paper whose only block is photos, each by its SHA-256 and what it shows."""
    pictures = tuple(Picture(sha256=sha256, says=text(says)) for sha256, says in shown)
    return replace(every_block(), blocks=(Pictures(pictures=pictures),))
