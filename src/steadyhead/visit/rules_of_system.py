"""What no system can be, whichever key says it: one small function a rule.

Everything that can be wrong between two keys of the system's own tables lives in this file.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from steadyhead.messages import Message, message
from steadyhead.visit.kinds import got_text
from steadyhead.visit.layout import Path
from steadyhead.visit.measures import points_of_system
from steadyhead.visit.nearest import nearest_first
from steadyhead.visit.record import Signal
from steadyhead.visit.vacuum import DEEPEST_SCALE_PA
from steadyhead.visit.walk import Rule, Walked, usable

Found = Iterator[tuple[Path, Message]]


def fault_limits_are_crossed(walked: Walked) -> Found:
    """Find a `low_fault` that is not below `high_fault`."""
    controller, raw = walked.tables["controller"], walked.raw["controller"]
    low, high = usable(controller, "low_fault"), usable(controller, "high_fault")
    if low is not None and high is not None and not low < high:
        got_low, got_high = got_text(raw["low_fault"]), got_text(raw["high_fault"])
        yield ("controller", "low_fault"), message("fault-limits-crossed", got=got_low, below=got_high)


def supply_is_outside_its_limits(walked: Walked) -> Found:
    """Find a nominal supply outside its own limits."""
    controller, raw = walked.tables["controller"], walked.raw["controller"]
    supply, limits = usable(controller, "supply"), usable(controller, "supply_limits")
    if supply is not None and limits is not None and not limits.low <= supply <= limits.high:
        told = message("supply-outside-limits", got=got_text(raw["supply"]), must_be=got_text(raw["supply_limits"]))
        yield ("controller", "supply"), told


def volts_over_two_wires(walked: Walked) -> Found:
    """Find volts over two wires: they need a supply, a common and a signal wire."""
    signal = usable(walked.tables["sensor"], "signal")
    if isinstance(signal, Signal) and signal.kind != "current" and signal.wires == 2:
        yield ("sensor", "wires"), message("volts-need-three-wires", got="two", must_be="three")


def scale_begins_below_vacuum(walked: Walked) -> Found:
    """Find a scale that begins below the deepest vacuum."""
    gauge = usable(walked.tables["instruments"], "gauge") or {}
    ranges: list[tuple[Path, object]] = [(("instruments", "gauge", "range"), usable(gauge, "range"))]
    if usable(walked.tables["sensor"], "reference") != "absolute":
        ranges.append((("sensor", "range"), usable(walked.tables["sensor"], "range")))
    for path, interval in ranges:
        low = getattr(interval, "low", None)
        if low is not None and low < DEEPEST_SCALE_PA:
            yield path, message("scale-below-vacuum", got=_raw_at(walked, path), must_be="-14.7 psi or -1 bar or above")


def _raw_at(walked: Walked, path: Path) -> str:
    """Return the text that stands at a path of the file."""
    value: object = walked.raw
    for part in path:
        value = value.get(part) if isinstance(value, Mapping) else None
    return got_text(value)


def label_of_a_point_that_is_not_there(walked: Walked) -> Found:
    """Find a label of a point that this system lacks."""
    points = system_points(walked)
    for name in walked.tables["labels"]:
        if points and name not in points:
            yield ("labels", name), point_not_in_system(name, points)


def system_points(walked: Walked) -> tuple[str, ...]:
    """Return the points of the file's system, or none where its signal is not known."""
    signal = usable(walked.tables["sensor"], "signal")
    if not isinstance(signal, Signal):
        return ()
    return points_of_system(signal.wires, shield=usable(walked.tables["cable"], "shield"))


def point_not_in_system(got: str, points: tuple[str, ...]) -> Message:
    """Return the message for a point that this system lacks."""
    allowed, nearest = nearest_first(got, points)
    return message("point-not-in-system", got=got, must_be=allowed, nearest=nearest)


SYSTEM_RULES: tuple[Rule, ...] = (
    fault_limits_are_crossed,
    supply_is_outside_its_limits,
    volts_over_two_wires,
    scale_begins_below_vacuum,
    label_of_a_point_that_is_not_there,
)
