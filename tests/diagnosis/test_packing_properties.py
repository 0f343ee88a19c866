"""What to load before the drive: against exact enumeration and closed forms, and its properties."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from itertools import pairwise, product
from math import isclose

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from steadyhead.diagnosis.cells import cells
from steadyhead.diagnosis.estimates import SHIPPED, Row
from steadyhead.diagnosis.observing import Question
from steadyhead.diagnosis.packing import BRINGS, Job, jobs, pack, packed, second_trip
from steadyhead.diagnosis.packing_instruments import SLIP, Telling, kit, packed_kit
from steadyhead.diagnosis.shipped_parts import FITS, NEEDS, UNFORESEEN
from steadyhead.loop.faults import FAULTS, place_word
from steadyhead.loop.vocabulary import INSTRUMENTS
from steadyhead.visit import parse_visit
from steadyhead.visit.record import Instruments
from steadyhead.words.part_names import PARTS
from tests.diagnosis.visits import BARE_BOOSTER, BARE_HOUSE, OPENING, system

NAMES = sorted(FITS)
CHANCES = st.sampled_from([0.0, 0.1, 0.25, 0.5, 0.9, 1.0])
JOBS = st.lists(
    st.tuples(
        st.integers(1, 10),
        st.dictionaries(st.sampled_from([*NAMES[:6], UNFORESEEN]), CHANCES, max_size=3),
    ),
    min_size=1,
    max_size=5,
).map(lambda rows: [Job(w / sum(w for w, _ in rows), tuple(sorted(needs.items()))) for w, needs in rows])
LOADED = st.sets(st.sampled_from(NAMES)).map(frozenset)


def enumerated(waiting: list[Job], loaded: frozenset[str], fits: dict[str, float]) -> Fraction:
    """Return the chance of a second trip by going through every way in which parts are needed and fit."""
    again = Fraction(0)
    for job in waiting:
        parts = [name for name, _ in job.needs]
        for ways in product((True, False), repeat=2 * len(parts)):
            needed, fitting = ways[: len(parts)], ways[len(parts) :]
            chance = Fraction(job.share)
            for (part, need), is_needed, will_do in zip(job.needs, needed, fitting, strict=True):
                fit = Fraction(fits.get(part, 0.0)) if part in loaded else Fraction(0)
                chance *= Fraction(need) if is_needed else 1 - Fraction(need)
                chance *= fit if will_do else 1 - fit
            if any(n and not f for n, f in zip(needed, fitting, strict=True)):
                again += chance
    return again


@given(JOBS, LOADED)
def test_the_chance_of_a_second_trip_is_that_of_every_way_it_can_go(waiting: list[Job], loaded: frozenset[str]) -> None:
    """Exact fractions, every combination of what is needed and what will do."""
    found = second_trip(waiting, loaded, SHIPPED.fits)
    assert isclose(found, enumerated(waiting, loaded, dict(SHIPPED.fits)), abs_tol=1e-12)


@given(JOBS, LOADED, st.sampled_from(NAMES))
def test_a_part_more_never_makes_a_second_trip_likelier(waiting: list[Job], loaded: frozenset[str], part: str) -> None:
    """A property: nobody has to use what is on the van."""
    assert second_trip(waiting, loaded | {part}, SHIPPED.fits) <= second_trip(waiting, loaded, SHIPPED.fits) + 1e-15


@given(JOBS)
@settings(max_examples=40)
def test_gains_are_never_negative_and_end_at_the_floor(waiting: list[Job]) -> None:
    """With everything loaded nothing but parts that won't do and what nobody foresaw is left."""
    found = packed(waiting, frozenset(), SHIPPED)
    chances = [found.before, *(each.second_trip for each in found.parts)]
    assert all(after <= before + 1e-15 for before, after in pairwise(chances))
    assert {each.part for each in found.parts} == set(FITS)
    assert chances[-1] == found.floor
    assert isclose(found.floor, enumerated(waiting, frozenset(FITS), dict(SHIPPED.fits)), abs_tol=1e-12)
    assert found.floor <= found.advised + 1e-15 <= found.before + 2e-15


