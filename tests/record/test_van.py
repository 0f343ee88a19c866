"""The van's list in the record: put on, put right, counted, fitted, brought together from two devices."""

from __future__ import annotations

from itertools import permutations
from pathlib import Path
from typing import Any

import pytest

from steadyhead.bootstrap import open_home, place_named
from steadyhead.errors import NotFoundError, RecordError, UnknownWordError, VisitFileError
from steadyhead.service.healthy import healthy_bands
from steadyhead.service.record.demo import begin_demo, example_text, leave_demo
from steadyhead.service.record.demo_van import DEMO_STOCK
from steadyhead.service.record.given import Given
from steadyhead.service.record.pages import system_page, visit_page
from steadyhead.service.record.readings import add_reading
from steadyhead.service.record.systems import set_system
from steadyhead.service.record.van import add_stock, set_stock, stock_on_van, stock_page, withdraw_stock
from steadyhead.service.record.van_fitted import fit_from_van, parts_of_visit, take_out, take_over, what_will_do_in
from steadyhead.service.record.visits import start_visit
from tests.record.bench import ToldClock, seeded_ids
from tests.record.memory import MemoryStore

WIDE = {
    "name": "House, 150 psi", "count": 2,
    "sensor": {"signal": "0.5..4.5 V ratiometric", "range": "0..150 psi", "accuracy": "1 %", "supply": "5 V"},
    "build": {"thread": "1/4 NPT", "plug": "m12-a", "approval": ["nsf-61", "nsf-372"], "stands": "300 psi"},
    "pins": {"supply": "1", "signal": "2", "common": "3"},
}  # fmt: skip
LOOP = {
    "name": "Booster, 10 bar", "count": 1,
    "sensor": {"signal": "4..20 mA", "range": "0..10 bar", "accuracy": "0.5 %", "supply": "9..30 V"},
    "build": {"thread": "G 1/4", "approval": ["nsf-61"]},
}  # fmt: skip
HERE = {"signal": "0.5..4.5 V ratiometric", "range": "0..100 psi", "accuracy": "1 %", "supply": "5 V"}


def home(store: MemoryStore, seed: int = 4) -> Given:
    """Return what the use cases need, on a record in memory."""
    clock = ToldClock()
    return Given(reading=store.work, writing=store.work, ids=seeded_ids(clock, seed), clock=clock, author="Ana")


@pytest.fixture
def given() -> Given:
    """Return what the use cases need, on a record in memory."""
    return home(MemoryStore())


@pytest.fixture
def visit(given: Given) -> str:
    """Return the id of a visit to a system whose plate is known."""
    return start_visit(given, {}, sensor=HERE)


def test_what_is_put_on_the_list_stands_there_as_it_was_typed(given: Given) -> None:
    """What was typed comes back."""
    id_ = add_stock(given, WIDE)
    (line,) = stock_on_van(given)
    assert (line.id, line.name, line.left, line.conflicts) == (id_, "House, 150 psi", 2, ())
    assert {name: line.body[name] for name in WIDE} == WIDE


def test_a_name_alone_will_not_do_and_a_line_without_one_is_refused(given: Given) -> None:
    """Signal and range are needed; the name too; nothing is kept."""
    with pytest.raises(RecordError, match="van-name-missing"):
        add_stock(given, {**WIDE, "name": " "})
    with pytest.raises(VisitFileError) as refused:
        add_stock(given, {"name": "x", "sensor": {"signal": "4..20 mA", "range": "0..ten bar"}})
    assert [problem.key for problem in refused.value.problems] == ["[sensor] range"]
    assert stock_on_van(given) == ()


@pytest.mark.parametrize("count", [-1, "two", True, 1.5])
def test_a_count_is_a_whole_number(given: Given, count: Any) -> None:  # noqa: ANN401 - what a form may send
    """Zero or more."""
    with pytest.raises(RecordError, match="van-count-wrong"):
        add_stock(given, {**WIDE, "count": count})


def test_the_same_form_sent_twice_keeps_one(given: Given) -> None:
    """Counting."""
    token = given.ids.new("")
    assert add_stock(given, WIDE, token=token) == add_stock(given, WIDE, token=token)
    assert len(stock_on_van(given)) == 1


def test_a_line_is_put_right_key_by_key_and_taken_off(given: Given) -> None:
    """What is left out keeps its value, what is empty becomes unknown."""
    id_ = add_stock(given, WIDE)
    set_stock(given, id_, {"build": {"thread": "", "plug": "lead"}, "note": "in the red box"})
    body = stock_page(given, id_).body
    assert "thread" not in body["build"]
    assert (body["build"]["plug"], body["build"]["stands"], body["note"]) == ("lead", "300 psi", "in the red box")
    withdraw_stock(given, id_)
    assert stock_on_van(given) == ()
    withdraw_stock(given, id_, back=True)
    assert len(stock_on_van(given)) == 1


