"""Copying from a similar system: only what is unknown, nothing that is its own, all of it told and taken back."""

from __future__ import annotations

from typing import Any

import pytest

from steadyhead.errors import NotFoundError, RecordError, VisitFileError
from steadyhead.service.record.copying import copy_system, would_copy
from steadyhead.service.record.pages import system_page, visit_page
from steadyhead.service.record.system_changes import put_back, system_changes
from steadyhead.service.record.systems import set_site, set_system
from steadyhead.service.record.visits import start_visit
from tests.record.device import Device

PLATE = {"signal": "4..20 mA", "range": "0..10 bar", "accuracy": "0.5 %"}


def made(device: Device, sensor: dict[str, str]) -> str:
    """Begin a visit at a new system, and return the system."""
    return visit_page(device.given, start_visit(device.given, {}, sensor=sensor)).system_id


def pair(device: Device) -> tuple[str, str]:
    """Return a system of which only the range is known, and one like it of which much is (invented)."""
    like = made(device, PLATE)
    tables: dict[str, dict[str, Any]] = {"cable": {"length": "12 m", "shield": True}, "labels": {"wire.signal": "blue"}}
    set_system(device.given, like, tables, name="Pump 1")
    set_site(device.given, like, {"name": "Alder Farm"})
    return made(device, {"range": "0..16 bar"}), like


def test_only_what_is_unknown_is_filled_and_nothing_of_its_own(device: Device) -> None:
    """The range stays; name and site are not copied; the other system is as it was."""
    here, like = pair(device)
    before = system_page(device.given, like)
    assert copy_system(device.given, here, like) == 5
    seen = system_page(device.given, here)
    assert seen.tables["sensor"] == {**PLATE, "range": "0..16 bar"}
    assert seen.tables["cable"] == {"length": "12 m", "shield": True}
    assert seen.tables["labels"] == {"wire.signal": "blue"}
    assert (seen.name, seen.site_id) == ("", None)
    assert system_page(device.given, like) == before


def test_the_history_names_the_source_and_puts_it_all_back(device: Device) -> None:
    """One change of five keys; afterwards only the range is known again."""
    here, like = pair(device)
    copy_system(device.given, here, like)
    copied = system_changes(device.given, here)[0]
    assert (copied.copied_from, copied.copied_name, len(copied.keys)) == (like, "Pump 1", 5)
    assert put_back(device.given, here, copied.fact) == 5
    assert system_page(device.given, here).tables == {"sensor": {"range": "0..16 bar"}}


def test_the_same_form_twice_copies_once_and_a_second_copy_finds_nothing(device: Device) -> None:
    """A token, then none."""
    here, like = pair(device)
    token = device.given.ids.new()
    assert [copy_system(device.given, here, like, token=token) for _ in range(2)] == [5, 0]
    assert would_copy(device.given, here, like) == {}
    for source in (like, here):
        with pytest.raises(RecordError):
            copy_system(device.given, here, source)
    with pytest.raises(NotFoundError):
        copy_system(device.given, here, device.given.ids.new())


def test_a_serial_number_and_a_key_of_a_newer_version_that_is_no_table_are_left(device: Device) -> None:
    """Keys that a newer version may write: a serial number inside a table, and one beside the tables."""
    here, like = pair(device)
    with device.given.writing() as work:
        facts = work.facts(about=like)
        body = {**facts[-1].body, "serial": "K-1", "sensor": {**PLATE, "serial": "K-2"}}
        head = max(fact.id for fact in facts)
        work.add([device.given.pen(work).fact("system", body, about=like, supersedes=(head,), after=head)])
        work.commit()
    copy_system(device.given, here, like)
    with device.given.reading() as work:
        assert "K-" not in repr(work.facts(about=here))


def test_what_cannot_stand_beside_what_is_known_here_is_refused_whole(device: Device) -> None:
    """Fault limits of a voltage beside a signal of milliamps (the rules of the visit file)."""
    like = made(device, {"signal": "0.5..4.5 V ratiometric", "range": "0..100 psi"})
    set_system(device.given, like, {"controller": {"low_fault": "0.2 V"}, "cable": {"length": "12 m"}})
    here = made(device, {"signal": "4..20 mA", "range": "0..10 bar"})
    with pytest.raises(VisitFileError):
        copy_system(device.given, here, like)
    assert "cable" not in system_page(device.given, here).tables
