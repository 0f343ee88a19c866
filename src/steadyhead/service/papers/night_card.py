"""The customer's card for a night's test: what is shut, what is read and when, lines to write on, whom to ring.

Rules
-----
1. It is for somebody who has never read a gauge: one step a line, in the order of the evening and the morning.
2. What can hurt stands first: who needs water in the night does not make this test.
3. What was not said has a line to write on.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from steadyhead.documents.paper import Blanks, Block, Bullets, Care, Heading, Paper, Paragraph
from steadyhead.messages import message
from steadyhead.service.papers.occasion import Occasion
from steadyhead.service.papers.pieces import head_of, invented
from steadyhead.water.night import ALL_TAPS

KIND = "night-card"
LINES = (
    message("paper-night-evening-gauge"), message("paper-night-evening-meter"),
    message("paper-night-morning-gauge"), message("paper-night-morning-meter"),
)  # fmt: skip
CAUTIONS = (message("local-codes-first"), message("ending-pump-off"))


def night_card(seen: Occasion) -> Paper:
    """Return the customer's card for a night's test."""
    return replace(head_of(seen, KIND, message("paper-night-card")), form="card", blocks=tuple(_blocks(seen)))


def _blocks(seen: Occasion) -> Iterator[Block]:
    yield from invented(seen)
    yield Paragraph(line=(message("paper-night-why"),), tone="strong")
    yield Care(lines=tuple((told,) for told in CAUTIONS))
    taps = seen.night.get("shut") == ALL_TAPS
    yield Heading(says=message("paper-night-evening"))
    shut = message("paper-night-taps" if taps else "paper-night-valve")
    yield Bullets(lines=((message("paper-night-off"),), (shut,), (message("paper-night-wait"),)))
    yield Heading(says=message("paper-night-morning"))
    yield Bullets(lines=((message("paper-night-read-again"),), (message("paper-night-open"),)))
    yield Blanks(names=LINES)
    yield Paragraph(line=(message("paper-night-water"),))
    ring = str(seen.night.get("ring") or "")
    if ring:
        yield Paragraph(line=(message("paper-night-ring", text=ring),), tone="strong")
    else:
        yield Blanks(names=(message("ending-ring"),))