def test_one_that_is_fitted_is_one_less_and_a_new_count_holds(given: Given, visit: str) -> None:
    """2 - 1 = 1; counted again: 5; fitted again: 4; not fitted after all: 5."""
    id_ = add_stock(given, WIDE)
    first = fit_from_van(given, visit, id_, serial="K-1", lasts="permanent")
    assert stock_page(given, id_).left == 1
    set_stock(given, id_, {"count": 5})
    assert stock_page(given, id_).left == 5
    fitted = fit_from_van(given, visit, id_)
    assert stock_page(given, id_).left == 4
    take_out(given, visit, fitted)
    assert stock_page(given, id_).left == 5
    assert [part.id for part in parts_of_visit(given, visit)] == [first]


def test_two_devices_that_each_fit_one_come_to_the_same_number_in_any_order(given: Given) -> None:
    """Union: 2 on the van, two fitted on two devices: none left, whichever side comes first."""
    id_ = add_stock(given, WIDE)
    visits = [start_visit(given, {}, sensor=HERE) for _ in range(2)]
    with given.reading() as work:
        begun = [*work.facts(about=id_), *(fact for visit in visits for fact in _everything(work, visit))]
    sides = []
    for seed, visit in enumerate(visits, start=50):
        store = MemoryStore()
        with store.work() as work:
            work.add(begun)
            work.commit()
        own = home(store, seed)
        fit_from_van(own, visit, id_)
        sides.append([fact for fact in store.facts.values() if fact not in begun])
    for order in permutations(sides):
        store = MemoryStore()
        with store.work() as work:
            work.add(begun)
            for side in order:
                work.add(side)
            work.commit()
        assert stock_page(home(store), id_).left == 0


def _everything(work: Any, visit: str) -> list[Any]:  # noqa: ANN401 - a unit of work
    own = work.facts(visit=visit)
    return [*own, *(fact for each in own if each.kind == "visit" for fact in work.facts(about=each.body["system"]))]


def test_what_is_fitted_is_told_with_the_repair_and_the_system_has_its_plate(given: Given, visit: str) -> None:
    """The plate as it was typed; the setting that was entered is the plate's own range."""
    id_ = add_stock(given, WIDE)
    fit_from_van(given, visit, id_, serial=" K-4471 ", lasts="permanent", entered=True)
    seen = visit_page(given, visit)
    (action,) = seen.actions
    assert (action.body["remedy"], list(action.body["parts"])) == (
        "replace-sensor", [{"part": "House, 150 psi", "serial": "K-4471"}]
    )  # fmt: skip
    (part,) = parts_of_visit(given, visit)
    assert (part.name, part.serial, part.lasts, part.taken_over) == ("House, 150 psi", "K-4471", "permanent", True)
    assert seen.tables["sensor"] == WIDE["sensor"]
    assert seen.tables["controller"]["scaled"] == "0..150 psi"
    assert seen.tables["labels"]["sensor.supply"] == "1"


def test_readings_from_before_are_told_by_the_sensor_that_stood_there_then(given: Given, visit: str) -> None:
    """50 psi: 0.5 + 4 x 50 / 100 = 2.5 V on the old plate; 0.5 + 4 x 50 / 150 = 1.83 V on the new one."""
    signal = {"measure": "volts", "red": "controller.signal", "black": "controller.common"}
    add_reading(given, visit, {"measure": "gauge-pressure", "value": "50 psi"})
    add_reading(given, visit, {**signal, "value": "1.10 V"})
    fit_from_van(given, visit, add_stock(given, WIDE), entered=True)
    add_reading(given, visit, {**signal, "value": "1.83 V"})
    bands = healthy_bands(visit_page(given, visit).visit)
    assert bands[2].low < 2.5 < bands[2].high
    assert bands[3].low < 1.8333 < bands[3].high
    assert bands[3].high < 2.5


def test_a_setting_that_nobody_entered_is_unknown_again(given: Given, visit: str) -> None:
    """The old setting is no longer right, and nobody looked."""
    set_system(given, visit_page(given, visit).system_id, {"controller": {"scaled": "0..100 psi"}})
    fit_from_van(given, visit, add_stock(given, WIDE))
    assert "scaled" not in visit_page(given, visit).tables.get("controller", {})


