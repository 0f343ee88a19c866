"""What a watched visit left open, as the system's next one takes it along.

Rules
-----
1. A visit that ends watched keeps what was believed then; the next visit of the system begins with it in its own first
   fact, so that it has one answer everywhere, whatever happens to the earlier one later.
2. The visit before is the one of the same system whose last word is latest. Where that one did not end watched, or two
   devices ended it differently, nothing is left open: what was proved, made safe or declined since holds.
3. Repairs after the earlier visit's last reading go along, as mended.
4. Shares below `LEAST` say nothing, and a share is kept to a tenth of a percent: nobody knows it better.
"""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime
from typing import Any
from zoneinfo import ZoneInfo

from steadyhead.diagnosis.answer import Answer
from steadyhead.service.ports import UnitOfWork
from steadyhead.service.record.given import Given, today_of
from steadyhead.service.record.whole import told
from steadyhead.visit.from_facts import ToldVisit
from steadyhead.visit.kinds_of_belief import texts_of

WATCHING = "watching"
LEAST, MOST = 0.005, 24


def believed_of(answer: Answer | None) -> list[str]:
    """Return what an answer believes of each suspect, the likeliest first, as a visit file spells it."""
    shares = [(each.fault, round(each.probability, 3)) for each in answer.suspects] if answer else []
    return texts_of([(fault, share) for fault, share in shares if share >= LEAST][:MOST])


def former_of(given: Given, work: UnitOfWork, system: str) -> dict[str, Any]:
    """Return what the visit before left open at a system, as the keys of ``[former]``; empty where nothing is."""
    zone = ZoneInfo(given.zone)
    cards = work.visit_cards(system=system)
    gone = work.purged(card.visit for card in cards)
    known = [card for card in cards if card.visit not in gone]
    if not known:
        return {}
    last = told(work, max(known, key=lambda card: (card.last_at, card.visit)).visit)
    own = last.entities[last.id]
    ending = own.body.get("ending")
    if own.conflicts or own.body.get("state") != WATCHING or not isinstance(ending, Mapping):
        return {}
    believed = ending.get("believed")
    if not believed:
        return {}
    ended = datetime.fromisoformat(own.head.at).astimezone(zone).date()
    days = max((today_of(given) - ended).days, 0)
    mended = _mended_after(last)
    found = {"ended": ended.isoformat(), "ago": f"{days} d", "believed": list(believed)}
    return {**found, "mended": mended} if mended else found


def _mended_after(last: ToldVisit) -> list[str]:
    """Return the remedies of the repairs after which nothing was read any more."""
    visit = last.visit
    after = (each.remedy for each in visit.actions if each.after_reading >= len(visit.readings))
    return sorted({part for remedy in after for part in remedy.split("+")})
