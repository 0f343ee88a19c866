"""Threads, plugs, pressures, approval, and the best first: from standards' names and the trade's rules."""

from __future__ import annotations

from dataclasses import replace

import pytest

from steadyhead.published.pipe_threads import THREADS, thread_named
from steadyhead.setup.van import matched, what_will_do
from steadyhead.visit.record import Figure, Reading
from tests.setup.benches import MILLIAMPS, ONE_TO_FIVE, PSI, about, ids, on_van, plate, same, system


def test_a_quarter_npt_in_a_port_of_g_a_quarter_is_refused_and_says_why() -> None:
    """ASME B1.20.1 and ISO 228-1: 18 against 19 threads to the inch, 60 against 55 degrees."""
    (found,) = about(matched(system(thread="G 1/4"), on_van()), "thread")
    assert (found.grade, found.why.id) == ("no", "van-thread-nearly")
    values = found.why.values
    assert (values["per_inch"], values["port_per_inch"], values["angle"], values["port_angle"]) == (18, 19, 60, 55)
    # hand-tight 0.2278 in = 4.1 threads of 1.4111 mm against 1.3368 mm: 0.305 mm
    assert values["parted"] == pytest.approx(0.2278 * 18 * (25.4 / 18 - 25.4 / 19) / 1000, rel=1e-3)


def test_half_inch_threads_have_one_pitch_and_still_do_not_fit() -> None:
    """14 threads to the inch in both standards; flanks of 60 against 55 degrees."""
    assert ids(matched(system(thread="G 1/2"), on_van(thread="1/2 NPT")), "thread") == [
        ("no", "van-thread-nearly-same-pitch")
    ]


@pytest.mark.parametrize(
    ("thread", "port", "grade"),
    [
        ("R 1/4", "R 1/4", "fits"), ("R 1/4", "G 1/4", "check"), ("G 1/4", "R 1/4", "no"), ("G 1/4", "G 1/2", "no"),
        ("G 1/4", "G 1/4", "fits"), ("1/4 NPT", "1/2 NPT", "no"), (None, "G 1/4", "check"), ("G 1/4", None, "check"),
        (None, None, "check"),
    ],
)  # fmt: skip
def test_threads_of_the_iso_family_and_threads_that_nobody_noted(
    thread: str | None, port: str | None, grade: str
) -> None:
    """ISO 7-1 and 228-1: R seals on the thread, G on a face; taper into parallel goes in further (a maker's page)."""
    assert about(matched(system(thread=port), on_van(thread=thread)), "thread")[0].grade == grade


def test_an_adapter_on_the_van_makes_another_thread_work() -> None:
    """It is work, not a no."""
    match = matched(system(thread="G 1/4"), on_van(adapters=("G 1/4",)))
    assert ids(match, "thread") == [("with-work", "van-thread-adapter")]
    assert match.grade == "with-work"


@pytest.mark.parametrize("thread", [each.word for each in THREADS])
@pytest.mark.parametrize("port", [each.word for each in THREADS])
def test_only_the_same_word_fits_and_every_other_one_has_its_reason(thread: str, port: str) -> None:
    """A property over all pairs of the table."""
    (found,) = about(matched(system(thread=port), on_van(thread=thread)), "thread")
    assert (found.grade == "fits") == (thread == port)
    assert thread_named(thread).size == thread_named(port).size or found.why.id == "van-thread-other-size"


@pytest.mark.parametrize(
    ("approval", "water", "grade"),
    [
        (("nsf-61", "nsf-372"), "drinking", "fits"), (("nsf-61",), "drinking", "check"),
        (("nsf-372",), "drinking", "check"), (("none",), "drinking", "no"), ((), "drinking", "check"),
        (None, "drinking", "check"), (None, None, "check"), (("none",), None, "no"), (("none",), "other", "fits"),
        (("bs-6920",), "drinking", "fits"),
    ],
)  # fmt: skip
def test_no_approval_for_drinking_water_is_a_no(
    approval: tuple[str, ...] | None, water: str | None, grade: str
) -> None:
    """TRADE: no drinking-water approval = no. NSF/ANSI/CAN 61 is health, 372 is lead."""
    assert about(matched(system(water=water), on_van(approval=approval)), "water")[0].grade == grade


