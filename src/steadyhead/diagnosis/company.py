"""A company's own estimates as a value: the rows that it put in by hand, and what its closed visits taught.

Rules
-----
1. The rows put in by hand are the prior; what was learnt updates them, so a figure put in by hand is learnt from and
   never overwritten.
2. What was learnt stands in the file visit by visit, so that it can be looked through, counted once, and taken back.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from steadyhead.diagnosis.estimates import SHIPPED, Estimates, Row
from steadyhead.diagnosis.learning import Learnt, Place, updated
from steadyhead.visit.exact import exact
from steadyhead.visit.kinds import quoted

SCHEMA = 1
LEARNT = "learnt"


@dataclass(frozen=True, slots=True)
class Company:
    """A company's own estimates.

    Parameters
    ----------
    own
        The rows that it put in by hand.
    learnt
        What its closed visits taught.
    text
        Text of the file.
    name
        What the file is called in messages.
    """

    own: Mapping[Place, Row]
    learnt: tuple[Learnt, ...] = ()
    text: str = ""
    name: str = ""

    @property
    def by_hand(self) -> Estimates:
        """The shipped estimates with the company's own rows, before anything was learnt."""
        return SHIPPED.replaced(self.own) if self.own else SHIPPED

    @property
    def estimates(self) -> Estimates:
        """The estimates to judge by: the company's own rows, updated by what its visits taught."""
        return updated(self.by_hand, self.learnt)


NO_COMPANY = Company({})


def learnt_text(learnt: Learnt) -> str:
    """Return the rows of a file that say what one visit taught."""
    lines = [f"[[{LEARNT}]]", f"visit = {quoted(learnt.visit)}", f"fault = {quoted(learnt.fault)}"]
    lines.append(f"counts = {learnt.counts:g}")
    if learnt.second_trip is not None:
        lines.append(f"second_trip = {'true' if learnt.second_trip else 'false'}")
    times: dict[str, list[str]] = {}
    for (section, name), minutes in learnt.took:
        times.setdefault(f"{section}.{name}", []).append(quoted(exact(minutes * 60.0, "time")))
    if times:
        said = ", ".join(f"{quoted(name)} = [{', '.join(each)}]" for name, each in times.items())
        lines.append(f"took = {{ {said} }}")
    return "".join(f"{line}\n" for line in lines)


def with_learnt(text: str, learnt: tuple[Learnt, ...]) -> str:
    """Return the text of a company file with more rows at its end; an empty text becomes a file."""
    before = text or f"schema = {SCHEMA}\n"
    before += "" if before.endswith("\n") else "\n"
    end = "\r\n" if "\r\n" in text else "\n"
    return before + "".join(end + learnt_text(each).replace("\n", end) for each in learnt)
