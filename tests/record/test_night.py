"""A night's test: what the card says becomes a reading and a judgement, corrected with its history."""

from __future__ import annotations

from dataclasses import replace

import pytest

from steadyhead.errors import InputError, RecordError
from steadyhead.service.papers.kinds import in_words, look_of, paper_of
from steadyhead.service.papers.occasion import of_record
from steadyhead.service.record.ending import NIGHT_PENDING, Ending, end_with
from steadyhead.service.record.follow_ups import what_waits
from steadyhead.service.record.night import Card, keep_night, night_of
from steadyhead.service.record.pages import visit_page
from steadyhead.service.record.visits import start_visit
from steadyhead.water.night import judge
from steadyhead.words import USUAL
from tests.record.device import Device

PSI = 6894.757293168361
GALLON = 0.003785411784
CARD = Card(
    start="60 psi", end="52 psi", evening="22:00", morning="06:30",
    more={"shut": "house-valve", "holds": "yes", "pump_off": "yes", "waited": "yes",
          "meter_from": "1000 gal", "meter_to": "1000.0 gal"},
)  # fmt: skip


def pending(device: Device) -> tuple[str, str]:
    """Return a visit that waits for its night, and the night."""
    visit = start_visit(device.given, {}, sensor={"signal": "4..20 mA", "range": "0..100 psi"})
    end_with(device.given, visit, Ending(state=NIGHT_PENDING, due="2026-05-05", night={"ring": "Ann, 555 0100"}))
    return visit, what_waits(device.given)[0].pending.about


def test_a_card_becomes_a_reading_and_a_judgement(device: Device) -> None:
    """22:00 to 06:30 is eight and a half hours; 8 psi lost with a valve that holds and a meter that stands."""
    visit, night = pending(device)
    keep_night(device.given, visit, night, CARD)
    seen = visit_page(device.given, visit)
    (reading,) = seen.visit.readings
    assert (reading.measure, reading.over_s) == ("pressure-decay", 8.5 * 3600)
    assert (reading.from_pa, reading.to_pa) == pytest.approx((60 * PSI, 52 * PSI))
    found = night_of(seen)
    assert found is not None
    assert (found.drawn_m3, judge(found).verdict) == (0.0, "pump-side")


def test_it_is_waited_for_until_the_visit_stands_otherwise(device: Device) -> None:
    """What the night told may be looked at; the visit is not ended by itself."""
    visit, night = pending(device)
    keep_night(device.given, visit, night, CARD)
    assert [each.pending.about for each in what_waits(device.given)] == [night]
    assert visit_page(device.given, visit).state == NIGHT_PENDING


def test_a_card_that_was_misread_is_put_right_and_stays_one_reading(device: Device) -> None:
    """52 psi was 58: within what needs no leak; the reading keeps what it said before."""
    visit, night = pending(device)
    keep_night(device.given, visit, night, CARD)
    keep_night(device.given, visit, night, replace(CARD, end="58 psi"))
    seen = visit_page(device.given, visit)
    assert len(seen.rows) == 1
    assert len(seen.rows[0].history) == 1
    found = night_of(seen)
    assert found is not None
    assert judge(found).tight


def test_a_form_that_is_sent_twice_keeps_one(device: Device) -> None:
    """Counting facts."""
    visit, night = pending(device)
    token = device.given.ids.new(night)
    keep_night(device.given, visit, night, CARD, token=token)
    count = len(device.store.facts)
    keep_night(device.given, visit, night, CARD, token=token)
    assert len(device.store.facts) == count


@pytest.mark.parametrize(
    "wrong",
    [
        replace(CARD, start=""),
        replace(CARD, end="52 gal"),
        replace(CARD, evening="25:00"),
        replace(CARD, morning=""),
        replace(CARD, more={"meter_from": "20 gal", "meter_to": "10 gal"}),
        replace(CARD, more={"holds": "perhaps"}),
    ],
)
def test_what_cannot_be_read_is_refused_and_nothing_is_kept(device: Device, wrong: Card) -> None:
    """No pressure, another unit, no time of day, a meter that counts back, no answer."""
    visit, night = pending(device)
    count = len(device.store.facts)
    with pytest.raises(InputError):
        keep_night(device.given, visit, night, wrong)
    assert len(device.store.facts) == count


def test_a_pressure_that_rose_is_kept_too(device: Device) -> None:
    """Thermal expansion, or a pump that ran: it is what was read."""
    visit, night = pending(device)
    keep_night(device.given, visit, night, replace(CARD, end="75 psi"))
    found = night_of(visit_page(device.given, visit))
    assert found is not None
    assert judge(found).verdict == "rises"


def test_the_clock_is_read_as_people_write_it_and_nothing_else(device: Device) -> None:
    """6.15 and 6h15 are a quarter past six."""
    visit, night = pending(device)
    keep_night(device.given, visit, night, replace(CARD, morning="6.15"))
    assert visit_page(device.given, visit).visit.readings[0].over_s == 8.25 * 3600
    with pytest.raises(RecordError, match="night-no-time"):
        keep_night(device.given, visit, night, replace(CARD, morning="quarter past"))


def test_a_long_winter_night_is_thirteen_hours(device: Device) -> None:
    """18:00 to 07:00; the same time of day is a whole day."""
    visit, night = pending(device)
    for evening, hours in (("18:00", 13.0), ("07:00", 24.0)):
        keep_night(device.given, visit, night, replace(CARD, evening=evening, morning="07:00"))
        assert visit_page(device.given, visit).visit.readings[0].over_s == hours * 3600


def _said(device: Device, visit: str, kind: str) -> str:
    seen = of_record(visit_page(device.given, visit), None, {})
    paper = paper_of(kind, seen)
    return str(in_words(paper, seen, USUAL, look_of(paper, USUAL)))


def test_the_customers_card_says_what_to_shut_when_to_read_and_whom_to_ring(device: Device) -> None:
    """A house valve, two times, lines for gauge and meter, and the caution for those who need water."""
    visit, _ = pending(device)
    said = _said(device, visit, "night-card")
    for text in ("Shut the house valve", "22:00", "06:00", "water meter", "Ann, 555 0100", "dialysis", "svg"):
        assert text in said


def test_what_can_hurt_stands_on_the_card_before_any_step(device: Device) -> None:
    """Who needs water in the night is told before the pump is switched off."""
    said = _said(device, pending(device)[0], "night-card")
    assert said.index("dialysis") < said.index("Switch the pump off")


def test_the_reports_tell_what_the_night_told(device: Device) -> None:
    """Of a visit whose night was entered; before that, that it comes back."""
    visit, night = pending(device)
    assert "Night test: 2026-05-05" in _said(device, visit, "office")
    keep_night(device.given, visit, night, CARD)
    for kind in ("customer", "office", "next"):
        assert "pump side" in _said(device, visit, kind)
        assert "Night test: 2026" not in _said(device, visit, kind)
    assert "check valve" in _said(device, visit, "office")
    assert "then the check valve" not in _said(device, visit, "customer")
