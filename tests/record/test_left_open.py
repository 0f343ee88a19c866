"""What a watched visit left open goes along into the system's next visit, as data, and can be left out there."""

from __future__ import annotations

from dataclasses import replace

import pytest

from steadyhead.service.record.ending import PROVED, WATCHING, Ending, end_with
from steadyhead.service.record.exchange import export_visit, import_visit
from steadyhead.service.record.pages import visit_page
from steadyhead.service.record.readings import record_action
from steadyhead.service.record.visits import count_former, end_visit, start_visit
from steadyhead.visit import dump_visit, parse_visit
from steadyhead.visit.record import Former
from tests.record.device import Device

BELIEVED = ["intermittent-signal 41.7 %", "none 20 %", "controller-input-dead+sensor-open 5 %"]
SHARES = (("intermittent-signal", 0.417), ("none", 0.2), ("controller-input-dead+sensor-open", 0.05))
DAY_MS = 86_400_000


def watched(device: Device, believed: list[str] = BELIEVED) -> tuple[str, str]:
    """Return a visit that ended watched, and its system."""
    first = start_visit(device.given, {}, sensor={"signal": "4..20 mA", "range": "0..10 bar"}, name="Farm")
    end_with(device.given, first, Ending(state=WATCHING, says={"believed": believed}, due="2026-05-18"))
    return first, visit_page(device.given, first).system_id


def next_visit(device: Device, system: str, *, days: int = 0) -> str:
    """Return a visit that begins so many days later."""
    device.clock.now += days * DAY_MS
    return start_visit(device.given, {}, system=system)


def former(device: Device, visit: str) -> Former:
    """Return what a visit takes along."""
    return visit_page(device.given, visit).visit.former


def test_the_next_visit_takes_along_what_was_believed(device: Device) -> None:
    """The clock of these tests stands on 2026-05-04; ten days later."""
    _, system = watched(device)
    found = former(device, next_visit(device, system, days=10))
    assert found == Former(ended="2026-05-04", ago_s=10 * 86_400.0, believed=SHARES)


def test_what_was_repaired_after_the_last_reading_goes_along_as_mended(device: Device) -> None:
    """A repair, then watched."""
    first = start_visit(device.given, {}, sensor={"signal": "4..20 mA", "range": "0..10 bar"}, name="Farm")
    record_action(device.given, first, "repair-cable", {})
    end_with(device.given, first, Ending(state=WATCHING, says={"believed": BELIEVED}, due="2026-05-18"))
    found = former(device, next_visit(device, visit_page(device.given, first).system_id))
    assert found.mended == ("repair-cable",)


@pytest.mark.parametrize("after", ["proved", "opened again", "nothing believed", "another visit since"])
def test_nothing_goes_along_where_nothing_was_left_open(device: Device, after: str) -> None:
    """The visit before ended otherwise, goes on, or knew nothing; or one came in between."""
    first, system = watched(device, [] if after == "nothing believed" else BELIEVED)
    if after == "proved":
        end_with(device.given, first, Ending(state=PROVED, fault="sensor-low", proved=True))
    if after == "opened again":
        end_visit(device.given, first, "open")
    if after == "another visit since":
        between = next_visit(device, system, days=1)
        end_with(device.given, between, Ending(state=PROVED, fault="sensor-low", proved=True))
    assert former(device, next_visit(device, system, days=1)) == Former()


def test_nothing_goes_along_where_two_devices_ended_the_visit_differently() -> None:
    """A phone ends it proved, a laptop watched; until somebody chooses nobody knows."""
    laptop, phone = Device(), Device(seed=2)
    first = start_visit(laptop.given, {}, sensor={"signal": "4..20 mA", "range": "0..10 bar"}, name="Farm")
    laptop.meets(phone)
    end_with(laptop.given, first, Ending(state=WATCHING, says={"believed": BELIEVED}, due="2026-05-18"))
    end_with(phone.given, first, Ending(state=PROVED, fault="sensor-low", proved=True))
    laptop.meets(phone)
    assert former(laptop, next_visit(laptop, visit_page(laptop.given, first).system_id)) == Former()


def test_another_system_takes_nothing_along(device: Device) -> None:
    """The neighbour's."""
    watched(device)
    other = start_visit(device.given, {}, sensor={"signal": "4..20 mA", "range": "0..10 bar"}, name="House")
    assert former(device, other) == Former()


def test_it_is_left_out_by_a_fact_and_counts_again_by_another(device: Device) -> None:
    """What was believed stays as it was; said twice by one form it is said once."""
    _, system = watched(device)
    visit = next_visit(device, system)
    before = former(device, visit)
    token = device.given.ids.new()
    count_former(device.given, visit, counts=False, token=token)
    facts = len(device.store.facts)
    count_former(device.given, visit, counts=False, token=token)
    assert len(device.store.facts) == facts
    assert former(device, visit) == replace(before, counts=False)
    count_former(device.given, visit, counts=True)
    assert former(device, visit) == before


def test_a_visit_that_takes_nothing_along_has_nothing_to_leave_out(device: Device) -> None:
    """No fact is made."""
    first, _ = watched(device)
    facts = len(device.store.facts)
    count_former(device.given, first, counts=False)
    assert len(device.store.facts) == facts


def test_what_the_earlier_visit_becomes_later_changes_nothing(device: Device) -> None:
    """It is opened again and proved: the next visit has the answer that it had."""
    first, system = watched(device)
    visit = next_visit(device, system)
    end_with(device.given, first, Ending(state=PROVED, fault="sensor-low", proved=True))
    assert former(device, visit).believed == SHARES


def test_a_visit_handed_over_as_a_file_has_the_same_odds_elsewhere(device: Device) -> None:
    """Exported and imported on another device; and written as a file by hand, and read."""
    _, system = watched(device)
    visit = next_visit(device, system, days=3)
    count_former(device.given, visit, counts=False)
    whole = visit_page(device.given, visit).visit
    other = Device(seed=7)
    import_visit(other.given, export_visit(device.given, visit), "farm.visit")
    assert visit_page(other.given, visit).visit == whole
    assert parse_visit(dump_visit(whole)).visit == whole
    third = Device(seed=9)
    (again,) = import_visit(third.given, dump_visit(whole).encode(), "farm.toml").visits
    assert former(third, again) == whole.former
