"""Use cases: what checks and repairs take here and what a part costs in minutes, instead of the shipped estimates.

Everything that affects which estimates can be changed in the app lives in this file (`CHANGED`).

Rules
-----
1. They are kept as the text of a company's file (`steadyhead.diagnosis.company_file`): this device's own setting.
2. A row that nobody changed stays as shipped, and follows a later version of the program.
3. All of them are taken or none: what cannot be read is told by its row.
4. They move which check comes next and what a repair is weighed at, never what a reading tells.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache
from hashlib import sha256
from typing import NamedTuple

from steadyhead.diagnosis.company_file import parse_company
from steadyhead.diagnosis.estimates import SHIPPED, Estimates
from steadyhead.diagnosis.learning import Place
from steadyhead.service.record.given import Given
from steadyhead.visit.kinds import quoted

TIMES = "times"
#: The sections whose rows a person changes here, in the order of a visit; the rest is for a company's file.
CHANGED = ("arrangements", "readings", "inspections", "walk", "repairs", "parts", "trips")
#: Repairs that are none.
NO_REPAIR = frozenset({"none"})
MINUTES = " min"
_SCHEMA = "schema = 1\n"


class TimeRow(NamedTuple):
    """One estimate: its section and row, as shipped and as used here [min], and why the shipped one is what it is."""

    section: str
    row: str
    shipped: float
    used: float
    reason: str

    @property
    def own(self) -> bool:
        """Whether it was changed here."""
        return self.used != self.shipped


class Judging(NamedTuple):
    """The estimates to judge by, and what tells them from others."""

    key: str
    estimates: Estimates


AS_SHIPPED = Judging("", SHIPPED)


def judging_by(given: Given) -> Judging:
    """Return the estimates to judge by: the shipped ones, with what was changed here."""
    with given.reading() as work:
        text = work.setting(TIMES) or ""
    return Judging(sha256(text.encode()).hexdigest()[:16], _estimates(text)) if text else AS_SHIPPED


def times(given: Given) -> tuple[TimeRow, ...]:
    """Return every estimate that can be changed here."""
    used = judging_by(given).estimates
    return tuple(
        TimeRow(section, name, row.value, used.rows[section][name].value, row.reason)
        for section in CHANGED
        for name, row in SHIPPED.rows[section].items()
        if name not in NO_REPAIR
    )


def set_times(given: Given, typed: Mapping[Place, str]) -> None:
    """Keep what was typed for each row; a row that is left out, or is as shipped, is as shipped.

    Parameters
    ----------
    given
        Store, ids, clock.
    typed
        Text by section and row: minutes, or a time with its unit.

    Raises
    ------
    CompanyFileError
        Something is no time, or is outside of its limits; `problems` says which row.
    """
    text = _text({place: said for place, said in typed.items() if said.strip()})
    own = parse_company(text).own
    lasting = {place: typed[place] for place, row in own.items() if row.value != _shipped(place)}
    with given.writing() as work:
        work.set_setting(TIMES, _text(lasting) if lasting else "")
        work.commit()


def _text(typed: Mapping[Place, str]) -> str:
    """Return what was typed as the text of a company's file."""
    lines = [_SCHEMA]
    for section in dict.fromkeys(section for section, _ in typed):
        lines.append(f"[{section}]\n")
        lines += [f"{quoted(row)} = {quoted(_with_unit(said))}\n" for (of, row), said in typed.items() if of == section]
    return "".join(lines)


def _shipped(place: Place) -> float:
    section, row = place
    return SHIPPED.rows[section][row].value


def _with_unit(text: str) -> str:
    """Return a time with its unit: a bare number is of minutes.

    >>> _with_unit("25"), _with_unit("1,5"), _with_unit("2 h"), _with_unit("soon")
    ('25 min', '1,5 min', '2 h', 'soon')
    """
    bare = text.strip().replace(",", ".", 1).replace(".", "", 1)
    return f"{text.strip()}{MINUTES}" if bare.isdecimal() else text.strip()


@lru_cache(maxsize=4)
def _estimates(text: str) -> Estimates:
    return parse_company(text).estimates
