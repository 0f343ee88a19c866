"""Use cases: how a person is spoken to here, kept as this device's own setting.

Rules
-----
1. It is a setting, no fact: it changes what is read on this device, and is never passed on.
2. Whoever joined from another device has a manner of their own, under their own key; until they choose one, this
   device's holds for them.
3. A word that this version does not know (a newer one wrote it) is left out of what is used, and stays kept until
   somebody chooses anew.
"""

from __future__ import annotations

import json
from typing import Any

from steadyhead.errors import UnknownWordError
from steadyhead.service.ports import UnitOfWork
from steadyhead.service.record.given import Given
from steadyhead.words import Manner

MANNER = "manner"


def manner_of(given: Given, who: str, usual: Manner) -> Manner:
    """Return how somebody is spoken to here.

    Parameters
    ----------
    given
        Store, ids, clock.
    who
        Empty for this device itself, else who joined from another.
    usual
        How whoever chose nothing is spoken to.
    """
    with given.reading() as work:
        words = {**_kept(work, ""), **(_kept(work, who) if who else {})}
    for key, word in words.items():
        try:
            usual = Manner(**{**usual.words(), key: word})
        except (UnknownWordError, TypeError):
            continue
    return usual


def set_manner(given: Given, who: str, manner: Manner) -> None:
    """Keep how somebody is spoken to here."""
    with given.writing() as work:
        work.set_setting(_key(who), json.dumps(manner.words(), sort_keys=True))
        work.commit()


def _key(who: str) -> str:
    return f"{MANNER}.{who}" if who else MANNER


def _kept(work: UnitOfWork, who: str) -> dict[str, Any]:
    kept = json.loads(work.setting(_key(who)) or "{}")
    return kept if isinstance(kept, dict) else {}
