"""Three devices work on one visit in any way, meet in any order, and end with the same visit, nothing lost."""

from __future__ import annotations

from dataclasses import dataclass, field

from hypothesis import given, settings
from hypothesis import strategies as st

from steadyhead.errors import NotFoundError
from steadyhead.service.record.beside import add_note
from steadyhead.service.record.erasing import erase
from steadyhead.service.record.exchange import export_visit, import_visit
from steadyhead.service.record.given import mint
from steadyhead.service.record.pages import visit_page
from steadyhead.service.record.readings import Kept, add_reading, correct_reading, record_action
from steadyhead.service.record.systems import set_system
from steadyhead.service.record.visits import end_visit, start_visit
from tests.record.device import Device

WHO = st.integers(0, 2)
PSI = st.integers(1, 99)
STEPS = st.one_of(
    st.tuples(st.just("read"), WHO, PSI),
    st.tuples(st.just("read twice"), WHO, PSI),
    st.tuples(st.just("correct"), WHO, PSI),
    st.tuples(st.just("withdraw"), WHO, PSI),
    st.tuples(st.just("note"), WHO, PSI),
    st.tuples(st.just("act"), WHO, PSI),
    st.tuples(st.just("name"), WHO, PSI),
    st.tuples(st.just("end"), WHO, PSI),
    st.tuples(st.just("meet"), WHO, PSI),
    st.tuples(st.just("send"), WHO, PSI),
    st.tuples(st.just("clock"), WHO, PSI),
)


@dataclass
class Team:
    """Three devices with one visit, and all that was ever typed."""

    devices: list[Device] = field(default_factory=lambda: [Device(seed) for seed in range(3)])
    typed: set[str] = field(default_factory=set)
    readings: set[str] = field(default_factory=set)
    visit: str = ""

    def __post_init__(self) -> None:
        self.visit = start_visit(self.devices[0].given, {"text": "no water"})
        self.all_meet()

    def all_meet(self) -> None:
        """Bring all together, twice round."""
        for _ in range(2):
            for one, other in ((0, 1), (1, 2), (2, 0)):
                self.devices[one].meets(self.devices[other])

    def take(self, step: str, who: int, psi: int) -> None:
        """Let one device do one thing."""
        device, value = self.devices[who], f"{psi} psi"
        rows = visit_page(device.given, self.visit).rows
        chosen = rows[psi % len(rows)].id if rows else None
        if step.startswith("read"):
            token = mint(device.given)
            for _ in step.split():
                kept = add_reading(device.given, self.visit, {"measure": "gauge-pressure", "value": value}, token=token)
                assert isinstance(kept, Kept)
                self.readings.add(kept.id)
            self.typed.add(value)
        elif step == "correct" and chosen:
            correct_reading(device.given, self.visit, chosen, {"value": value})
            self.typed.add(value)
        elif step == "withdraw" and chosen:
            correct_reading(device.given, self.visit, chosen, None)
        else:
            self.take_beside(step, device, psi)

    def take_beside(self, step: str, device: Device, psi: int) -> None:
        """Let one device do one of the other things."""
        other = self.devices[psi % 3]
        if step == "note":
            add_note(device.given, self.visit, f"note {psi}")
            self.typed.add(f"note {psi}")
        elif step == "act":
            record_action(device.given, self.visit, "repair-cable")
        elif step == "name":
            set_system(device.given, visit_page(device.given, self.visit).system_id, {}, name=f"House {psi}")
            self.typed.add(f"House {psi}")
        elif step == "end":
            end_visit(device.given, self.visit, "open" if psi % 2 else "watching")
        elif step == "meet" and other is not device:
            device.meets(other)
        elif step == "send":
            import_visit(other.given, export_visit(device.given, self.visit))
        elif step == "clock":
            device.clock.now += (psi - 50) * 86_400_000


@given(st.lists(STEPS, max_size=14))
@settings(max_examples=60, deadline=None)
def test_all_devices_end_with_the_same_visit_and_all_that_was_typed(steps: list[tuple[str, int, int]]) -> None:
    """The union is the same in any order; every reading stands once, and every text in some fact."""
    team = Team()
    for step, who, psi in steps:
        team.take(step, who, psi)
    team.all_meet()
    pages = [visit_page(device.given, team.visit) for device in team.devices]
    assert pages[0] == pages[1] == pages[2]
    assert {row.id for row in pages[0].rows} == team.readings
    assert len(pages[0].rows) == len(team.readings)
    said = " ".join(str(dict(fact.body)) for fact in team.devices[0].store.facts.values())
    assert all(repr(text) in said for text in team.typed)
    assert export_visit(team.devices[0].given, team.visit) == export_visit(team.devices[2].given, team.visit)


@given(st.lists(STEPS, max_size=8), st.lists(STEPS, max_size=4), WHO)
@settings(max_examples=40, deadline=None)
def test_what_one_device_erased_is_gone_from_all_whatever_the_others_did_meanwhile(
    before: list[tuple[str, int, int]], meanwhile: list[tuple[str, int, int]], who: int
) -> None:
    """The purge wins: no text that anybody typed is left, and no device shows the visit."""
    team = Team()
    for step, each, psi in before:
        team.take(step, each, psi)
    erase(team.devices[who].given, visit_page(team.devices[who].given, team.visit).system_id)
    for step, each, psi in meanwhile:
        if each != who and step not in {"meet", "send"}:
            team.take(step, each, psi)
    team.all_meet()
    for device in team.devices:
        said = " ".join(str(dict(fact.body)) for fact in device.store.facts.values())
        assert not any(repr(text) in said for text in team.typed)
        try:
            visit_page(device.given, team.visit)
        except NotFoundError:
            continue
        raise AssertionError(team.visit)