def test_readings_of_another_unit_stay_evidence_until_the_visit_is_over(given: Given, visit: str) -> None:
    """A reading in volts cannot be read with a milliamps plate: the plate is taken over afterwards."""
    add_reading(given, visit, {"measure": "displayed-signal", "value": "2.4 V"})
    fitted = fit_from_van(given, visit, add_stock(given, LOOP), entered=True)
    seen = visit_page(given, visit)
    assert seen.tables["sensor"]["signal"] == HERE["signal"]
    assert [row.number for row in seen.rows] == [1]
    assert [part.taken_over for part in parts_of_visit(given, visit)] == [False]
    take_over(given, visit, fitted, entered=True)
    system = system_page(given, seen.system_id)
    assert system.tables["sensor"] == LOOP["sensor"]


def test_one_that_was_not_fitted_after_all_leaves_the_system_as_it_was(given: Given, visit: str) -> None:
    """Plate, setting and labels as before, and a repair that was not made."""
    before = visit_page(given, visit)
    set_system(given, before.system_id, {"controller": {"scaled": "0..100 psi"}, "labels": {"sensor.supply": "A"}})
    tables = visit_page(given, visit).tables
    fitted = fit_from_van(given, visit, add_stock(given, WIDE), entered=True)
    token = given.ids.new(fitted)
    for _ in range(2):
        take_out(given, visit, fitted, token=token)
    after = visit_page(given, visit)
    assert {name: after.tables[name] for name in ("sensor", "controller", "labels")} == {
        name: tables[name] for name in ("sensor", "controller", "labels")
    }
    assert [action.body.get("withdrawn") for action in after.actions] == [True]


def test_a_store_on_disk_keeps_all_of_it_in_one_piece(tmp_path: Path) -> None:
    """SQLite, where two units of work at once would wait for one another: fitted, repaired, taken over."""
    home_ = open_home(place_named(str(tmp_path / "record.db")))
    try:
        visit = start_visit(home_.given, {}, sensor=HERE)
        fitted = fit_from_van(home_.given, visit, add_stock(home_.given, WIDE), entered=True)
        (part,) = parts_of_visit(home_.given, visit)
        assert (part.id, part.taken_over) == (fitted, True)
        take_over(home_.given, visit, fitted, entered=True)
        take_out(home_.given, visit, fitted)
        assert parts_of_visit(home_.given, visit) == ()
    finally:
        home_.close()


def test_a_conversion_resistor_becomes_a_milliamps_input_of_that_resistance(given: Given, visit: str) -> None:
    """220 ohm; 0.2 V and 4.8 V over 220 ohm are 0.909 and 21.82 mA (Ohm's law)."""
    controller = {"low_fault": "0.2 V", "high_fault": "4.8 V", "supply": "24 V", "reference": "fixed"}
    set_system(given, visit_page(given, visit).system_id, {"controller": controller, "labels": {"wire.common": "blue"}})
    fitted = fit_from_van(given, visit, add_stock(given, LOOP), entered=True)
    take_over(given, visit, fitted, entered=True)
    tables = visit_page(given, visit).tables
    assert tables["controller"]["input_resistance"] == "220 ohm"
    assert (tables["controller"]["low_fault"], tables["controller"]["high_fault"]) == ("0.9091 mA", "21.82 mA")
    assert tables["controller"]["scaled"] == "0..10 bar"
    assert "wire.common" not in tables.get("labels", {})


def test_the_best_comes_first_and_what_is_used_up_last(given: Given, visit: str) -> None:
    """One of which none is left will not do tonight."""
    used = add_stock(given, {**WIDE, "name": "used up", "count": 0})
    wide, loop = add_stock(given, WIDE), add_stock(given, LOOP)
    found = what_will_do_in(given, visit_page(given, visit).visit)
    assert [each.stock.id for each in found] == [wide, loop, used]


def test_what_is_not_there_is_refused(given: Given, visit: str) -> None:
    """No such line, no such part, no such word."""
    system = visit_page(given, visit).system_id
    with pytest.raises(NotFoundError):
        stock_page(given, system)
    with pytest.raises(NotFoundError):
        take_out(given, visit, system)
    with pytest.raises(UnknownWordError):
        fit_from_van(given, visit, add_stock(given, WIDE), lasts="for ever")


def test_the_invented_van_comes_with_the_invented_visit_and_goes_with_it(given: Given) -> None:
    """Each line can be read, one of them will do there, and one click takes all of it out."""
    own = add_stock(given, LOOP)
    demo = begin_demo(given, example_text())
    invented = [each for each in stock_on_van(given) if each.id != own]
    assert [each.problems for each in invented] == [()] * len(DEMO_STOCK)
    grades = {each.match.grade for each in what_will_do_in(given, visit_page(given, demo).visit)}
    assert "no" in grades
    assert grades - {"no"}
    leave_demo(given)
    assert [each.id for each in stock_on_van(given)] == [own]
