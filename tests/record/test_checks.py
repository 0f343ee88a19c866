"""Sensor checks in the record: what goes in comes out; sent twice, corrected, taken out, erased, exchanged."""

from __future__ import annotations

from dataclasses import replace

import pytest

from steadyhead.errors import NotFoundError, RecordError, UnknownWordError, VisitFileError
from steadyhead.sensorcheck.from_facts import check_of_facts
from steadyhead.service.record.check_pages import check_page, checks_of, earlier_checks, new_check, unfinished_checks
from steadyhead.service.record.checks import (
    add_point,
    add_points,
    begin_check,
    correct_point,
    finish_check,
    set_check,
    withdraw_check,
)
from steadyhead.service.record.erasing import erase
from steadyhead.service.record.exchange import export_visit, import_visit
from steadyhead.service.record.given import mint
from steadyhead.service.record.instruments import add_instrument
from steadyhead.service.record.lists import today
from steadyhead.service.record.pages import visit_page
from steadyhead.service.record.systems import set_site, set_system
from steadyhead.service.record.visits import set_instruments, start_visit
from tests.record.checks import BODY, POINTS
from tests.record.device import Device

PSI = 6894.757293168361  #: pascal in a pound-force per square inch (NIST SP 811, 2008, B.8), republished


def system_of(device: Device, visit: str) -> str:
    """Return the system of a visit."""
    return visit_page(device.given, visit).system_id


def test_a_check_comes_out_of_the_record_as_it_went_in(device: Device) -> None:
    """Each figure as it was typed, in SI by hand."""
    check = begin_check(device.given, BODY)
    ids = [add_point(device.given, check, row) for row in POINTS]
    seen = check_page(device.given, check)
    run = seen.told.run
    assert (run.serial, run.stage, run.pressure_from, run.read_as) == ("K-4471", "as-found", "system", "signal")
    assert (run.sensor.signal.kind, run.sensor.accuracy) == ("ratiometric", 0.01)
    assert run.sensor.range.high == pytest.approx(100 * PSI)
    assert run.reference.gauge.grade == "2A"
    assert run.reference.resolution_pa == pytest.approx(0.5 * PSI)
    assert run.reference.certificate is not None
    assert run.reference.certificate.k == 2.0
    assert run.reference.certificate.correction == pytest.approx((0.1 * PSI, -0.2 * PSI))
    assert run.meter.signal is not None
    assert (run.meter.signal.relative, run.meter.signal.absolute) == (0.005, 0.02)
    conditions = run.conditions
    assert (conditions.height_m, conditions.temperature_c, conditions.temperature_u_c, conditions.altitude_m) == (
        1.2, 18.0, 5.0, 310.0
    )  # fmt: skip
    assert [(p.direction, p.signal, p.supply_v, p.cycle) for p in run.points] == [
        ("up", 0.512, 5.02, 1), ("up", 2.13, 5.02, 1), ("up", 3.74, 5.01, 1), ("down", 2.15, 5.02, 1),
    ]  # fmt: skip
    assert [p.reference_pa / PSI for p in run.points] == pytest.approx([0, 40, 80, 40])
    assert [p.id for p in run.points] == ids == [p.id for p in seen.points]
    assert all(p.at for p in run.points)
    assert seen.told.purpose == "quick"
    assert (seen.told.allowed.relief_pa, seen.told.allowed.ordinary_pa) == pytest.approx((90 * PSI, 60 * PSI))
    assert (seen.told.allowed.weakest_pa, seen.told.allowed.lowest_pa) == (None, 0.0)
    assert seen.told.scaled is not None
    assert seen.told.scaled.high == pytest.approx(100 * PSI)
    assert (seen.told.clashes, seen.told.set_aside, seen.told.assumed) == ((), (), ())
    assert seen.body["reference"] == BODY["reference"]


def test_a_milliamp_sensor_reads_its_meter_and_its_points_in_milliamps(device: Device) -> None:
    """4..20 mA: amperes inside."""
    body = {
        "sensor": {"signal": "4..20 mA", "range": "0..10 bar"},
        "meter": {"milliamps": "1 % + 2 x 0.01 mA", "certificate": {"expanded": "0.02 mA", "k": "2.1"}},
    }
    check = begin_check(device.given, body)
    add_point(device.given, check, {"reference": "5 bar", "direction": "up", "signal": "12.1 mA"})
    run = check_page(device.given, check).told.run
    assert (run.points[0].signal, run.points[0].reference_pa) == (0.0121, 500_000.0)
    assert run.meter.signal is not None
    assert run.meter.signal.relative == 0.01
    assert run.meter.certificate is not None
    assert (run.meter.certificate.expanded, run.meter.certificate.k) == (2e-5, 2.1)


