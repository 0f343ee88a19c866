"""What a paper says, before any language and any sheet: a title, what it is about, and blocks, as frozen data.

Everything that affects what can stand on a paper lives in this file.

Rules
-----
1. A paper says messages and figures, never sentences: the words come in when it is set (`steadyhead.documents.laid`).
2. A figure that stands on a paper carries its descent (`steadyhead.figures.Figure`), so that a reader can follow it
   down to what was read.
3. A paper is written once and set twice, as HTML and as PDF; neither adds a word of its own.
4. What a person typed is a value of a message. Nothing of it is ever markup.
5. Its content, and nothing else, decides its hash (`steadyhead.documents.canonical`): not the sheet, the language, the
   decimal sign or the way back to the record.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from steadyhead.figures import Figure
from steadyhead.messages import Message

#: A sheet of paper for a desk, a card for a panel's door, a tag for a valve.
Form = Literal["sheet", "card", "tag"]
Align = Literal["start", "end", "decimal"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Shown:
    """A figure as it stands on the paper.

    Parameters
    ----------
    figure
        The figure with its descent, SI.
    unit
        Symbol of the unit that it is shown in (`steadyhead.quantities.UNITS`); empty where it has none.
    places
        Digits after the decimal sign.
    beside
        Whether its SI unit stands beside it, where that is another one.
    own
        The unit in which it is printed on a plate, where that is another one than is shown: it stands beside in the
        SI's place.
    signed
        Whether a figure above zero has its sign, as an error has.
    bare
        Whether the unit is left out here, since the column's head has it.
    """

    figure: Figure
    unit: str
    places: int
    beside: bool = False
    own: str = ""
    signed: bool = False
    bare: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Traced:
    """Words that say a figure, such as odds: a reader can follow them as if they were digits."""

    says: Message
    figure: Figure


Inline = Message | Shown | Traced
#: What stands in one line or one cell, one after the other.
Line = tuple[Inline, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Heading:
    """The head of a section."""

    says: Message


@dataclass(frozen=True, slots=True, kw_only=True)
class Paragraph:
    """Running text; `strong` for the one thing that a reader must not miss, `soft` for what may be passed over."""

    line: Line
    tone: Literal["plain", "strong", "soft"] = "plain"


@dataclass(frozen=True, slots=True, kw_only=True)
class Bullets:
    """Lines of one kind, one under the other."""

    lines: tuple[Line, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Particulars:
    """What something is: a name and what it is, one pair a row."""

    rows: tuple[tuple[Message, Line], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Column:
    """One column of a table: its head, how its cells stand, how broad it is against the others."""

    head: Message
    align: Align = "start"
    share: int = 1


@dataclass(frozen=True, slots=True, kw_only=True)
class Table:
    """A table; its heads are repeated on each page, and no row is broken.

    Parameters
    ----------
    says
        What it shows, for a reader who does not see it, and as its caption.
    columns
        Its columns; in one that is ``decimal``, a cell whose first part is a `Shown` stands by its decimal sign.
    rows
        As many cells a row as columns. The first cell is the row's head.
    """

    says: Message
    columns: tuple[Column, ...]
    rows: tuple[tuple[Line, ...], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Axis:
    """One axis of a plot, in the unit that it is shown in."""

    says: Message
    low: float
    high: float
    step: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Mark:
    """One point of a plot, and its shape: shapes tell kinds apart, since colours do not print."""

    x: float
    y: float
    shape: Literal["dot", "ring", "cross"] = "dot"


@dataclass(frozen=True, slots=True, kw_only=True)
class Plot:
    """A drawing of figures: a line, a hatched band about it, marks; `says` tells a reader who does not see it."""

    says: Message
    x: Axis
    y: Axis
    line: tuple[tuple[float, float], ...] = ()
    band: tuple[tuple[float, float, float], ...] = ()
    marks: tuple[Mark, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Care:
    """What can hurt somebody."""

    lines: tuple[Line, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Next:
    """What is to be done next: the one accent of a paper."""

    lines: tuple[Line, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Blanks:
    """Lines to write on, each under its name: a signature, a serial number."""

    names: tuple[Message, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Picture:
    """A photo: its bytes by their SHA-256, and what it shows; whoever sets the paper is handed the bytes."""

    sha256: str
    says: Message


@dataclass(frozen=True, slots=True, kw_only=True)
class Pictures:
    """Photos, two beside each other where the sheet has room."""

    pictures: tuple[Picture, ...]


Block = Heading | Paragraph | Bullets | Particulars | Table | Plot | Care | Next | Blanks | Pictures


@dataclass(frozen=True, slots=True, kw_only=True)
class Paper:
    """One paper.

    Parameters
    ----------
    kind
        Id of the kind: ``customer``, ``reading-card``.
    form
        What it is printed on.
    title
        What kind of paper it is.
    subject
        What it is about, most often a system by its own name.
    dated
        The day and time that it speaks of, at the site; empty where nobody knows.
    day
        The same day as ``2026-05-04``; empty where nobody knows.
    number
        What it goes by: it names visit and kind.
    link
        Leads back to the record; not part of the content.
    units
        Unit in which a dimension's figures are shown where nothing else is said, by dimension.
    blocks
        What it says.
    """

    kind: str
    form: Form = "sheet"
    title: Message
    subject: Message
    dated: str = ""
    day: str = ""
    number: str = ""
    link: str = ""
    units: tuple[tuple[str, str], ...] = ()
    blocks: tuple[Block, ...] = ()
