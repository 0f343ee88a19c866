"""The quick guide as a paper: the help of every page of the app, in the order in which the guide tells them.

Rules
-----
1. It is made of the very texts that the pages show under *Help*; it has none of its own.
2. It is of no visit: it has no day and no way back, and is set like any other paper.
"""

from __future__ import annotations

from steadyhead.documents.laid import Look, Values, laid_out
from steadyhead.documents.paper import Care, Column, Paper, Table
from steadyhead.messages import message
from steadyhead.words import Manner
from steadyhead.words.help_names import GUIDE_PAGE, HELP_PAGES

KIND = "quick-guide"


def quick_guide() -> Paper:
    """Return the quick guide."""
    told = [page for page in HELP_PAGES if page != GUIDE_PAGE]
    rows = tuple(((message("guide-page", page=page),), (message(f"help-{page}"),)) for page in told)
    columns = (Column(head=message("guide-head-page"), share=2), Column(head=message("guide-head-do"), share=7))
    table = Table(says=message("quick-guide-note"), columns=columns, rows=rows)
    care = Care(lines=((message("local-codes-first"),),))
    return Paper(
        kind=KIND, title=message("help"), subject=message("quick-guide"), number=KIND, blocks=(care, table),
    )  # fmt: skip


def guide_in_words(paper: Paper, manner: Manner, look: Look) -> Values:
    """Return the quick guide in words, in a reader's language and in this region's words."""
    speaker = manner.speaker()
    return laid_out(paper, speaker.say, look, speaker.language)