def test_the_same_form_sent_twice_keeps_one_point_and_another_figure_corrects_it(device: Device) -> None:
    """As a reading's form: back, corrected, sent again; the first figure again is no news."""
    check, token = begin_check(device.given, BODY), mint(device.given)
    first = add_point(device.given, check, POINTS[1], token=token)
    assert add_point(device.given, check, POINTS[1], token=token) == first
    assert len(check_page(device.given, check).points) == 1
    assert add_point(device.given, check, {**POINTS[1], "signal": "2.31 V"}, token=token) == first
    add_point(device.given, check, POINTS[1], token=token)
    (point,) = check_page(device.given, check).points
    assert (point.body["signal"], [body["signal"] for body in point.history]) == ("2.31 V", ["2.13 V"])


def test_the_same_form_sent_twice_begins_one_check(device: Device) -> None:
    """A wet thumb."""
    token = mint(device.given)
    assert begin_check(device.given, BODY, token=token) == begin_check(device.given, BODY, token=token)
    assert len(unfinished_checks(device.given)) == 1


def test_a_point_is_corrected_in_its_place_and_taken_out(device: Device) -> None:
    """The order is that of the first facts; a withdrawn point stays to be seen."""
    check = begin_check(device.given, BODY)
    first, second = (add_point(device.given, check, row) for row in POINTS[:2])
    correct_point(device.given, check, first, {"signal": "0.52 V"})
    run = check_page(device.given, check).told.run
    assert [(p.id, p.signal) for p in run.points] == [(first, 0.52), (second, 2.13)]
    correct_point(device.given, check, first, None)
    seen = check_page(device.given, check)
    assert [p.id for p in seen.told.run.points] == [second]
    assert [(p.number, p.withdrawn) for p in seen.points] == [(None, True), (1, False)]
    correct_point(device.given, check, first, {})
    assert [p.number for p in check_page(device.given, check).points] == [1, 2]


@pytest.mark.parametrize(
    ("row", "key"),
    [
        ({"reference": "40", "direction": "up", "signal": "2 V"}, "check-point.reference"),
        ({"direction": "up", "signal": "2 V"}, "check-point.reference"),
        ({"reference": "40 psi", "direction": "sideways", "signal": "2 V"}, "check-point.direction"),
        ({"reference": "40 psi", "direction": "up", "signal": "12 mA"}, "check-point.signal"),
        ({"reference": "40 psi", "direction": "up", "signal": "2 V", "cycle": 0}, "check-point.cycle"),
        ({"reference": "1e300 Pa", "direction": "up", "signal": "2 V"}, "check-point.reference"),
        ({"reference": "-2 bar", "direction": "up", "signal": "2 V"}, "check-point.reference"),
        ({"reference": "40 psi", "direction": "up", "signal": "1001 V"}, "check-point.signal"),
        ({"reference": "40 psi", "direction": "up", "signal": "213 V"}, "check-point.signal"),
        ({"reference": "4000 psi", "direction": "up", "signal": "2.13 V"}, "check-point.reference"),
        ({"reference": "40 psi", "direction": "up", "signal": "2 V", "supply": "0 V"}, "check-point.supply"),
        ({"reference": "40 psi", "direction": "up"}, "check-point"),
    ],
)
def test_a_point_that_cannot_be_read_is_refused_with_its_key_and_changes_nothing(
    row: dict[str, object], key: str
) -> None:
    """A bare number, a missing key, an unknown word, another kind of signal, nothing of it, what no meter shows."""
    device = Device()
    check = begin_check(device.given, BODY)
    with pytest.raises(VisitFileError) as caught:
        add_point(device.given, check, row)
    assert [problem.key for problem in caught.value.problems] == [key]
    assert check_page(device.given, check).points == ()


