"""Three devices work on one visit in any way, meet in any order, and end with the same visit, nothing lost."""

from __future__ import annotations

from dataclasses import dataclass, field

from hypothesis import given, settings
from hypothesis import strategies as st

from steadyhead.service.record.beside import add_note
from steadyhead.service.record.erasing import erase
from steadyhead.service.record.given import mint
from steadyhead.service.record.pages import visit_page
from steadyhead.service.record.readings import Kept, add_reading, correct_reading, record_action
from steadyhead.service.record.systems import set_system
from steadyhead.service.record.visits import end_visit, start_visit
from tests.record.device import Device
from tests.record.trio import WHO, Trio, steps

STEPS = steps("read", "read twice", "correct", "withdraw", "note", "act", "name", "end")


@dataclass
class Team(Trio):
    """Three devices with one visit."""

    readings: set[str] = field(default_factory=set)

    def __post_init__(self) -> None:
        self.of = start_visit(self.devices[0].given, {"text": "no water"})
        self.all_meet()

    def take(self, step: str, who: int, psi: int) -> None:
        """Let one device do one thing."""
        device, value = self.devices[who], f"{psi} psi"
        rows = visit_page(device.given, self.of).rows
        chosen = rows[psi % len(rows)].id if rows else None
        if step.startswith("read"):
            token = mint(device.given)
            for _ in step.split():
                kept = add_reading(device.given, self.of, {"measure": "gauge-pressure", "value": value}, token=token)
                assert isinstance(kept, Kept)
                self.readings.add(kept.id)
            self.typed.add(value)
        elif step == "correct" and chosen:
            correct_reading(device.given, self.of, chosen, {"value": value})
            self.typed.add(value)
        elif step == "withdraw" and chosen:
            correct_reading(device.given, self.of, chosen, None)
        else:
            self.take_beside(step, device, psi)

    def take_beside(self, step: str, device: Device, psi: int) -> None:
        """Let one device do one of the other things."""
        if step == "note":
            add_note(device.given, self.of, f"note {psi}")
            self.typed.add(f"note {psi}")
        elif step == "act":
            record_action(device.given, self.of, "repair-cable")
        elif step == "name":
            set_system(device.given, visit_page(device.given, self.of).system_id, {}, name=f"House {psi}")
            self.typed.add(f"House {psi}")
        elif step == "end":
            end_visit(device.given, self.of, "open" if psi % 2 else "watching")
        else:
            self.move(step, device, psi)


@given(st.lists(STEPS, max_size=14))
@settings(max_examples=60, deadline=None)
def test_all_devices_end_with_the_same_visit_and_all_that_was_typed(steps: list[tuple[str, int, int]]) -> None:
    """The union is the same in any order; every reading stands once, and every text in some fact."""
    team = Team()
    for step, who, psi in steps:
        team.take(step, who, psi)
    team.all_meet()
    pages = [visit_page(device.given, team.of) for device in team.devices]
    assert pages[0] == pages[1] == pages[2]
    assert {row.id for row in pages[0].rows} == team.readings
    assert len(pages[0].rows) == len(team.readings)
    assert team.nothing_typed_is_lost()


@given(st.lists(STEPS, max_size=8), st.lists(STEPS, max_size=4), WHO)
@settings(max_examples=40, deadline=None)
def test_what_one_device_erased_is_gone_from_all_whatever_the_others_did_meanwhile(
    before: list[tuple[str, int, int]], meanwhile: list[tuple[str, int, int]], who: int
) -> None:
    """The purge wins: no text that anybody typed is left, and no device shows the visit."""
    team = Team()
    for step, each, psi in before:
        team.take(step, each, psi)
    erase(team.devices[who].given, visit_page(team.devices[who].given, team.of).system_id)
    for step, each, psi in meanwhile:
        if each != who and step not in {"meet", "send"}:
            team.take(step, each, psi)
    team.all_meet()
    assert team.everything_is_gone(lambda device: visit_page(device.given, team.of))
