"""Use cases: phones that joined this device over the local network, and their going again.

Rules
-----
1. They are a setting of this device, no fact: who joined is never passed on.
2. Of what lets a phone in only the SHA-256 is kept: whoever reads the record can't use it.
3. A phone stays joined for `HOURS`, then it asks anew; whoever sits at this device ends it at any time.
4. The name asked once at joining is the author of everything that the phone writes.
"""

from __future__ import annotations

import hashlib
import hmac
import json
from dataclasses import asdict, dataclass, replace
from typing import Any

from steadyhead.service.ports import UnitOfWork
from steadyhead.service.record.given import LONGEST_NAME, Given
from steadyhead.words.saying import printable

PHONES = "phones"
#: A long day's work; OWASP ASVS 4.0.3, 3.3.2 asks for twelve hours at level 2.
HOURS = 12
#: Phones that are listed at most; the one that joined longest ago gives way.
MOST = 100


@dataclass(frozen=True, slots=True, kw_only=True)
class Phone:
    """A phone that joined.

    Parameters
    ----------
    id
        Its own key: settings of whoever uses it hang on it.
    name
        Whose it is; empty where nobody said.
    joined
        When [ms since 1970, UTC].
    secret
        SHA-256, in hexadecimal, of what lets it in.
    """

    id: str
    name: str
    joined: int
    secret: str


def phones(given: Given) -> tuple[Phone, ...]:
    """Return the phones that are joined now, the last one first."""
    with given.reading() as work:
        return tuple(reversed(_joined(work, given.clock())))


def join(given: Given, name: str, secret: str) -> Phone:
    """Let a phone in that will show `secret` from now on; return what is kept of it."""
    with given.writing() as work:
        phone = Phone(id=given.ids.new(), name=_plain(name), joined=given.clock(), secret=digest(secret))
        _keep(work, [*_joined(work, given.clock()), phone][-MOST:])
        work.commit()
    return phone


def phone_of(given: Given, secret: str) -> Phone | None:
    """Return the phone that a secret lets in; None where it lets nobody in."""
    shown, found = digest(secret), None
    for phone in phones(given):
        if hmac.compare_digest(phone.secret, shown):
            found = phone
    return found


def rename(given: Given, id_: str, name: str) -> None:
    """Keep whose phone it is."""
    with given.writing() as work:
        joined = _joined(work, given.clock())
        _keep(work, [replace(each, name=_plain(name)) if each.id == id_ else each for each in joined])
        work.commit()


def leave(given: Given, id_: str) -> None:
    """Let a phone in no more; one that is not joined is none."""
    with given.writing() as work:
        _keep(work, [each for each in _joined(work, given.clock()) if each.id != id_])
        work.commit()


def digest(secret: str) -> str:
    """Return what is kept of a secret.

    >>> digest("abc")[:8]
    'ba7816bf'
    """
    return hashlib.sha256(secret.encode("utf-8", "surrogatepass")).hexdigest()


def _plain(name: str) -> str:
    return " ".join(printable(name).split())[:LONGEST_NAME]


def _joined(work: UnitOfWork, now: int) -> list[Phone]:
    """Return the phones whose time is not over, in the order in which they joined."""
    kept: list[dict[str, Any]] = json.loads(work.setting(PHONES) or "[]")
    every = [Phone(**each) for each in kept]
    return [each for each in every if 0 <= now - each.joined < HOURS * 3_600_000]


def _keep(work: UnitOfWork, joined: list[Phone]) -> None:
    work.set_setting(PHONES, json.dumps([asdict(each) for each in joined]))