def test_several_points_are_kept_all_or_none(device: Device) -> None:
    """A list of points with one that is wrong; the same list twice."""
    check, token = begin_check(device.given, BODY), mint(device.given)
    with pytest.raises(VisitFileError):
        add_points(device.given, check, [*POINTS, {"reference": "1"}], token=token)
    assert check_page(device.given, check).points == ()
    assert len(add_points(device.given, check, POINTS, token=token)) == len(POINTS)
    assert add_points(device.given, check, POINTS, token=token) == ()
    assert [p.signal for p in check_page(device.given, check).told.run.points] == [0.512, 2.13, 3.74, 2.15]


def test_a_check_without_a_plate_is_refused() -> None:
    """A sensor check judges by the plate: it is never assumed."""
    device = Device()
    with pytest.raises(VisitFileError) as caught:
        begin_check(device.given, {"sensor": {"signal": "4..20 mA"}})
    assert [problem.key for problem in caught.value.problems] == ["sensor.range"]
    assert device.store.facts == {}


def test_certificates_whose_corrections_do_not_fit_are_refused() -> None:
    """Two corrections for one reading."""
    wrong = {**BODY, "reference": {"certificate": {"expanded": "1 psi", "correction": ["1 psi", "2 psi"]}}}
    with pytest.raises(VisitFileError) as caught:
        begin_check(Device().given, wrong)
    assert [problem.key for problem in caught.value.problems] == ["reference.certificate"]


@pytest.mark.parametrize("expanded", ["0 psi", "-1 psi", "1e300 Pa"])
def test_a_certificate_has_a_width(expanded: str) -> None:
    """Above zero, and no more than any gauge has."""
    with pytest.raises(VisitFileError):
        begin_check(Device().given, {**BODY, "reference": {"certificate": {"expanded": expanded}}})


def test_what_is_known_of_a_check_is_changed_key_by_key(device: Device) -> None:
    """An empty key becomes unknown; other keys and the points stay."""
    check = begin_check(device.given, BODY)
    add_point(device.given, check, POINTS[0])
    set_check(device.given, check, {"serial": "", "reference": {"grade": "1A", "resolution": "", "certificate": {}}})
    seen = check_page(device.given, check)
    assert "serial" not in seen.body
    assert seen.body["reference"] == {"range": "0..160 psi", "grade": "1A"}
    assert seen.body["meter"] == BODY["meter"]
    assert len(seen.told.run.points) == 1
    with pytest.raises(VisitFileError):
        set_check(device.given, check, {"reference": {"grade": "Z"}})
    assert check_page(device.given, check).body["reference"]["grade"] == "1A"


def test_an_unfinished_check_is_resumed_and_finished(device: Device) -> None:
    """It stands on the list until somebody says that it is done."""
    check = begin_check(device.given, BODY)
    assert [line.id for line in unfinished_checks(device.given)] == [check]
    finish_check(device.given, check, "finished")
    assert unfinished_checks(device.given) == ()
    finish_check(device.given, check, "unfinished")
    assert [line.id for line in unfinished_checks(device.given)] == [check]
    with pytest.raises(UnknownWordError):
        finish_check(device.given, check, "done")


def test_a_check_that_was_taken_out_stands_on_no_list(device: Device) -> None:
    """Nor does it count for a drift."""
    check = begin_check(device.given, BODY)
    withdraw_check(device.given, check)
    assert unfinished_checks(device.given) == ()
    assert earlier_checks(device.given, "K-4471") == ()


def test_checks_of_a_serial_number_come_with_all_visits_and_in_their_order(device: Device) -> None:
    """One in a visit, one on a bench a year later, one of another sensor."""
    visit = start_visit(device.given, {"text": "yearly"}, sensor=BODY["sensor"], name="House 4")
    first = begin_check(device.given, BODY, system=system_of(device, visit), visit=visit)
    device.clock.now += 365 * 86_400_000
    second = begin_check(device.given, BODY)
    begin_check(device.given, {**BODY, "serial": "K-44710"})
    assert [line.id for line in checks_of(device.given, serial="K-4471")] == [second, first]
    early, late = earlier_checks(device.given, "K-4471")
    assert (early.id, late.id) == (first, second)
    assert (early.run.began[:4], late.run.began[:4]) == ("2026", "2027")
    (line,) = checks_of(device.given, system=system_of(device, visit))
    assert (line.id, line.name, line.visit) == (first, "House 4", visit)