@given(JOBS, st.randoms(use_true_random=False))
def test_the_order_of_the_suspects_changes_nothing(waiting: list[Job], shuffler: object) -> None:
    """A property of exact sums."""
    mixed = list(waiting)
    shuffler.shuffle(mixed)  # type: ignore[attr-defined]
    assert packed(mixed, frozenset(), SHIPPED) == packed(waiting, frozenset(), SHIPPED)


@given(JOBS)
def test_where_every_part_does_and_all_is_foreseen_the_floor_is_nothing(waiting: list[Job]) -> None:
    """Closed form: a product of ones."""
    foreseen = [Job(job.share, tuple(n for n in job.needs if n[0] != UNFORESEEN)) for job in waiting]
    certain = SHIPPED.replaced({("fits", name): Row(1.0, "") for name in FITS})
    assert packed(foreseen, frozenset(), certain).floor == 0.0


def test_the_first_part_is_the_one_that_helps_most() -> None:
    """Worked by hand: a sensor at 0.6 x 0.9 beats a board at 0.4 x 0.8."""
    waiting = [Job(0.4, (("board", 1.0),)), Job(0.6, (("sensor", 1.0),))]
    first, second, *_ = packed(waiting, frozenset(), SHIPPED).parts
    assert (first.part, second.part) == ("sensor", "board")
    assert isclose(first.second_trip, 1.0 - 0.54)
    assert isclose(second.second_trip, 1.0 - 0.54 - 0.32)
    assert isclose(first.saves_minutes, 0.54 * 120.0)
    assert first.load


def test_no_part_of_a_repair_stands_in_two_rows_and_every_row_speaks_of_something() -> None:
    """The fault table's remedies and places; rule 1 of the table."""
    known = {(f.remedy, place_word(p)) for f in FAULTS for p, _ in f.places}
    known |= {(f.id, p) for f in FAULTS for p, _ in f.places}
    repairs = {f.remedy for f in FAULTS} | {f.id for f in FAULTS} | {"look-further"}
    assert {row.split("/")[-1] for row in NEEDS} == {*FITS, UNFORESEEN}
    assert set(PARTS) == set(FITS)
    for row in NEEDS:
        repair, *where, _ = row.split("/")
        assert repair in repairs
        assert not where or (repair, where[0]) in known
    for text in (BARE_HOUSE, BARE_BOOSTER):
        for cell in cells(system(text)):
            places = {cell.place, place_word(cell.place)}
            split = [row.split("/") for row in NEEDS]
            mine = [r[-1] for r in split if r[0] in {cell.fault, cell.remedy} and (len(r) == 2 or r[1] in places)]
            assert len(mine) == len(set(mine))


@pytest.mark.parametrize("text", [BARE_HOUSE, BARE_BOOSTER, OPENING])
def test_the_repairs_that_wait_weigh_one_together(text: str) -> None:
    """Probabilities, none-of-these among them."""
    waiting = jobs(system(text))
    assert isclose(sum(job.share for job in waiting), 1.0, abs_tol=1e-9)
    assert any(part == UNFORESEEN for job in waiting for part, _ in job.needs)


def test_a_spare_sensor_at_hand_is_a_sensor_loaded() -> None:
    """The table of what an instrument brings."""
    visit = replace(parse_visit(BARE_HOUSE).visit, instruments=Instruments(have=("spare-sensor",)))
    found = pack(replace(system(BARE_HOUSE), visit=visit))
    assert found.at_hand == ("sensor",)
    assert "sensor" not in {each.part for each in found.parts}
    assert found.before < pack(system(BARE_HOUSE)).before
    assert set(BRINGS) <= set(INSTRUMENTS)


def test_the_complaint_moves_what_to_load() -> None:
    """After a storm the board is likelier to be needed than after rain, the sealing the other way round."""
    storm, rain = (
        {each.part: each.needed for each in pack(system(BARE_HOUSE + f"[complaint]\n{said}\n")).parts}
        for said in ('changed = ["storm"]', 'when = "rain"')
    )
    assert storm["board"] > rain["board"]
    assert storm["sealing"] < rain["sealing"]


