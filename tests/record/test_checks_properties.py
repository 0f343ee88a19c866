"""Three devices take points of one sensor check in any way, meet in any order, and end with the same check."""

from __future__ import annotations

from dataclasses import dataclass, field

from hypothesis import given, settings
from hypothesis import strategies as st

from steadyhead.service.record.check_pages import check_page, unfinished_checks
from steadyhead.service.record.checks import add_point, begin_check, correct_point, finish_check, set_check
from steadyhead.service.record.erasing import erase
from steadyhead.service.record.given import mint
from tests.record.checks import BODY
from tests.record.device import Device
from tests.record.trio import MOVES, WHO, Trio, steps

STEPS = steps("take", "take twice", "correct", "withdraw", "serial", "finish")


@dataclass
class Team(Trio):
    """Three devices with one sensor check that stands alone."""

    points: set[str] = field(default_factory=set)

    def __post_init__(self) -> None:
        self.of = begin_check(self.devices[0].given, {**BODY, "serial": "K-0"})
        self.typed.add("K-0")
        self.all_meet()

    def take(self, step: str, who: int, psi: int) -> None:
        """Let one device do one thing."""
        device, value = self.devices[who], f"{psi} psi"
        points = check_page(device.given, self.of).points
        chosen = points[psi % len(points)].id if points else None
        if step.startswith("take"):
            token = mint(device.given)
            row = {"reference": value, "direction": "up", "signal": "2 V", "supply": "5 V"}
            self.points |= {add_point(device.given, self.of, row, token=token) for _ in step.split()}
            self.typed.add(value)
        elif step == "correct" and chosen:
            correct_point(device.given, self.of, chosen, {"reference": value})
            self.typed.add(value)
        elif step == "withdraw" and chosen:
            correct_point(device.given, self.of, chosen, None)
        else:
            self.take_beside(step, device, psi)

    def take_beside(self, step: str, device: Device, psi: int) -> None:
        """Let one device do one of the other things."""
        if step == "serial":
            set_check(device.given, self.of, {"serial": f"K-{psi}"})
            self.typed.add(f"K-{psi}")
        elif step == "finish":
            finish_check(device.given, self.of, "finished" if psi % 2 else "unfinished")
        else:
            self.move(step, device, psi)


@given(st.lists(STEPS, max_size=12))
@settings(max_examples=40, deadline=None)
def test_all_devices_end_with_the_same_check_and_all_that_was_typed(steps: list[tuple[str, int, int]]) -> None:
    """The union is the same in any order; every point stands once, and every text in some fact."""
    team = Team()
    for step, who, psi in steps:
        team.take(step, who, psi)
    team.all_meet()
    pages = [check_page(device.given, team.of) for device in team.devices]
    assert pages[0] == pages[1] == pages[2]
    assert {point.id for point in pages[0].points} == team.points
    assert team.nothing_typed_is_lost()


@given(st.lists(STEPS, max_size=6), st.lists(STEPS, max_size=4), WHO)
@settings(max_examples=30, deadline=None)
def test_a_check_that_one_device_erased_is_gone_from_all_with_the_points_of_the_others(
    before: list[tuple[str, int, int]], meanwhile: list[tuple[str, int, int]], who: int
) -> None:
    """The purge wins: no figure that anybody typed is left, and no list shows the check."""
    team = Team()
    for step, each, psi in before:
        team.take(step, each, psi)
    erase(team.devices[who].given, team.of)
    for step, each, psi in meanwhile:
        if each != who and step not in MOVES:
            team.take(step, each, psi)
    team.all_meet()
    assert team.everything_is_gone(lambda device: check_page(device.given, team.of))
    assert [unfinished_checks(device.given) for device in team.devices] == [(), (), ()]
