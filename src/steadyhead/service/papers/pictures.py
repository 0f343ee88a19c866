"""The photos that stand on a paper, by who reads it.

Everything that affects which photos stand on which paper lives in this file.

Rules
-----
1. A customer sees what changed: photos of the part and the place, as found and as left. The inside of a panel is not
   theirs to open.
2. The office keeps all. The next technician sees what saves opening a cover: plates, wiring, the place.
3. A warranty shows the part, its plate, and what the display said.
4. No paper has more than `MOST`, the customer's one row, since it is one sheet: the first, as found, and the last
   ones. The record has them all, and the paper says how many it left out.
"""

from __future__ import annotations

from collections.abc import Iterator

from steadyhead.documents.paper import Block, Paragraph, Picture, Pictures
from steadyhead.messages import Message, message
from steadyhead.service.papers.occasion import Occasion
from steadyhead.service.papers.tables import section
from steadyhead.service.record.views import Beside
from steadyhead.visit.check_keys import STAGES
from steadyhead.visit.fact_kinds import SHOWS

MOST = {"customer": 3, "office": 12, "next": 6, "warranty": 6}
#: What photos each reader sees, by what they show; the empty word is a photo of which nobody said.
SEEN_BY: dict[str, tuple[str, ...]] = {
    "customer": ("part", "place"),
    "office": ("", *SHOWS),
    "next": ("", "plate", "wiring", "place"),
    "warranty": ("display", "plate", "part"),
}


def photo_blocks(seen: Occasion, kind: str) -> Iterator[Block]:
    """Yield the photos of a paper under their head; nothing where it has none."""
    chosen = [each for each in seen.photos if _shows(each) in SEEN_BY[kind]]
    if not chosen:
        return
    more = len(chosen) - MOST[kind]
    shown = Pictures(pictures=tuple(map(_picture, (*chosen[:1], *chosen[1 + max(0, more) :]))))
    left = (Paragraph(line=(message("paper-photos-more", number=more),), tone="soft"),) if more > 0 else ()
    yield from section(message("paper-photos-head"), shown, *left)


def _shows(photo: Beside) -> str:
    shows = str(photo.body.get("shows", ""))
    return shows if shows in SHOWS else ""


def _picture(photo: Beside) -> Picture:
    return Picture(sha256=str(photo.body.get("sha256", "")), says=_says(photo))


def _says(photo: Beside) -> Message:
    """Return what stands under a photo: what it shows, when, and what was said of it."""
    stage, text = str(photo.body.get("stage", "")), str(photo.body.get("says", ""))
    shows = _shows(photo) or "photo"
    if stage in STAGES:
        id_ = "paper-photo-staged-text" if text else "paper-photo-staged"
        return message(id_, shows=shows, stage=stage, text=text)
    return message("paper-photo-shows-text" if text else "paper-photo-shows", shows=shows, text=text)