def test_a_new_check_begins_with_what_is_known(device: Device) -> None:
    """The plate of the system, gauge and meter of the visit, the site's height; then what the last check said."""
    visit = start_visit(device.given, {"text": "yearly"}, sensor=BODY["sensor"], name="House 4")
    system = system_of(device, visit)
    gauge = add_instrument(device.given, "gauge", {"range": "0..160 psi", "grade": "B"})
    meter = add_instrument(device.given, "meter", {"volts": "0.5 % + 2 x 0.01 V"})
    set_instruments(device.given, visit, (gauge, meter), None)
    set_site(device.given, system, {"altitude": "310 m"})
    found = new_check(device.given, system=system, visit=visit)
    assert found["sensor"] == BODY["sensor"]
    assert found["reference"] == {"range": "0..160 psi", "grade": "B"}
    assert found["meter"] == {"volts": "0.5 % + 2 x 0.01 V"}
    assert found["conditions"] == {"altitude": "310 m"}
    assert "serial" not in found
    begin_check(device.given, BODY, system=system)
    again = new_check(device.given, system=system)
    assert (again["serial"], again["reference"]) == ("K-4471", BODY["reference"])


def test_a_later_part_does_not_change_what_a_check_was_judged_by(device: Device) -> None:
    """The check's own copy of the plate."""
    visit = start_visit(device.given, {"text": "yearly"}, sensor=BODY["sensor"])
    check = begin_check(device.given, BODY, system=system_of(device, visit), visit=visit)
    set_system(device.given, system_of(device, visit), {"sensor": {"range": "0..150 psi"}})
    assert check_page(device.given, check).told.run.sensor.range.high == pytest.approx(100 * PSI)


def test_a_check_that_stands_alone_is_no_visit(device: Device) -> None:
    """It is on no list of visits, and opening it as one is refused."""
    check = begin_check(device.given, BODY)
    add_point(device.given, check, POINTS[0])
    assert (today(device.given).visits, today(device.given).ended) == ((), ())
    with pytest.raises(NotFoundError):
        visit_page(device.given, check)


def test_a_visit_with_a_check_is_diagnosed_as_before(device: Device) -> None:
    """A check's points are no readings of the visit."""
    visit = start_visit(device.given, {"text": "yearly"}, sensor=BODY["sensor"])
    check = begin_check(device.given, BODY, system=system_of(device, visit), visit=visit)
    add_point(device.given, check, POINTS[0])
    seen = visit_page(device.given, visit)
    assert (seen.rows, seen.set_aside, seen.clashes) == ((), (), ())


def test_erasing_a_check_that_stands_alone_covers_points_that_arrive_later() -> None:
    """A phone adds a point while the laptop erases; both meet."""
    laptop, phone = Device(1), Device(2)
    check = begin_check(laptop.given, BODY)
    laptop.meets(phone)
    add_point(phone.given, check, POINTS[0])
    assert erase(laptop.given, check) == (check,)
    laptop.meets(phone)
    for device in (laptop, phone):
        with pytest.raises(NotFoundError):
            check_page(device.given, check)
        assert all(not fact.body for fact in device.store.facts.values() if fact.kind != "purge")
        assert unfinished_checks(device.given) == ()


def test_erasing_a_check_of_a_visit_takes_its_points_and_leaves_the_visit(device: Device) -> None:
    """By the points' own ids."""
    visit = start_visit(device.given, {"text": "yearly"}, sensor=BODY["sensor"])
    check = begin_check(device.given, BODY, system=system_of(device, visit), visit=visit)
    point = add_point(device.given, check, POINTS[0])
    assert set(erase(device.given, check)) == {check, point}
    assert visit_page(device.given, visit).id == visit
    assert all(not device.store.facts[id_].body for id_ in (check, point))


def test_erasing_a_system_takes_its_checks(device: Device) -> None:
    """In a visit and alone."""
    visit = start_visit(device.given, {"text": "yearly"}, sensor=BODY["sensor"])
    system = system_of(device, visit)
    alone = begin_check(device.given, BODY, system=system)
    inside = begin_check(device.given, BODY, system=system, visit=visit)
    add_point(device.given, alone, POINTS[0])
    assert {system, visit, alone, inside} <= set(erase(device.given, system))
    left = [fact for fact in device.store.facts.values() if fact.kind != "purge" and fact.body]
    assert left == []


