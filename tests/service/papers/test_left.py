"""How papers tell how a visit was left: whose words are quoted, which parts were fitted, how it ended."""

from __future__ import annotations

import pytest

from steadyhead.service.papers.kinds import in_words, look_of, paper_of
from steadyhead.service.papers.occasion import of_record
from steadyhead.service.record.ending import DECLINED, MADE_SAFE, WATCHING, Ending, end_with
from steadyhead.service.record.follow_ups import add_follow_up
from steadyhead.service.record.instruments import add_instrument
from steadyhead.service.record.pages import visit_page
from steadyhead.service.record.readings import add_reading, record_action
from steadyhead.service.record.repairs import correct_repair, details_of
from steadyhead.service.record.visits import set_complaint, start_visit
from steadyhead.words import USUAL
from tests.record.device import Device

PLATE = {"signal": "0.5..4.5 V ratiometric", "range": "0..100 psi"}
PARTS = [{"part": "transducer", "serial": "K-4471", "old": "K-1002"}]


@pytest.fixture
def device() -> Device:
    """Return a device with a record in memory."""
    return Device()


def said(device: Device, visit: str, kind: str) -> str:
    """Return a paper as text: every word that stands on it."""
    seen = of_record(visit_page(device.given, visit), None, {})
    paper = paper_of(kind, seen)
    return str(in_words(paper, seen, USUAL, look_of(paper, USUAL)))


def test_only_real_words_are_quoted(device: Device) -> None:
    """What was tapped is told as what was seen; what somebody wrote afterwards stands in quotation marks."""
    tapped = "Display and gauge disagree"
    visit = start_visit(device.given, {"text": tapped}, sensor=PLATE, tapped=tapped)
    for kind in ("customer", "office"):
        assert f"“{tapped}”" not in said(device, visit, kind)
        assert tapped in said(device, visit, kind)
    set_complaint(device.given, visit, {"text": "it dies when we shower"})
    assert "“it dies when we shower”" in said(device, visit, "customer")


def test_parts_stand_on_every_report_and_a_quote_only_where_it_is_wanted(device: Device) -> None:
    """Serial numbers for the customer; who said yes and at what for the office and the next technician."""
    visit = start_visit(device.given, {}, sensor=PLATE)
    details = details_of({"place": "sensor", "authorised": "Ms Ruiz", "quoted": "180"}, PARTS)
    record_action(device.given, visit, "replace-sensor", details)
    for kind in ("customer", "office", "next"):
        assert "K-4471" in said(device, visit, kind)
    assert "Quoted: 180" in said(device, visit, "office")
    assert "Quoted" not in said(device, visit, "customer")


def test_a_repair_after_which_the_fault_came_back_is_told_as_such(device: Device) -> None:
    """The office and the next technician see it; the customer is not told that it was mended."""
    visit = start_visit(device.given, {}, sensor=PLATE)
    record_action(device.given, visit, "repair-cable", details_of({"place": "plug"}, []))
    repair = visit_page(device.given, visit).actions[0].id
    correct_repair(device.given, visit, repair, {"came_back": True})
    for kind in ("office", "next"):
        assert "the fault came back" in said(device, visit, kind)
    assert "mended" not in said(device, visit, "customer").partition("What it shows now")[0]


@pytest.mark.parametrize("kind", ["customer", "office", "next"])
def test_every_report_says_how_it_ended_and_what_comes_back(device: Device, kind: str) -> None:
    """Declined by whom, of what; what is off and who was told; what to note; the part that was ordered."""
    visit = start_visit(device.given, {}, sensor=PLATE)
    end_with(device.given, visit, Ending(state=DECLINED, says={"by": "Mr Dahl", "offered": "a new sensor"}))
    assert "Declined by: Mr Dahl" in said(device, visit, kind)
    end_with(device.given, visit, Ending(state=MADE_SAFE, says={"off": ["pump"], "locked": True, "told": "Ms Ruiz"}))
    text = said(device, visit, kind)
    assert all(told in text for told in ("Off: pump.", "Locked and tagged.", "Told: Ms Ruiz."))
    end_with(device.given, visit, Ending(state=WATCHING, says={"notes": ["photo"]}, due="2026-05-18"))
    add_follow_up(device.given, visit, {"kind": "part-ordered", "due": "2026-05-06", "what": "cable, 30 m"})
    text = said(device, visit, kind)
    assert all(told in text for told in ("photo of the display", "Being watched: 2026-05-18", "cable, 30 m"))


def test_instruments_go_by_their_names(device: Device) -> None:
    """A gauge that the record knows by name; never by its id."""
    visit = start_visit(device.given, {}, sensor=PLATE)
    gauge = add_instrument(device.given, "gauge", {"range": "0..160 psi"}, name="red test gauge")
    add_reading(device.given, visit, {"measure": "gauge-pressure", "value": "50 psi"}, instrument=gauge)
    text = said(device, visit, "office")
    assert "red test gauge" in text
    assert gauge[-8:] not in text
