"""Use case: find anything of the record by some words that a person remembers.

Rules
-----
1. Every word must stand somewhere in what is found, in any order, without regard to capitals and accents; a part of a
   word will do.
2. A system is found by what its plates and its labels say; a visit by its complaint, who was there, and all that was
   written in it: notes, parts, serial numbers; so are the visits of a system that is found.
3. What was erased is not found.
"""

from __future__ import annotations

from dataclasses import dataclass

from steadyhead.service.ports import PAGE, UnitOfWork
from steadyhead.service.record.given import Given
from steadyhead.service.record.lists import find_systems, find_visits, system_lines, visit_lines
from steadyhead.service.record.views import SystemLine, VisitLine

#: Visits of the systems found, of which each shows no more.
OF_EACH = 5


@dataclass(frozen=True, slots=True)
class NamedThing:
    """An instrument or a site that is found: its id and its name."""

    id: str
    name: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Found:
    """What some words find, by what it is."""

    systems: tuple[SystemLine, ...] = ()
    visits: tuple[VisitLine, ...] = ()
    instruments: tuple[NamedThing, ...] = ()

    @property
    def nothing(self) -> bool:
        """Whether nothing was found."""
        return not (self.systems or self.visits or self.instruments)


def find(given: Given, text: str) -> Found:
    """Return what some words find; nothing where no word is given."""
    if not text.split():
        return Found()
    systems = list(find_systems(given, text))
    with given.reading() as work:
        systems += _at_sites(work, text, {each.id for each in systems})
        theirs = [visit for each in systems for visit in work.visit_cards(system=each.id, limit=OF_EACH) if visit.heads]
        gone = work.purged(card.visit for card in theirs)
        names = {each.id: each.name for each in systems}
        more = visit_lines(work, (card for card in theirs if card.visit not in gone), names)
        cards = work.entities("instrument", text=text)
        erased = work.purged(card.about for card in cards)
    visits = {each.id: each for each in (*find_visits(given, text), *more)}
    return Found(
        systems=tuple(systems), visits=tuple(visits.values())[:PAGE],
        instruments=tuple(NamedThing(card.about, card.name) for card in cards if card.about not in erased),
    )  # fmt: skip


def _at_sites(work: UnitOfWork, text: str, known: set[str]) -> list[SystemLine]:
    """Return the systems of the sites that are found, but for those known already."""
    sites = work.entities("site", text=text)
    cards = [card for site in sites for card in work.system_cards(site=site.about)]
    return [line for line in system_lines(work, cards) if line.id not in known]
