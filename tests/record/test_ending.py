"""How visits end: each with its one or two facts, what then comes back, and two devices that end one differently."""

from __future__ import annotations

import pytest

from steadyhead.errors import RecordError, UnknownWordError
from steadyhead.service.record.ending import (
    COMES_BACK,
    DECLINED,
    ENDINGS,
    MADE_SAFE,
    NIGHT_PENDING,
    PROVED,
    WATCHING,
    Ending,
    end_with,
    settle_ending,
)
from steadyhead.service.record.erasing import erase
from steadyhead.service.record.follow_ups import (
    add_follow_up,
    change_follow_up,
    day_after,
    what_waits,
)
from steadyhead.service.record.pages import visit_page
from steadyhead.service.record.temporary import leave_temporary
from steadyhead.service.record.visits import end_visit, start_visit
from tests.record.device import Device

#: What each ending needs; the clock of these tests stands on 2026-05-04.
WHOLE = {
    PROVED: Ending(state=PROVED, fault="sensor-low", proved=True),
    NIGHT_PENDING: Ending(state=NIGHT_PENDING, due="2026-05-05", night={"shut": "house-valve", "ring": "555 0100"}),
    WATCHING: Ending(state=WATCHING, says={"notes": ["photo", "time"]}, due="2026-05-18"),
    MADE_SAFE: Ending(state=MADE_SAFE, says={"off": ["pump", "drive"], "locked": True, "told": "Ms Ruiz"}),
    DECLINED: Ending(state=DECLINED, says={"by": "Mr Dahl", "offered": "a new sensor", "risk_told": True}),
}
LEFT = {"what": "spare sensor", "why": "part is two days away", "until": "2026-05-06", "watch": "Ms Ruiz"}


def begun(device: Device) -> str:
    """Return a visit that has just begun."""
    return start_visit(device.given, {}, sensor={"signal": "4..20 mA", "range": "0..10 bar"}, name="Farm")


@pytest.mark.parametrize("state", ENDINGS)
def test_each_ending_is_kept_with_what_was_said_of_it(device: Device, state: str) -> None:
    """What was said comes back, in the record's own words."""
    visit = begun(device)
    end_with(device.given, visit, WHOLE[state])
    seen = visit_page(device.given, visit)
    assert seen.state == state
    assert {key: list(v) if isinstance(v, (list, tuple)) else v for key, v in seen.ending.items()} == WHOLE[state].says
    assert seen.visit.closed.fault == (WHOLE[state].fault or None)


@pytest.mark.parametrize("state", ENDINGS)
def test_what_is_pending_comes_back_by_itself(device: Device, state: str) -> None:
    """A night's test on the next morning, a watch after a fortnight; the other endings wait for nothing."""
    visit = begun(device)
    end_with(device.given, visit, WHOLE[state])
    expected = {NIGHT_PENDING: [("night-test", "2026-05-05", 1)], WATCHING: [("watch", "2026-05-18", 14)]}
    found = [(each.pending.kind, each.pending.due, each.days) for each in what_waits(device.given)]
    assert found == expected.get(state, [])
    assert {state: days for state, (_, days) in COMES_BACK.items()} == {NIGHT_PENDING: 1, WATCHING: 14}


@pytest.mark.parametrize(
    ("state", "key"), [(MADE_SAFE, "off"), (MADE_SAFE, "told"), (DECLINED, "by"), (DECLINED, "offered")]
)
def test_nothing_is_kept_where_what_an_ending_needs_is_not_said(device: Device, state: str, key: str) -> None:
    """The rule; the visit stays open."""
    visit = begun(device)
    lacking = {name: value for name, value in WHOLE[state].says.items() if name != key}
    with pytest.raises(RecordError, match="ending-incomplete"):
        end_with(device.given, visit, Ending(state=state, says=lacking))
    assert visit_page(device.given, visit).state == "open"


@pytest.mark.parametrize(("due", "because"), [("2026-05-03", "follow-up-past"), ("soon", "follow-up-day")])
def test_a_day_that_has_passed_or_is_none_is_refused(device: Device, due: str, because: str) -> None:
    """The clock of these tests stands on 2026-05-04."""
    with pytest.raises(RecordError, match=because):
        end_with(device.given, begun(device), Ending(state=WATCHING, due=due))


def test_words_that_do_not_exist_are_refused(device: Device) -> None:
    """None of them stands in the lists."""
    visit = begun(device)
    for wrong in (
        Ending(state="vanished"),
        Ending(state=MADE_SAFE, says={"off": ["moon"], "told": "Ann"}),
        Ending(state=NIGHT_PENDING, due="2026-05-05", night={"shut": "eyes"}),
    ):
        with pytest.raises(UnknownWordError, match="word-unknown"):
            end_with(device.given, visit, wrong)


