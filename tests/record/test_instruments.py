"""Instruments of the record: how good each is, when it is due, which of them a new visit takes."""

from __future__ import annotations

from datetime import date

import pytest

from steadyhead.errors import NotFoundError, RecordError, VisitFileError
from steadyhead.service.record.instruments import (
    add_instrument,
    due,
    instrument_page,
    instruments,
    on_van,
    put_on_van,
    set_instrument,
)
from steadyhead.service.record.pages import visit_page
from steadyhead.service.record.visits import start_visit
from tests.record.device import Device

GAUGE = {"range": "0..160 psi", "grade": "2A"}
METER = {"volts": "0.3 % + 1 x 0.001 V"}


def test_a_visit_takes_what_is_on_the_van_and_is_judged_by_it(device: Device) -> None:
    """A grade 2A gauge (0.5 % of 160 psi, ASME B40.100) and this meter's own tolerance stand in the visit."""
    gauge, meter = add_instrument(device.given, "gauge", GAUGE), add_instrument(device.given, "meter", METER)
    put_on_van(device.given, (gauge, meter), ("multimeter", "gauge", "spare-lead"))
    seen = visit_page(device.given, start_visit(device.given, {}))
    assert seen.instruments == (gauge, meter)
    assert seen.tables["instruments"]["gauge"] == GAUGE
    assert seen.tables["instruments"]["meter"] == METER
    assert seen.visit.instruments.have == ("multimeter", "gauge", "spare-lead")


def test_a_visit_before_keeps_the_instruments_that_it_had(device: Device) -> None:
    """Another gauge on the van from today on: yesterday's visit is still judged by the old one."""
    old = add_instrument(device.given, "gauge", GAUGE)
    put_on_van(device.given, (old,), None)
    visit = start_visit(device.given, {})
    new = add_instrument(device.given, "gauge", {**GAUGE, "grade": "B"})
    put_on_van(device.given, (new,), None)
    assert visit_page(device.given, visit).instruments == (old,)
    assert visit_page(device.given, start_visit(device.given, {})).instruments == (new,)


def test_what_is_out_of_use_goes_on_no_new_visit_and_stays_in_the_old_one(device: Device) -> None:
    """It stands last in the list, and a visit that begins does not take it; taken back, it is there again."""
    gauge = add_instrument(device.given, "gauge", GAUGE, name="Red gauge")
    put_on_van(device.given, (gauge,), None)
    visit = start_visit(device.given, {})
    set_instrument(device.given, gauge, {"withdrawn": True})
    assert [each.withdrawn for each in instruments(device.given)] == [True]
    assert visit_page(device.given, start_visit(device.given, {})).instruments == ()
    assert visit_page(device.given, visit).visit.instruments.gauge is not None
    set_instrument(device.given, gauge, {"withdrawn": None})
    assert visit_page(device.given, start_visit(device.given, {})).instruments == (gauge,)


def test_nothing_on_the_van_says_nothing_of_what_is_at_hand(device: Device) -> None:
    """Nobody said: the visit knows of no instrument, and every check may be asked for."""
    seen = visit_page(device.given, start_visit(device.given, {}))
    assert seen.visit.instruments.have is None
    assert on_van(device.given).instruments == ()


@pytest.mark.parametrize(
    ("day", "told"),
    [("2026-11-27", "past"), ("2026-11-28", "soon"), ("2026-12-28", "soon"), ("2026-12-29", "good"), ("", "")],
)
def test_a_calibration_is_due_from_the_day_after(day: str, told: str) -> None:
    """On the day itself it still holds; thirty days before, it is told."""
    assert due(day, date(2026, 11, 28)) == told


def test_a_change_keeps_what_it_does_not_name_and_its_history(device: Device) -> None:
    """A new certificate's day leaves the grade as it was."""
    gauge = add_instrument(device.given, "gauge", {**GAUGE, "due": "2026-01-01"})
    set_instrument(device.given, gauge, {"due": "2027-01-01"})
    seen = instrument_page(device.given, gauge)
    assert (seen.body["grade"], seen.body["due"]) == ("2A", "2027-01-01")
    with device.given.reading() as work:
        assert len(work.facts(about=gauge)) == 2


@pytest.mark.parametrize("wrong", [{"grade": "excellent"}, {"range": "0..160"}, {"accuracy": "0 %"}])
def test_an_accuracy_that_cannot_be_read_is_refused(device: Device, wrong: dict[str, str]) -> None:
    """No such grade, a scale without its unit, an accuracy of nothing: nothing is kept."""
    with pytest.raises(VisitFileError, match="entry-refused"):
        add_instrument(device.given, "gauge", wrong)
    assert instruments(device.given) == ()


def test_a_day_that_is_none_is_refused(device: Device) -> None:
    """The 30th of February: nothing is kept."""
    with pytest.raises(RecordError, match="day-unreadable"):
        add_instrument(device.given, "gauge", {**GAUGE, "due": "2027-02-30"})
    assert instruments(device.given) == ()


def test_what_is_no_instrument_is_refused(device: Device) -> None:
    """A visit's id names no instrument; a made-up word is nothing that may be at hand."""
    with pytest.raises(NotFoundError):
        instrument_page(device.given, start_visit(device.given, {}))
    with pytest.raises(RecordError, match="word-unknown"):
        put_on_van(device.given, (), ("divining-rod",))


def test_the_same_form_twice_makes_one(device: Device) -> None:
    """A form that is sent twice carries the same token."""
    token = device.given.ids.new()
    first = add_instrument(device.given, "gauge", GAUGE, token=token)
    assert add_instrument(device.given, "gauge", GAUGE, token=token) == first
    assert len(instruments(device.given)) == 1