@pytest.mark.parametrize(
    ("top", "stands", "highest", "grade"),
    [
        (100, 300, 90, "fits"), (60, 300, 90, "with-work"), (60, 80, 90, "no"), (60, None, 90, "check"),
        (60, 300, None, "check"), (100, 300, None, None),
    ],
)  # fmt: skip
def test_a_range_below_the_highest_pressure_needs_a_sensor_that_stands_it(
    top: float, stands: float | None, highest: float | None, grade: str | None
) -> None:
    """Simple comparison, in psi."""
    visit = system(highest_pa=None if highest is None else highest * PSI)
    stock = on_van(plate(top_psi=top), stands_pa=None if stands is None else stands * PSI)
    found = about(matched(visit, stock), "pressure")
    assert [each.grade for each in found] == ([] if grade is None else [grade])


@pytest.mark.parametrize(("top", "refused"), [(50.0, True), (62.0, True), (63.0, False)])
def test_a_range_that_ends_below_the_set_pressure_would_run_the_pump_flat_out(top: float, refused: bool) -> None:
    """Set pressure 62 psi, read off the display: never reached by a display that ends there."""
    setpoint = Reading(number=1, measure="displayed-setpoint", value=Figure(62.0 * PSI, "Pa"))
    match = matched(replace(system(), readings=(setpoint,)), on_van(plate(top_psi=top)))
    assert (("no", "van-pressure-below-working") in ids(match, "pressure")) == refused


def test_the_same_plug_with_other_pins_is_wired_anew_never_put_on() -> None:
    """Wrong polarity cooks the new sensor too (TRADE)."""
    stock = on_van(pins={"supply": "3", "signal": "2", "common": "1"})
    assert ids(matched(system(), stock), "plug") == [("with-work", "van-plug-other-pins")]


def test_pins_and_plugs_that_nobody_noted_are_looked_up() -> None:
    """Unknown is normal, and no no."""
    assert ids(matched(system(plug=None), on_van(plug=None, pins={})), "plug") == [
        ("check", "van-plug-unknown"), ("check", "van-pins-unknown")
    ]  # fmt: skip


def test_two_wires_in_the_place_of_three_leave_the_common_free() -> None:
    """The map names the wire that stays free, and where the others go."""
    match = matched(system(ONE_TO_FIVE), on_van(plate(MILLIAMPS)))
    assert [(row.core, row.pin, row.terminal) for row in match.pins] == [
        ("supply", "1", "controller.supply"), ("signal", "2", "controller.signal"),
        ("common", None, "controller.common"),
    ]  # fmt: skip
    assert ("with-work", "van-common-free") in ids(match, "plug")


def test_three_wires_in_the_place_of_two_need_a_third_core() -> None:
    """Counting wires."""
    match = matched(system(MILLIAMPS, settable=True), on_van(plate(ONE_TO_FIVE)))
    assert ("check", "van-third-core") in ids(match, "plug")


def test_the_best_comes_first() -> None:
    """The same, then a wider range, then what must be looked at, then what does not go in."""
    visit = system()
    stocks = [
        on_van(thread="G 1/4", name="parallel"), on_van(thread=None, name="unknown"),
        on_van(plate(top_psi=150.0), name="wide"), on_van(name="same"),
    ]  # fmt: skip
    assert [each.stock.name for each in what_will_do(visit, stocks)] == ["same", "wide", "unknown", "parallel"]


def test_the_very_same_part_will_do_and_changes_nothing() -> None:
    """Identity: nothing to enter, the same error, it may stay."""
    visit = system()
    match = matched(visit, same(visit))
    assert (match.grade, match.lasts, match.because) == ("fits", "permanent", ())
    assert match.error is not None
    assert match.error.ratio == pytest.approx(1.0)
