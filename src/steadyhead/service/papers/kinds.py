"""The kinds of papers: what makes each, and on which sheet it stands where nobody says.

Everything that affects which papers there are lives in this file.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from steadyhead.documents.laid import SHEETS, Look, Sheet, Values, laid_out
from steadyhead.documents.numbers import DecimalSign
from steadyhead.documents.paper import Paper
from steadyhead.errors import UnknownWordError
from steadyhead.messages import message
from steadyhead.service.diagnosis import speaker_of
from steadyhead.service.papers.checked import Checked
from steadyhead.service.papers.customer import customer_report
from steadyhead.service.papers.next_technician import next_report
from steadyhead.service.papers.night_card import night_card
from steadyhead.service.papers.occasion import Occasion
from steadyhead.service.papers.office import office_report
from steadyhead.service.papers.reading_card import reading_card
from steadyhead.service.papers.tag import tag
from steadyhead.service.papers.warranty import warranty_report
from steadyhead.visit.nearest import nearest_first, shown
from steadyhead.words import Manner

Maker = Callable[[Occasion], Paper]
#: Id of each kind, as commands and addresses have it, and what makes it.
KINDS: dict[str, Maker] = {
    "customer": customer_report,
    "office": office_report,
    "next": next_report,
    "warranty": warranty_report,
    "reading-card": reading_card,
    "tag": tag,
    "night-card": night_card,
}
#: The sheet of a report, by region (common practice); cards and tags are A6 everywhere.
SHEET_OF: dict[str, Sheet] = {"north-america": "letter", "elsewhere": "a4"}
SIGNS = (".", ",")
#: The paper of a sensor check; every other one is of a visit.
OF_A_CHECK = "certificate"


def paper_of(kind: str, seen: Occasion) -> Paper:
    """Return a paper of a visit.

    Raises
    ------
    UnknownWordError
        ``paper-unknown``: there is no such kind.
    """
    if kind not in KINDS:
        ordered, nearest = nearest_first(kind, (*KINDS, OF_A_CHECK))
        raise UnknownWordError(message("paper-unknown", got=shown(kind), must_be=ordered, nearest=nearest))
    return KINDS[kind](seen)


def look_of(
    paper: Paper,
    manner: Manner,
    *,
    sheet: str = "",
    decimal: str = "",
    trace: bool = False,
    issuer: tuple[str, ...] = (),
    logo: str = "",
) -> Look:
    """Return how a paper is set; what nobody says is usual for its kind and the reader's region.

    Raises
    ------
    UnknownWordError
        ``sheet-unknown`` or ``decimal-sign-unknown``.
    """
    usual = "a6" if paper.form != "sheet" else SHEET_OF[manner.region]
    chosen = next((each for each in SHEETS if each == (sheet or usual)), None)
    if chosen is None:
        raise UnknownWordError(message("sheet-unknown", got=shown(sheet), must_be=SHEETS))
    if decimal not in {"", *SIGNS}:
        raise UnknownWordError(message("decimal-sign-unknown", got=shown(decimal), must_be=SIGNS))
    sign: DecimalSign = "," if (decimal or manner.decimal) == "," else "."
    return Look(sheet=chosen, decimal=sign, trace=trace, issuer=issuer, logo=logo)


def certificate_in_words(paper: Paper, seen: Checked, manner: Manner, look: Look) -> Values:
    """Return the certificate of a sensor check in words, in its unit of pressure and this region's words."""
    speaker = replace(seen.speaker(manner), decimal=look.decimal)
    return laid_out(paper, speaker.say, look, speaker.language)


def in_words(paper: Paper, seen: Occasion, manner: Manner, look: Look) -> Values:
    """Return a paper in words, in this panel's labels and this region's."""
    speaker = replace(speaker_of(seen.visit, manner), decimal=look.decimal)
    return laid_out(paper, speaker.say, look, speaker.language)
