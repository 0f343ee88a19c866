"""Birth readings: kept with how far the instruments may have been off, and a later visit held against them."""

from __future__ import annotations

import math

import pytest

from steadyhead.errors import RecordError, VisitFileError
from steadyhead.quantities import parse
from steadyhead.service.record.births import births_of, keep_birth, read_already, youth_of
from steadyhead.service.record.instruments import add_instrument
from steadyhead.service.record.pages import visit_page
from steadyhead.service.record.readings import add_reading
from steadyhead.service.record.visits import set_instruments, start_visit
from steadyhead.visit.births import moved
from tests.record.device import Device

PLATE = {"signal": "0.5..4.5 V ratiometric", "range": "0..100 psi"}
SUPPLY = {"measure": "volts", "red": "controller.supply", "black": "controller.common"}


def started(device: Device, system: str | None = None) -> str:
    """Begin a visit with a gauge of 1 % of 100 psi and a meter of 0.5 % and 0.01 V (invented)."""
    visit = start_visit(device.given, {}, system=system, sensor=None if system else PLATE)
    gauge = add_instrument(device.given, "gauge", {"range": "0..100 psi", "accuracy": "1 %"})
    meter = add_instrument(device.given, "meter", {"volts": "0.5 % + 0.01 V"})
    set_instruments(device.given, visit, (gauge, meter), None)
    return visit


def test_a_difference_is_told_apart_beyond_the_root_of_the_squares() -> None:
    """3, 4, 5: GUM 5.1.2 (JCGM 100:2008, from memory) for two that know nothing of each other; 6 is beyond."""
    assert math.isclose(moved((100.0, 3.0), (104.9, 4.0)).within, 5.0)
    assert not moved((100.0, 3.0), (104.9, 4.0)).moved
    assert moved((100.0, 3.0), (94.0, 4.0)).moved
    assert moved((100.0, 3.0), (94.0, 4.0)).difference == -6.0


def test_each_number_is_kept_with_how_far_the_instruments_may_be_off(device: Device) -> None:
    """By hand: 1 % of 100 psi, half of 1 psi; 0.5 % of 5.00 V, 0.01 V, half of 0.01 V; 5 % of 200 Mohm and 0.5."""
    visit = started(device)
    keep_birth(device.given, visit, {"set": "60 psi", "supply": "5.00", "motor-insulation": "200 Mohm"})
    (birth,) = births_of(device.given, visit_page(device.given, visit).system_id)
    off = {id_: str(row["within"]) for id_, row in birth.numbers.items()}
    assert math.isclose(parse(off["set"], "pressure"), parse("1.5 psi", "pressure"))
    assert math.isclose(parse(off["supply"], "voltage"), 0.025 + 0.01 + 0.005)
    assert math.isclose(parse(off["motor-insulation"], "resistance"), 10.5e6)


def test_numbers_are_readings_of_the_visit_and_none_is_kept_twice(device: Device) -> None:
    """A supply that was read already; a gauge that was not; the motor has no reading; a form sent twice."""
    visit, token = started(device), device.given.ids.new()
    add_reading(device.given, visit, {**SUPPLY, "value": "5.00 V"})
    assert read_already(device.given, visit) == {"supply": "5.00 V"}
    typed = {"supply": "5.00 V", "set": "60 psi", "motor-ohms": "2.4 ohm"}
    assert len({keep_birth(device.given, visit, typed, token=token) for _ in range(2)}) == 1
    seen = visit_page(device.given, visit)
    assert [reading.measure for reading in seen.visit.readings] == ["volts", "gauge-pressure"]
    assert len(births_of(device.given, seen.system_id)) == 1


def test_a_later_visit_finds_the_youth_and_names_it(device: Device) -> None:
    """What was taken to be compared never becomes the youth."""
    first = started(device)
    system = visit_page(device.given, first).system_id
    youth = keep_birth(device.given, first, {"supply": "5.00 V"})
    later = started(device, system)
    assert youth_of(device.given, system, but=first) is None
    keep_birth(device.given, later, {"supply": "4.80 V"}, against=youth)
    found = youth_of(device.given, system)
    assert found is not None
    assert (found.id, found.numbers["supply"]["value"]) == (youth, "5.00 V")


def test_a_wrong_number_is_named_and_nothing_is_kept(device: Device) -> None:
    """A word where a figure must be, a unit of another kind; then nothing at all."""
    visit = started(device)
    with pytest.raises(VisitFileError) as refusal:
        keep_birth(device.given, visit, {"set": "60 V", "supply": "5.00 V", "flow": "much"})
    assert [problem.key for problem in refusal.value.problems] == ["set", "flow"]
    with pytest.raises(RecordError):
        keep_birth(device.given, visit, {})
    assert visit_page(device.given, visit).visit.readings == ()
