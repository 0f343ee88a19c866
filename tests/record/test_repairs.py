"""A repair with its parts and who said yes: kept, corrected with its history, and what holds where it came back."""

from __future__ import annotations

import pytest

from steadyhead.errors import NotFoundError, RecordError
from steadyhead.service.after_repair import missing, reads_right, since_repair
from steadyhead.service.record.pages import visit_page
from steadyhead.service.record.readings import add_reading, record_action
from steadyhead.service.record.repairs import correct_repair, details_of, repair_page
from steadyhead.service.record.visits import start_visit
from tests.record.device import Device

PARTS = [{"part": "transducer", "serial": "K-4471", "old": "K-1002"}]
GAUGE = {"measure": "gauge-pressure", "value": "50 psi"}
DISPLAY = {"measure": "displayed-pressure", "value": "50 psi"}


def mended(device: Device, **texts: str) -> tuple[str, str]:
    """Return a visit whose setting was put right after one gauge reading, and the repair."""
    visit = start_visit(device.given, {}, sensor={"signal": "0.5..4.5 V ratiometric", "range": "0..100 psi"})
    add_reading(device.given, visit, GAUGE)
    record_action(device.given, visit, "correct-setting", details_of(texts, PARTS, tugged=True))
    return visit, visit_page(device.given, visit).actions[0].id


def test_all_that_is_said_of_a_repair_is_kept(device: Device) -> None:
    """What was typed, in the record's keys; the engine reads of it the remedy and where it stands."""
    visit, _ = mended(device, place="plug", authorised="Ms Ruiz", quoted="180, parts included")
    seen = visit_page(device.given, visit)
    body = dict(seen.actions[0].body)
    assert [dict(part) for part in body.pop("parts")] == PARTS
    assert {key: body[key] for key in ("place", "authorised", "quoted", "tugged")} == {
        "place": "plug", "authorised": "Ms Ruiz", "quoted": "180, parts included", "tugged": True
    }  # fmt: skip
    assert [(a.remedy, a.after_reading) for a in seen.visit.actions] == [("correct-setting", 1)]


def test_a_repair_is_corrected_and_what_it_said_before_stays_in_its_history(device: Device) -> None:
    """A serial number that was misread; its remedy and its place among the readings stay."""
    visit, repair = mended(device, place="plug")
    right = [{"part": "transducer", "serial": "K-4477"}]
    correct_repair(device.given, visit, repair, details_of({"place": "run"}, right))
    found = repair_page(device.given, visit, repair)
    assert (found.body["place"], [dict(part) for part in found.body["parts"]], "tugged" in found.body) == (
        "run", right, False
    )  # fmt: skip
    assert [each.body["place"] for each in found.history] == ["plug"]
    assert [(a.remedy, a.after_reading) for a in visit_page(device.given, visit).visit.actions] == [
        ("correct-setting", 1)
    ]


@pytest.mark.parametrize("flag", ["came_back", "withdrawn"])
def test_a_repair_that_did_not_hold_or_was_not_made_proves_nothing(device: Device, flag: str) -> None:
    """It stays in the record; the engine counts it as a repair no more, until somebody says that it was one."""
    visit, repair = mended(device)
    for reading in (GAUGE, DISPLAY):
        add_reading(device.given, visit, reading)
    assert reads_right(visit_page(device.given, visit).visit)
    correct_repair(device.given, visit, repair, {flag: True})
    seen = visit_page(device.given, visit)
    assert (len(seen.actions), seen.visit.actions, reads_right(seen.visit)) == (1, (), False)
    correct_repair(device.given, visit, repair, {flag: False})
    assert reads_right(visit_page(device.given, visit).visit)


def test_two_devices_that_disagree_on_a_part_do_not_put_the_repair_aside() -> None:
    """The serial number is in conflict, and shown; that it was mended is not."""
    laptop, phone = Device(seed=1), Device(seed=2)
    visit, repair = mended(laptop)
    laptop.meets(phone)
    for device, serial in ((laptop, "K-1"), (phone, "K-2")):
        correct_repair(device.given, visit, repair, details_of({}, [{"serial": serial}]))
    laptop.meets(phone)
    assert set(repair_page(laptop.given, visit, repair).conflict) == {"parts"}
    assert len(visit_page(phone.given, visit).visit.actions) == 1


def test_what_must_be_right_is_listed_and_ticked_when_it_is(device: Device) -> None:
    """A setting that was put right is proved by gauge and display: 50 psi on both is right, 20 psi on one is not."""
    visit, _ = mended(device)
    states = []
    for reading in (GAUGE, {**DISPLAY, "value": "20 psi"}, DISPLAY):
        states.append([each.state for each in since_repair(visit_page(device.given, visit).visit)])
        add_reading(device.given, visit, reading)
    states.append([each.state for each in since_repair(visit_page(device.given, visit).visit)])
    assert states == [["open", "open"], ["taken", "open"], ["taken", "wrong"], ["taken", "right"]]
    assert missing(visit_page(device.given, visit).visit) == ()


def test_a_pair_of_repairs_is_proved_by_the_readings_of_both(device: Device) -> None:
    """A new board is proved by its sensor power too, whichever of the two was named first."""
    visit = start_visit(device.given, {}, sensor={"signal": "0.5..4.5 V ratiometric", "range": "0..100 psi"})
    record_action(device.given, visit, "correct-setting+replace-board", {"place": "drive"})
    asked = [each.proof.question.red for each in since_repair(visit_page(device.given, visit).visit)]
    assert "controller.supply" in asked


def test_a_text_that_is_too_long_and_a_repair_that_is_not_there_are_refused(device: Device) -> None:
    """Longer than any text of the record; another visit's id."""
    visit, _ = mended(device)
    with pytest.raises(RecordError, match="text-too-long"):
        details_of({"done": "x" * 5000}, [])
    with pytest.raises(NotFoundError, match="repair-not-here"):
        repair_page(device.given, visit, visit)