# ---------------------------------------------------------------- instruments

METER = Question("volts", "connected", "controller.signal", "controller.common")
LOOK = Question("inspection", item="port")
LEAD = Question("volts", "temporary-cable", "controller.signal", "controller.common")
GAUGED = Question("displayed-pressure")
BINS = st.dictionaries(st.integers(0, 4), st.integers(1, 5), min_size=1, max_size=3).map(
    lambda row: {name: weight / sum(row.values()) for name, weight in row.items()}
)
CELLS = 4


def telling(looks: dict[Question, list[list[dict[int | str, float]]]], *, read: bool = False) -> Telling:
    """Return four cells of one weight with two repairs."""
    return Telling([(0.25, "a"), (0.25, "a"), (0.25, "b"), (0.25, "b")], looks, gauge_read=read)


LOOKS = st.fixed_dictionaries(
    {q: st.lists(st.lists(BINS, min_size=CELLS, max_size=CELLS), min_size=2, max_size=2) for q in (METER, LOOK, LEAD)}
)


def test_without_any_check_a_repair_picked_by_its_odds_is_wrong_as_often_as_its_rivals_weigh() -> None:
    """Closed form: one less the sum of squares, here a half."""
    assert isclose(telling({}).unproved(frozenset(INSTRUMENTS)), 0.5)


def test_a_check_that_tells_for_certain_leaves_only_the_slip() -> None:
    """Closed form: 0.5 x slip beside 0.5 and that."""
    sure: list[list[dict[int | str, float]]] = [[{1: 1.0}, {1: 1.0}, {9: 1.0}, {9: 1.0}]]
    found = telling({METER: sure})
    assert isclose(found.unproved(frozenset()), 0.5)
    assert isclose(found.unproved(frozenset({"multimeter", "gauge"})), SLIP / (1.0 + SLIP))


def test_what_only_a_known_pressure_tells_needs_a_gauge() -> None:
    """Two cells half a range apart at any pressure: the display tells them beside a gauge, and not without one."""
    by_pressure: list[list[dict[int | str, float]]] = [
        [{k: 1.0}, {k: 1.0}, {k + 3: 1.0}, {k + 3: 1.0}] for k in (0, 20, 40)
    ]
    found = telling({GAUGED: by_pressure})
    assert found.unproved(frozenset()) > 0.4
    assert found.unproved(frozenset({"gauge"})) < 0.02
    assert telling({GAUGED: by_pressure}, read=True).unproved(frozenset()) < 0.02


@settings(max_examples=40)
@given(LOOKS, st.sets(st.sampled_from(INSTRUMENTS)), st.sampled_from(INSTRUMENTS))
def test_an_instrument_more_never_leaves_more_unproved(
    looks: dict[Question, list[list[dict[int | str, float]]]], carried: set[str], more: str
) -> None:
    """A property: nobody has to use it."""
    found = telling(looks)
    assert found.unproved(frozenset({*carried, more})) <= found.unproved(frozenset(carried)) + 1e-15


@settings(max_examples=40)
@given(LOOKS)
def test_every_instrument_that_is_carried_saves_more_than_its_loading(
    looks: dict[Question, list[list[dict[int | str, float]]]],
) -> None:
    """The rule of the page; what is left is never under the floor."""
    found = packed_kit(telling(looks), frozenset(), SHIPPED)
    assert all(each.saves_minutes > SHIPPED.loading for each in found.instruments)
    last = found.instruments[-1].unproved if found.instruments else found.before
    assert found.floor <= last + 1e-15


def test_a_meter_is_the_first_instrument_of_an_empty_van() -> None:
    """Common practice: nobody goes without a meter."""
    visit = replace(parse_visit(BARE_HOUSE).visit, instruments=Instruments(have=()))
    found = kit(replace(system(BARE_HOUSE), visit=visit))
    assert found.instruments[0].instrument == "multimeter"
    assert found.before > found.instruments[0].unproved > found.floor