def test_a_form_that_is_sent_twice_ends_the_visit_once(device: Device) -> None:
    """Counting facts."""
    visit, token = begun(device), device.given.ids.new()
    end_with(device.given, visit, WHOLE[NIGHT_PENDING], token=token)
    count = len(device.store.facts)
    end_with(device.given, visit, WHOLE[NIGHT_PENDING], token=token)
    assert len(device.store.facts) == count


def test_a_visit_that_is_opened_again_waits_for_nothing_and_says_nothing_of_an_ending(device: Device) -> None:
    """Ended again it waits for one night, on its new day: nothing is listed twice."""
    visit = begun(device)
    end_with(device.given, visit, WHOLE[NIGHT_PENDING])
    end_visit(device.given, visit, "open")
    assert (visit_page(device.given, visit).ending, what_waits(device.given)) == ({}, ())
    end_with(device.given, visit, Ending(state=NIGHT_PENDING, due="2026-05-07"))
    assert [each.pending.due for each in what_waits(device.given)] == ["2026-05-07"]


def test_what_was_left_temporary_comes_back_on_its_last_day(device: Device) -> None:
    """Said again, the latest holds; once the visit stands otherwise, it comes back no more."""
    visit = begun(device)
    leave_temporary(device.given, visit, LEFT)
    leave_temporary(device.given, visit, {**LEFT, "until": "2026-05-09"})
    assert [(each.pending.kind, each.pending.due) for each in what_waits(device.given)] == [
        ("temporary-end", "2026-05-09")
    ]
    end_with(device.given, visit, WHOLE[PROVED])
    assert what_waits(device.given) == ()


def test_what_is_due_first_stands_first_and_what_has_passed_is_overdue(device: Device) -> None:
    """Three days of the calendar; the clock is moved on by two days."""
    visit = begun(device)
    for kind, due in (("next-service", "2027-05-04"), ("part-ordered", "2026-05-05"), ("part-ordered", "2026-05-06")):
        add_follow_up(device.given, visit, {"kind": kind, "due": due, "what": "sensor"})
    device.clock.now += 2 * 24 * 3600 * 1000
    found = [(each.pending.due, each.overdue, each.soon, each.name) for each in what_waits(device.given)]
    assert found == [
        ("2026-05-05", True, True, "Farm"), ("2026-05-06", False, True, "Farm"), ("2027-05-04", False, False, "Farm")
    ]  # fmt: skip


def test_what_is_done_comes_back_no_more_and_what_is_put_off_on_its_new_day(device: Device) -> None:
    """A part that came, and a service that was put off."""
    visit = begun(device)
    part, service = (
        add_follow_up(device.given, visit, {"kind": kind, "due": "2026-05-05"})
        for kind in ("part-ordered", "next-service")
    )
    change_follow_up(device.given, visit, part, {"ended": "done"})
    change_follow_up(device.given, visit, service, {"due": day_after(device.given, 30)})
    assert [(e.pending.about, e.pending.due) for e in what_waits(device.given)] == [(service, "2026-06-03")]
    with pytest.raises(UnknownWordError, match="word-unknown"):
        change_follow_up(device.given, visit, service, {"ended": "forgotten"})


def test_what_was_erased_comes_back_no_more(device: Device) -> None:
    """A purge wins over everything."""
    visit = begun(device)
    end_with(device.given, visit, WHOLE[WATCHING])
    erase(device.given, visit)
    assert what_waits(device.given) == ()


def two_endings() -> tuple[Device, Device, str]:
    """Return two devices that have ended the same visit differently, and have met since; and the visit."""
    laptop, phone = Device(seed=1), Device(seed=2)
    visit = begun(laptop)
    laptop.meets(phone)
    end_with(laptop.given, visit, WHOLE[DECLINED])
    end_with(phone.given, visit, WHOLE[NIGHT_PENDING])
    laptop.meets(phone)
    return laptop, phone, visit


def test_two_devices_that_end_one_visit_differently_show_both_and_lose_neither() -> None:
    """The union's rule: two heads are a conflict, shown on both devices alike; the night is waited for meanwhile."""
    laptop, phone, visit = two_endings()
    for device in (laptop, phone):
        seen = visit_page(device.given, visit)
        clash = next(each for each in seen.clashes if each.key == "state")
        assert set(clash.values) == {DECLINED, NIGHT_PENDING}
        assert [each.pending.kind for each in what_waits(device.given)] == ["night-test"]


@pytest.mark.parametrize("state", [DECLINED, NIGHT_PENDING])
def test_one_of_two_endings_is_chosen_with_what_was_said_of_it(state: str) -> None:
    """Either; afterwards nothing disagrees, on either device."""
    laptop, phone, visit = two_endings()
    settle_ending(laptop.given, visit, state)
    laptop.meets(phone)
    for device in (laptop, phone):
        seen = visit_page(device.given, visit)
        assert (seen.state, list(seen.clashes)) == (state, [])
        assert seen.ending == WHOLE[state].says
    with pytest.raises(UnknownWordError, match="word-unknown"):
        settle_ending(laptop.given, visit, WATCHING)