def test_two_devices_bring_their_points_together_and_a_disagreement_does_not_count() -> None:
    """Union in any order: both points stay, a key that both changed is shown until it is settled."""
    laptop, phone = Device(1), Device(2)
    check = begin_check(laptop.given, BODY)
    shared = add_point(laptop.given, check, POINTS[0])
    laptop.meets(phone)
    add_point(phone.given, check, POINTS[1])
    correct_point(phone.given, check, shared, {"signal": "0.50 V"})
    correct_point(laptop.given, check, shared, {"signal": "0.60 V"})
    laptop.meets(phone)
    for device in (laptop, phone):
        seen = check_page(device.given, check)
        assert [point.signal for point in seen.told.run.points] == [2.13]
        assert {body["signal"] for body in seen.points[0].heads} == {"0.50 V", "0.60 V"}
        assert [clash.key for clash in seen.told.clashes] == ["signal"]
    assert check_page(laptop.given, check) == check_page(phone.given, check)
    correct_point(laptop.given, check, shared, {"signal": "0.50 V"})
    laptop.meets(phone)
    assert [point.signal for point in check_page(phone.given, check).told.run.points] == [0.5, 2.13]


def test_a_point_does_not_count_while_two_devices_disagree_on_any_key_of_it() -> None:
    """The supply, and which time through the range: neither is taken for what it usually is."""
    for key, values in (("supply", ("4.9 V", "5.1 V")), ("cycle", (2, 3))):
        laptop, phone = Device(1), Device(2)
        check = begin_check(laptop.given, BODY)
        point = add_point(laptop.given, check, POINTS[0])
        laptop.meets(phone)
        for device, value in zip((laptop, phone), values, strict=True):
            correct_point(device.given, check, point, {key: value})
        laptop.meets(phone)
        assert check_page(laptop.given, check).told.run.points == ()
        assert check_page(phone.given, check).points[0].number is None


def test_a_check_goes_from_one_device_to_another_with_its_visit_and_alone() -> None:
    """Both archives: the same check comes out."""
    laptop, phone = Device(1), Device(2)
    visit = start_visit(laptop.given, {"text": "yearly"}, sensor=BODY["sensor"], name="House 4")
    inside = begin_check(laptop.given, BODY, system=system_of(laptop, visit), visit=visit)
    alone = begin_check(laptop.given, BODY, system=system_of(laptop, visit))
    for check in (inside, alone):
        add_point(laptop.given, check, POINTS[0])
    for id_ in (visit, alone):
        assert import_visit(phone.given, export_visit(laptop.given, id_)).visits == (id_,)
    for check in (inside, alone):
        assert check_page(phone.given, check) == check_page(laptop.given, check)


def test_what_this_version_cannot_read_is_set_aside_and_the_rest_is_used() -> None:
    """A newer word in the check, a newer form of a point; a newer key is passed over."""
    device = Device()
    check = begin_check(device.given, BODY)
    for row in POINTS[:2]:
        add_point(device.given, check, row)
    facts = [
        replace(fact, body={**fact.body, "stage": "half-way", "colour": "blue"}) if fact.kind == "check"
        else replace(fact, body={**fact.body, "signal": {"frequency": "3 kHz"}}) if fact.body["reference"] == "0 psi"
        else fact
        for fact in device.store.facts.values()
    ]  # fmt: skip
    told = check_of_facts(facts, check)
    assert (told.run.stage, [point.signal for point in told.run.points]) == ("as-found", [2.13])
    assert {aside.key for aside in told.set_aside} == {"check.stage", "check-point.signal"}


def test_facts_without_the_check_are_refused() -> None:
    """An id that nothing has, and one of a point."""
    device = Device()
    check = begin_check(device.given, BODY)
    point = add_point(device.given, check, POINTS[0])
    with pytest.raises(RecordError, match="check-unknown"):
        check_of_facts(device.store.facts.values(), mint(device.given))
    for id_ in (mint(device.given), point):
        with pytest.raises(NotFoundError):
            check_page(device.given, id_)
    with pytest.raises(NotFoundError, match="check-point-not-here"):
        correct_point(device.given, check, check, {"signal": "1 V"})
