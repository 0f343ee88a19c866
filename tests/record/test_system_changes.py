"""What was changed in a system, by whom; a change put back; what two devices disagree on, settled key by key."""

from __future__ import annotations

from dataclasses import replace

import pytest

from steadyhead.errors import NotFoundError, RecordError
from steadyhead.service.record.pages import system_page, visit_page
from steadyhead.service.record.system_changes import (
    KeyChanged,
    found_in,
    put_back,
    settle_system,
    system_changes,
    unsettled,
)
from steadyhead.service.record.systems import set_site, set_system
from steadyhead.service.record.visits import end_visit, start_visit
from tests.record.device import Device

PLATE = {"signal": "0.5..4.5 V ratiometric", "range": "0..100 psi"}


def system_of(device: Device) -> str:
    """Begin a visit at a new system, and return the system."""
    return visit_page(device.given, start_visit(device.given, {}, sensor=PLATE)).system_id


def two_devices() -> tuple[Device, Device, str]:
    """Return two devices that both know a system and have each said another cable and site, and then met."""
    one, other = Device(seed=1), Device(seed=2)
    system = system_of(one)
    set_site(one.given, system, {"name": "Alder Farm"})
    one.meets(other)
    set_system(one.given, system, {"cable": {"length": "12 m", "conductor": "22 AWG"}})
    set_system(other.given, system, {"cable": {"length": "15 m", "conductor": "20 AWG"}})
    set_site(one.given, system, {"altitude": "310 m"})
    set_site(other.given, system, {"altitude": "320 m"})
    one.meets(other)
    return one, other, system


def test_every_change_is_told_key_by_key_with_who_made_it(device: Device) -> None:
    """Three changes by hand, the last first; the first fact tells what the system began with."""
    system = system_of(device)
    set_system(replace(device.given, author="Ana"), system, {"cable": {"length": "12 m"}}, name="Pump 1")
    set_system(replace(device.given, author="Ben"), system, {"cable": {"length": ""}})
    last, named, first = system_changes(device.given, system)
    assert (last.author, last.keys) == ("Ben", (KeyChanged("cable.length", "12 m", None),))
    assert set(named.keys) == {KeyChanged("name", None, "Pump 1"), KeyChanged("cable.length", None, "12 m")}
    assert {each.key: each.after for each in first.keys} == {f"sensor.{key}": value for key, value in PLATE.items()}
    assert (last.back, named.back, first.back) == (True, True, False)


def test_a_change_is_put_back_save_what_a_later_word_has_changed(device: Device) -> None:
    """A later word stands; putting back is a fact of its own, and can be put back too."""
    system = system_of(device)
    set_system(device.given, system, {"cable": {"length": "12 m", "conductor": "22 AWG"}})
    (change, _) = system_changes(device.given, system)
    set_system(device.given, system, {"cable": {"length": "15 m"}})
    assert put_back(device.given, system, change.fact) == 1
    assert system_page(device.given, system).tables["cable"] == {"length": "15 m"}
    assert put_back(device.given, system, system_changes(device.given, system)[0].fact) == 1
    assert system_page(device.given, system).tables["cable"] == {"length": "15 m", "conductor": "22 AWG"}


def test_what_was_overtaken_or_began_the_system_is_not_put_back(device: Device) -> None:
    """The rules of the module."""
    system = system_of(device)
    set_system(device.given, system, {"cable": {"length": "12 m"}})
    (change, first) = system_changes(device.given, system)
    set_system(device.given, system, {"cable": {"length": "15 m"}})
    for fact in (change.fact, first.fact):
        with pytest.raises(RecordError):
            put_back(device.given, system, fact)
    with pytest.raises(NotFoundError):
        put_back(device.given, system, system_of(device))


def test_what_two_devices_disagree_on_is_settled_key_by_key_on_both() -> None:
    """The length is settled, the conductor and the site stay open until they are; the other device agrees."""
    one, other, system = two_devices()
    found = {each.key: each for each in unsettled(one.given, system)}
    assert sorted(found) == ["altitude", "cable.conductor", "cable.length"]
    said = dict(zip(found["cable.length"].values, found["cable.length"].heads, strict=True))
    settle_system(one.given, system, "cable.length", said["15 m"])
    left = {each.key: each for each in unsettled(one.given, system)}
    assert sorted(left) == ["altitude", "cable.conductor"]
    for key, value in (("cable.conductor", "22 AWG"), ("altitude", "320 m")):
        says = dict(zip(left[key].values, left[key].heads, strict=True))
        settle_system(one.given, system, key, says[value])
    one.meets(other)
    for device in (one, other):
        seen = system_page(device.given, system)
        assert unsettled(device.given, system) == ()
        assert (seen.tables["cable"], seen.site["altitude"]) == ({"length": "15 m", "conductor": "22 AWG"}, "320 m")


def test_nothing_is_settled_that_nobody_said() -> None:
    """A fact that is none of the two, and a key on which they agree."""
    one, _, system = two_devices()
    head = unsettled(one.given, system)[0].heads[0]
    for key, fact in (("cable.length", system), ("sensor.range", head)):
        with pytest.raises(NotFoundError):
            settle_system(one.given, system, key, fact)


def test_what_was_found_at_each_visit_is_told(device: Device) -> None:
    """A visit that was closed, and one that is open."""
    closed, open_ = start_visit(device.given, {}, sensor=PLATE), start_visit(device.given, {}, sensor=PLATE)
    end_visit(device.given, closed, "proved-on-site", finding={"fault": "sensor-low", "proved": True})
    assert found_in(device.given, (closed, open_)) == {closed: "sensor-low"}
