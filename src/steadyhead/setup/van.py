"""What on the van will do here: each sensor in stock against this system, the best first.

Rules
-----
1. A part is as good as its worst finding (`steadyhead.setup.finding`): it will do, with work, once something was looked
   at, or not.
2. Best first: by that, then whether it may stay, then by the smaller error, then by name.
3. The very same part always will do, may stay, and changes no error.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from steadyhead.messages import Message
from steadyhead.setup.approval import approval_finding
from steadyhead.setup.finding import GRADES, Finding, Grade, worst
from steadyhead.setup.lasting import PERMANENT, TEMPORARY, UNSETTLED, lasts, why_temporary
from steadyhead.setup.plugs import PinRow, pin_rows, plug_findings
from steadyhead.setup.pressures import pressure_findings
from steadyhead.setup.resulting import Resulting, resulting
from steadyhead.setup.scaling import Settings, settings
from steadyhead.setup.signal_match import Way, way_in
from steadyhead.setup.supply import supply_finding
from steadyhead.setup.threads import thread_finding
from steadyhead.visit.record import Visit
from steadyhead.visit.stock import StockSensor

_STAYS = (PERMANENT, UNSETTLED, TEMPORARY)


@dataclass(frozen=True, slots=True, kw_only=True)
class Match:
    """One sensor in stock against a system.

    Parameters
    ----------
    stock
        The sensor.
    grade
        Its worst finding's.
    findings
        Everything that was asked of it, each with its reason.
    way
        How its signal gets in.
    settings, error, pins
        What is entered, how far off the display may then be, and which pin goes where; None and empty where its signal
        has no way in.
    lasts
        ``permanent``, ``temporary``, or ``unsettled`` while something is still to be looked at.
    because
        Every reason why it does not stay.
    """

    stock: StockSensor
    grade: Grade
    findings: tuple[Finding, ...]
    way: Way
    settings: Settings | None = None
    error: Resulting | None = None
    pins: tuple[PinRow, ...] = ()
    lasts: str = TEMPORARY
    because: tuple[Message, ...] = ()


def matched(visit: Visit, stock: StockSensor) -> Match:
    """Return what one sensor in stock comes to in a system."""
    way, told = way_in(visit, stock.sensor.signal)
    findings = [*told, supply_finding(visit, stock.sensor, way)]
    made, error = None, Resulting()
    if way.works:
        made, of_range = settings(visit, stock.sensor, way)
        findings += [*of_range, *pressure_findings(visit, stock, made.range.high)]
        error = resulting(visit, stock.sensor, way, made)
    findings += [thread_finding(visit, stock), *plug_findings(visit, stock), approval_finding(visit, stock)]
    because = tuple(why_temporary(findings, way, error))
    return Match(
        stock=stock, grade=worst(findings), findings=tuple(findings), way=way, settings=made,
        error=error if made else None, pins=pin_rows(visit, stock) if made else (),
        lasts=lasts(findings, because), because=because,
    )  # fmt: skip


def what_will_do(visit: Visit, stocks: Iterable[StockSensor]) -> tuple[Match, ...]:
    """Return sensors in stock against a system, the best first."""
    return tuple(sorted((matched(visit, each) for each in stocks), key=place_of))


def place_of(match: Match) -> tuple[int, int, float, str]:
    """Return what a match is put in order by."""
    ratio = match.error.ratio if match.error else float("inf")
    return GRADES.index(match.grade), _STAYS.index(match.lasts), ratio, match.stock.name
