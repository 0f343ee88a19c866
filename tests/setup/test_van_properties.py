"""What holds for any sensor in any system; found by Hypothesis."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from steadyhead.published.pipe_threads import WORDS as THREADS
from steadyhead.setup.finding import GRADES
from steadyhead.setup.van import matched, place_of, what_will_do
from steadyhead.visit.keys import PLUGS
from steadyhead.visit.record import Controller, Fitting, Interval, Sensor, Signal, Visit
from steadyhead.visit.stock import StockSensor
from steadyhead.visit.stock_keys import APPROVALS
from steadyhead.words import Speaker
from tests.setup.benches import FIVE_VOLT, MILLIAMPS, ONE_TO_FIVE, PINS, PSI, TEN_VOLT, plate, same, system

THREE_WIRES = Signal(kind="current", low=0.0, high=0.02, wires=3)
SIGNALS = st.sampled_from([FIVE_VOLT, ONE_TO_FIVE, TEN_VOLT, MILLIAMPS, THREE_WIRES])
FEW_VOLTS = st.floats(min_value=3.0, max_value=36.0)
TOPS = st.floats(min_value=10.0, max_value=1000.0)


def maybe(of: st.SearchStrategy[Any]) -> st.SearchStrategy[Any]:
    """Return values, or None."""
    return st.one_of(st.none(), of)


@st.composite
def sensors(draw: st.DrawFn) -> Sensor:
    """Return any plate."""
    low = draw(FEW_VOLTS)
    return Sensor(
        signal=draw(SIGNALS), range=Interval(0.0, draw(TOPS) * PSI), accuracy=draw(maybe(st.floats(0.001, 0.1))),
        supply=draw(maybe(st.just(Interval(low, low + draw(st.sampled_from([0.0, 5.0, 21.0])))))),
        reference=draw(st.sampled_from(["gauge", "sealed", "absolute"])),
    )  # fmt: skip


@st.composite
def systems(draw: st.DrawFn) -> Visit:
    """Return any system, in which any field may be unknown."""
    flags = maybe(st.booleans())
    controller = Controller(
        supply_v=draw(maybe(FEW_VOLTS)), reference=draw(maybe(st.sampled_from(["ratiometric", "fixed"]))),
        input_resistance_ohm=draw(maybe(st.floats(100.0, 1e6))), low_fault=draw(maybe(st.floats(0.0, 0.5))),
        high_fault=draw(maybe(st.floats(0.6, 12.0))),
    )  # fmt: skip
    fitting = Fitting(
        thread=draw(maybe(st.sampled_from(THREADS))), plug=draw(maybe(st.sampled_from(PLUGS))),
        water=draw(maybe(st.sampled_from(["drinking", "other"]))), highest_pa=draw(maybe(TOPS)), settable=draw(flags),
    )  # fmt: skip
    return Visit(sensor=draw(sensors()), controller=controller, fitting=fitting)


@st.composite
def stocks(draw: st.DrawFn) -> StockSensor:
    """Return any sensor on a van, of which anything may be unknown."""
    return StockSensor(
        sensor=draw(sensors()), name=draw(st.text(max_size=8)), thread=draw(maybe(st.sampled_from(THREADS))),
        plug=draw(maybe(st.sampled_from(PLUGS))), stands_pa=draw(maybe(TOPS)), pins=draw(st.sampled_from([{}, PINS])),
        adapters=tuple(draw(st.lists(st.sampled_from(THREADS), max_size=2))),
        approval=draw(maybe(st.sampled_from([("none",), *((each,) for each in APPROVALS)]))),
    )  # fmt: skip


@given(visit=systems(), stock=stocks())
def test_every_answer_can_be_said_and_every_no_has_its_reason(visit: Visit, stock: StockSensor) -> None:
    """The grade is that of the worst finding, and each finding has a sentence."""
    match = matched(visit, stock)
    assert match.grade == max((each.grade for each in match.findings), key=GRADES.index)
    for each in match.findings:
        assert Speaker().say(each.why).endswith((".", "."))
    for reason in match.because:
        assert Speaker().say(reason)
    assert (match.settings is None) == (match.way.id == "none")


@given(visit=systems(), stock=stocks())
def test_what_is_unknown_is_never_a_no(visit: Visit, stock: StockSensor) -> None:
    """A sensor of which only the very plate is noted, in a system of which nothing else is: looked at, not refused."""
    bare = StockSensor(sensor=replace(visit.sensor, supply=None))
    unknown = Visit(sensor=visit.sensor)
    assert matched(unknown, bare).grade == "check"
    assert matched(visit, replace(stock, thread=None)).grade in GRADES


@given(signal=st.sampled_from([FIVE_VOLT, ONE_TO_FIVE, MILLIAMPS]), top=st.floats(91.0, 1000.0),
       accuracy=st.floats(0.001, 0.1))  # fmt: skip
def test_an_identical_part_is_usable_stays_and_changes_no_error(signal: Signal, top: float, accuracy: float) -> None:
    """Identity: whatever the sensor, the same one is the best there is."""
    visit = system(signal, sensor=plate(signal, top, accuracy=accuracy))
    match = matched(visit, same(visit))
    assert (match.grade, match.lasts) == ("fits", "permanent")
    assert match.error is not None
    assert match.error.total_pa == pytest.approx(match.error.old_pa)


@given(visit=systems(), some=st.lists(stocks(), max_size=4))
def test_the_order_does_not_hang_on_the_order_of_the_list(visit: Visit, some: list[StockSensor]) -> None:
    """Best first, whichever way the van was packed."""
    places = [place_of(each) for each in what_will_do(visit, some)]
    assert places == sorted(places)
    assert places == [place_of(each) for each in what_will_do(visit, reversed(some))]


@given(visit=systems(), stock=stocks())
def test_a_stretched_range_is_the_same_line(visit: Visit, stock: StockSensor) -> None:
    """Two points of one straight line: the slope in pascals a volt is the same from both pairs of ends."""
    made = matched(visit, stock).settings
    assume(made is not None and made.stretched is not None)
    assert made is not None
    assert made.stretched is not None
    assert made.was_low is not None
    assert made.was_high is not None
    slope = made.range.width / (made.high - made.low)
    assert made.stretched.width / (made.was_high - made.was_low) == pytest.approx(slope)


@given(stock=stocks(), worse=st.floats(1.01, 5.0))
def test_a_wider_range_makes_a_larger_error_in_the_same_measure(stock: StockSensor, worse: float) -> None:
    """Accuracy is of span."""
    visit = system(ONE_TO_FIVE, settable=True)
    near = replace(stock, sensor=replace(stock.sensor, accuracy=0.01, reference="gauge"))
    range_ = near.sensor.range
    wide = replace(near, sensor=replace(near.sensor, range=Interval(range_.low, range_.high * worse)))
    errors = [matched(visit, each).error for each in (near, wide)]
    assert errors[0] is not None
    assert errors[1] is not None
    assert errors[0].total_pa is not None
    assert errors[1].total_pa == pytest.approx(errors[0].total_pa * worse)
