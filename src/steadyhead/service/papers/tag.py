"""The tag for what was left temporary: what, why, until when, who watches, what protects no longer; to be tied there.

Rules
-----
1. It holds what the record says was left; where nobody said, it has lines to write on, and says that nothing is known.
2. Where a way was worked out its limits stand above all: how fast at most, at what pressure to switch off.
3. It says first that nothing here is to be changed, and last who comes first: local codes and a licensed person.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from steadyhead.documents.paper import Blanks, Block, Bullets, Care, Heading, Next, Paper, Paragraph, Particulars
from steadyhead.messages import message
from steadyhead.service.papers.occasion import Occasion
from steadyhead.service.papers.one_unit import limit_turned
from steadyhead.service.papers.pieces import head_of, invented

KIND = "tag"
CAUTIONS = (message("local-codes-first"), message("starts-by-itself"))
#: The limits of a way that was worked out, by their keys, in the order in which somebody at the pump needs them.
LIMITS = {
    "pressure_most": message("paper-tonight-pressure"),
    "hertz_most": message("paper-tonight-hertz"),
    "hertz_start": message("paper-tonight-start"),
    "cut_out": message("paper-tonight-cut-out"),
}


def tag(seen: Occasion) -> Paper:
    """Return the tag of what a visit left temporary."""
    return replace(head_of(seen, KIND, message("paper-tag")), form="tag", blocks=tuple(_blocks(seen)))


def _blocks(seen: Occasion) -> Iterator[Block]:
    yield from invented(seen)
    yield Paragraph(line=(message("paper-tag-leave"),), tone="strong")
    if seen.temporary:
        yield from _left(seen)
    else:
        yield Blanks(
            names=(
                message("paper-tag-what"), message("paper-tag-why"), message("paper-tag-until"),
                message("paper-tag-watch"), message("paper-tag-lost"),
            )
        )  # fmt: skip
    yield Next(lines=((message("paper-tag-then"),),))
    yield Care(lines=tuple((told,) for told in CAUTIONS))
    yield Blanks(names=(message("paper-sign-technician"),))


def _left(seen: Occasion) -> Iterator[Block]:
    """Yield what was left, and what protects no longer."""
    said = {key: str(seen.temporary.get(key, "")) for key in ("what", "why", "until", "watch")}
    names = {
        "what": message("paper-tag-what"), "why": message("paper-tag-why"), "until": message("paper-tag-until"),
        "watch": message("paper-tag-watch"),
    }  # fmt: skip
    unit = seen.visit.pressure_unit
    told = ((name, str(seen.temporary.get(key) or "")) for key, name in LIMITS.items())
    limits = [(name, limit_turned(text, unit)) for name, text in told if text]
    if limits:
        yield Particulars(rows=tuple((name, (message("paper-as-written", text=text),)) for name, text in limits))
        yield Paragraph(line=(message("paper-tonight-never"),), tone="strong")
    yield Particulars(rows=tuple((names[key], (message("paper-as-written", text=text),)) for key, text in said.items()))
    lost = seen.temporary.get("lost") or ()
    yield Heading(says=message("paper-tag-lost"))
    if lost:
        yield Bullets(lines=tuple((message("paper-protection", protection=str(each)),) for each in lost))
    else:
        yield Paragraph(line=(message("paper-tag-nothing-lost"),))
