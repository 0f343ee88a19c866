"""Keeps a form that is sent twice from being kept twice, and every fact of a visit in the order in which it came.

Rules
-----
1. A form carries an id that was made with it: its token. The fact that it makes has that id.
2. Where the visit has later facts by now (another tab, another device), the fact takes an id after all of them and
   names its token in a key beside its fields, so that the order stays and the token is still found.
3. A token that another visit's fact has is refused.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

from steadyhead.errors import RecordError
from steadyhead.messages import message
from steadyhead.service.ports import MakesIds, UnitOfWork
from steadyhead.visit.facts import Fact
from steadyhead.visit.ids import is_ulid

TOKEN = "token"  # noqa: S105 - the name of a key, no secret


@dataclass(frozen=True, slots=True)
class Slot:
    """Where a new fact goes: its id, what names its token, and the fact that the same token has made already."""

    id: str
    extra: Mapping[str, str] = field(default_factory=dict)
    already: Fact | None = None


def slot(work: UnitOfWork, ids: MakesIds, facts: Iterable[Fact], token: str | None) -> Slot:
    """Return where a new fact goes among the facts of a visit or an entity.

    Raises
    ------
    RecordError
        The token is no id, or another visit's.
    """
    every = tuple(facts)
    newest = max((fact.id for fact in every), default="")
    if token is None:
        return Slot(ids.new(newest))
    if not is_ulid(token):
        raise RecordError(message("id-unreadable", got=token[:80]))
    already = next((fact for fact in every if token in {fact.id, fact.extra.get(TOKEN)}), None)
    if already is not None:
        return Slot(already.id, already=already)
    if work.fact(token) is not None:
        raise RecordError(message("id-taken", got=token))
    return Slot(token) if token > newest else Slot(ids.new(newest), {TOKEN: token})
