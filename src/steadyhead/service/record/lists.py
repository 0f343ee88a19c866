"""Use cases: what stands on the first page and in the lists; read off the cards, never off all facts."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from steadyhead.service.ports import PAGE, UnitOfWork
from steadyhead.service.record.demo import demo_id
from steadyhead.service.record.given import Given
from steadyhead.service.record.views import SystemLine, Today, VisitLine
from steadyhead.visit.cards import SystemCard, VisitCard
from steadyhead.visit.fact_kinds import OPEN

#: Ended visits on the first page.
ENDED = 10


def today(given: Given) -> Today:
    """Return the open visits, some that ended, and the systems that are known; what was erased is not among them."""
    with given.reading() as work:
        open_ = visits_left(work, work.visit_cards(state=OPEN))
        recent = [card for card in visits_left(work, work.visit_cards()) if card.state != OPEN]
        systems = _systems_left(work, work.system_cards())
        names = {card.system: card.name for card in systems}
        lines = visit_lines(work, [*open_, *recent[:ENDED]], names)
    return Today(
        visits=lines[: len(open_)], ended=lines[len(open_) :], systems=tuple(_system_line(card) for card in systems)
    )


def find_visits(given: Given, text: str, *, before: str = "") -> tuple[VisitLine, ...]:
    """Return visits whose complaint holds a text, last changed first; `before` is where the last page ended."""
    with given.reading() as work:
        return visit_lines(work, visits_left(work, work.visit_cards(text=text, before=before)), {})


def find_systems(given: Given, text: str, *, before: str = "") -> tuple[SystemLine, ...]:
    """Return systems of which something holds a text, last changed first."""
    with given.reading() as work:
        return system_lines(work, work.system_cards(text=text, before=before, limit=PAGE))


def system_lines(work: UnitOfWork, cards: Iterable[SystemCard]) -> tuple[SystemLine, ...]:
    """Return the lines of systems; what was erased is not among them."""
    return tuple(map(_system_line, _systems_left(work, cards)))


def visit_lines(work: UnitOfWork, cards: Iterable[VisitCard], names: Mapping[str, str]) -> tuple[VisitLine, ...]:
    """Return the lines of visits; the name of a system that is not among `names` is looked up once."""
    known = dict(names)
    demo = demo_id(work)
    every = tuple(cards)
    known |= work.names({card.system for card in every if card.system is not None} - known.keys())
    return tuple(_visit_line(card, known.get(card.system or "", ""), demo) for card in every)


def _visit_line(card: VisitCard, name: str, demo: str) -> VisitLine:
    return VisitLine(
        id=card.visit, name=name, at=card.last_at, complaint=card.complaint, readings=card.readings, state=card.state,
        demo=card.visit == demo, photos=card.photos, conflict=card.heads > 1,
    )  # fmt: skip


def _system_line(card: SystemCard) -> SystemLine:
    return SystemLine(
        id=card.system, name=card.name, signal=card.signal, range=card.range, visits=card.visits,
        open_visits=card.open_visits, conflict=card.heads > 1,
    )  # fmt: skip


def visits_left(work: UnitOfWork, cards: Iterable[VisitCard]) -> list[VisitCard]:
    """Return the visits that stand: begun here, and not erased."""
    every = [card for card in cards if card.heads]
    gone = work.purged(card.visit for card in every)
    return [card for card in every if card.visit not in gone]


def _systems_left(work: UnitOfWork, cards: Iterable[SystemCard]) -> list[SystemCard]:
    every = list(cards)
    gone = work.purged(card.system for card in every)
    return [card for card in every if card.system not in gone]
