"""What no reading can be: one small function a rule, walked over every reading, declined check and action.

Everything that can be wrong between two keys of a reading lives in this file; what a measure needs is in `measures`.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import NamedTuple

from steadyhead.loop.faults import FAULTS
from steadyhead.messages import Message, message
from steadyhead.visit.keys import READING
from steadyhead.visit.kinds import got_text
from steadyhead.visit.measures import MEASURE, OWN_KEYS, POINTS_IN, Measure, keys_of, needed_by, ohms_points_in
from steadyhead.visit.nearest import nearest_first
from steadyhead.visit.record import Signal
from steadyhead.visit.rules_of_system import Found, point_not_in_system, system_points
from steadyhead.visit.vacuum import deepest_pa, lowest_of
from steadyhead.visit.walk import BROKEN, Row, Rule, Walked, usable


class Seat(NamedTuple):
    """One reading or declined check with what its rules need: its row, its text, its measure and its arrangement."""

    row: Row
    raw: Row
    measure: Measure
    arrangement: str | None
    points: tuple[str, ...]
    is_reading: bool


Finding = Iterator[tuple[str, Message]]


def key_is_missing(seat: Seat) -> Finding:
    """Find the keys that a measure needs and a reading lacks."""
    if not seat.is_reading:
        return
    needed = needed_by(seat.measure)
    if seat.measure.id != "pressure-decay":
        needed = ("value", *needed)
    if seat.arrangement == "source-at-controller":
        needed = (*needed, "source")
    for name in needed:
        if name not in seat.row:
            yield name, message("key-missing-for-measure", key=name, measure=seat.measure.id, must_be=_says(name))


def _says(name: str) -> str:
    return next(key.kind.says() for key in READING.keys if key.name == name)


def key_of_another_measure(seat: Seat) -> Finding:
    """Find keys that only other measures have."""
    allowed = keys_of(seat.measure)
    for name in OWN_KEYS:
        if name in seat.row and name not in allowed:
            yield name, message("key-not-for-measure", got=name, measure=seat.measure.id, must_be=allowed)


def measure_in_another_arrangement(seat: Seat) -> Finding:
    """Find a measure in an arrangement in which it cannot be read."""
    places = seat.measure.arrangements
    if places and seat.arrangement is not None and seat.arrangement not in places:
        told = message("arrangement-not-for-measure", got=seat.arrangement, measure=seat.measure.id, must_be=places)
        yield "arrangement", told


def leads_on_one_point(seat: Seat) -> Finding:
    """Find two leads on one point."""
    red, black = usable(seat.row, "red"), usable(seat.row, "black")
    if red is not None and red == black:
        yield "black", message("leads-on-one-point", got=black, must_be=tuple(p for p in seat.points if p != red))


def lead_on_a_point_that_is_not_there(seat: Seat) -> Finding:
    """Find a lead on a point that this system lacks, or that cannot be reached while the loop stands like this."""
    for name in ("red", "black"):
        point = usable(seat.row, name)
        if point is None or not seat.measure.leads:
            continue
        if seat.points and point not in seat.points:
            yield name, point_not_in_system(point, seat.points)
        elif seat.arrangement in (seat.measure.arrangements or POINTS_IN):
            yield from _out_of_reach(seat, name, point)


def _out_of_reach(seat: Seat, name: str, point: str) -> Finding:
    arrangement = seat.arrangement or ""
    reachable = tuple(p for p in POINTS_IN[arrangement] if not seat.points or p in seat.points)
    if point not in reachable:
        words, nearest = nearest_first(point, reachable)
        told = message("point-not-in-arrangement", got=point, arrangement=arrangement, must_be=words, nearest=nearest)
        yield name, told


def ohms_on_a_live_loop(seat: Seat) -> Finding:
    """Find ohms on conductors that something feeds."""
    if seat.measure.id != "ohms" or seat.arrangement is None:
        return
    leads = [usable(seat.row, name) for name in ("red", "black")]
    free = ohms_points_in(seat.arrangement)
    if any(lead is not None and lead in POINTS_IN[seat.arrangement] and lead not in free for lead in leads):
        yield (
            "arrangement",
            message("ohms-on-live-loop", got=seat.arrangement, must_be=("dead-both-free", "dead-looped")),
        )


def source_where_there_is_none(seat: Seat) -> Finding:
    """Find a `source` in another arrangement than ``source-at-controller``."""
    if "source" in seat.row and seat.arrangement not in {None, "source-at-controller"}:
        yield "source", message("source-not-in-arrangement", got=seat.arrangement, must_be="source-at-controller")


def hertz_without_fixed_speed(seat: Seat) -> Finding:
    """Find `hertz` in another drive state than ``fixed-speed``."""
    drive = seat.row.get("drive")
    if "hertz" in seat.row and drive is not BROKEN and drive != "fixed-speed":
        yield "hertz", message("hertz-without-fixed-speed", got=str(drive or ""), must_be="fixed-speed")


ROW_RULES: tuple[Callable[[Seat], Finding], ...] = (
    key_is_missing,
    key_of_another_measure,
    measure_in_another_arrangement,
    leads_on_one_point,
    lead_on_a_point_that_is_not_there,
    ohms_on_a_live_loop,
    source_where_there_is_none,
    hertz_without_fixed_speed,
)


def rows_break_no_rule(walked: Walked) -> Found:
    """Walk the rules of rows over every reading and every declined check."""
    points = system_points(walked)
    for table in ("reading", "declined"):
        for index, row in enumerate(walked.tables[table]):
            measure = MEASURE.get(usable(row, "measure") or "")
            if measure is None:
                continue
            raw = walked.raw[table][index]
            seat = Seat(row, raw, measure, _arrangement(row, table), points, table == "reading")
            for rule in ROW_RULES:
                for name, told in rule(seat):
                    yield (table, index, name), told


def _arrangement(row: Row, table: str) -> str | None:
    """Return the arrangement, None where it is broken or, for a declined check, any."""
    if "arrangement" in row:
        arrangement: str | None = usable(row, "arrangement")
        return arrangement
    return "connected" if table == "reading" else None


def gauge_below_absolute_zero(walked: Walked) -> Found:
    """Find a gauge below absolute zero by more than its own accuracy."""
    deepest = deepest_pa(walked.tables["site"], usable(walked.tables["instruments"], "gauge") or {})
    for index, row in enumerate(walked.tables["reading"]):
        for name in ("value", "pressure", "from", "to"):
            if name == "value" and usable(row, "measure") != "gauge-pressure":
                continue
            lowest = lowest_of(usable(row, name))
            if lowest is not None and lowest < deepest:
                got = got_text(walked.raw["reading"][index][name])
                yield ("reading", index, name), message("pressure-below-vacuum", got=got, deepest_pa=round(deepest))


def action_after_no_reading(walked: Walked) -> Found:
    """Find an action after a reading that is not in the file."""
    most = len(walked.tables["reading"])
    for index, row in enumerate(walked.tables["action"]):
        after = usable(row, "after_reading")
        if after is not None and not 0 <= after <= most:
            yield ("action", index, "after_reading"), message("after-reading-outside", got=after, most=most)


def closed_without_a_fault(walked: Walked) -> Found:
    """Find a closed visit that does not say what was at fault."""
    if walked.raw["closed"] and "fault" not in walked.raw["closed"]:
        yield ("closed",), message("key-missing", key="fault", must_be="what was at fault: fault = \"none\", ...")


def closed_by_a_fault_that_cannot_be(walked: Walked) -> Found:
    """Find a closed visit whose fault this system cannot have, or a pair of one fault."""
    fault, signal = usable(walked.tables["closed"], "fault"), usable(walked.tables["sensor"], "signal")
    if fault is None or not isinstance(signal, Signal):
        return
    known = tuple(each.id for each in FAULTS if signal.wires in each.wires)
    parts = fault.split("+")
    for part in parts:
        if part not in (*known, "none-of-these"):
            words, nearest = nearest_first(part, known)
            yield ("closed", "fault"), message("fault-not-in-system", got=part, must_be=words, nearest=nearest)
    if len(parts) != len(set(parts)):
        yield ("closed", "fault"), message("pair-of-one", got=fault, must_be=parts[0])


READING_RULES: tuple[Rule, ...] = (
    rows_break_no_rule,
    gauge_below_absolute_zero,
    action_after_no_reading,
    closed_without_a_fault,
    closed_by_a_fault_that_cannot_be,
)
