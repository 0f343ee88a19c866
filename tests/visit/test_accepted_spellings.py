"""What people really type is accepted, and means what they meant."""

from __future__ import annotations

import pytest

from steadyhead.errors import VisitFileError
from steadyhead.visit import parse_visit
from steadyhead.visit.record import Beyond, Figure, Interval, ReadingValue, Signal, Spread, Visit

SENSOR = '[sensor]\nsignal = "0.5..4.5 V ratiometric"\nrange = "0..100 psi"\n'
TWO_WIRE = '[sensor]\nsignal = "4..20 mA"\nrange = "0..10 bar"\n'


def _visit(text: str) -> Visit:
    return parse_visit("schema = 1\n" + text).visit


def _value(measure: str, value: str, more: str = "") -> ReadingValue:
    return _visit(f'{SENSOR}[[reading]]\nmeasure = "{measure}"\nvalue = "{value}"\n{more}').readings[0].value


LEADS = 'red = "controller.signal"\nblack = "controller.common"\n'


@pytest.mark.parametrize("mark", ["", "\ufeff"])
@pytest.mark.parametrize("line_end", ["\n", "\r\n"])
def test_a_byte_order_mark_and_either_line_end_change_nothing(mark: str, line_end: str) -> None:
    """Expected: the same visit as of the plain text."""
    plain = "schema = 1\n" + SENSOR + "# note\n[cable]\nlength = '12 m'\n"
    text = mark + plain.replace("\n", line_end)
    assert parse_visit(text).visit == parse_visit(plain).visit
    assert parse_visit(text.encode("utf-8")).text == text


@pytest.mark.parametrize(
    ("spelled", "signal"),
    [
        ("0.5..4.5 V ratiometric", Signal(kind="ratiometric", low=0.5, high=4.5, wires=3)),
        ("0.5-4.5 V (ratiometric)", Signal(kind="ratiometric", low=0.5, high=4.5, wires=3)),
        ("0.5–4.5 V, Ratiometric", Signal(kind="ratiometric", low=0.5, high=4.5, wires=3)),
        ("0.5..4.5 V", Signal(kind="voltage", low=0.5, high=4.5, wires=3)),
        ("0–10 V", Signal(kind="voltage", low=0.0, high=10.0, wires=3)),
        ("1 to 5 V", Signal(kind="voltage", low=1.0, high=5.0, wires=3)),
        ("4..20 mA", Signal(kind="current", low=0.004, high=0.02, wires=2)),
        ("4–20 mA", Signal(kind="current", low=0.004, high=0.02, wires=2)),
        ("0-20 milliamps", Signal(kind="current", low=0.0, high=0.02, wires=2)),
    ],
)
def test_a_plate_s_signal_is_read_in_every_usual_spelling(spelled: str, signal: Signal) -> None:
    """Expected: by the words themselves."""
    assert _visit(f'[sensor]\nsignal = "{spelled}"\nrange = "0..10 bar"\n').sensor.signal == signal


def test_a_current_sensor_may_have_three_wires() -> None:
    """Expected: by the word."""
    assert _visit(TWO_WIRE + 'wires = "three"\n').sensor.signal.wires == 3


def test_unicode_signs_of_the_trade_are_read() -> None:
    """Minus sign, en dash, ohm sign (both), superscript two."""
    visit = _visit(
        '[sensor]\nsignal = "4–20 mA"\nrange = "\u22121..9 bar"\n[cable]\nconductor = "0.5 mm²"\n'
        '[controller]\ninput_resistance = "250 \u2126"\n[instruments]\nmeter = { ohms = "±1 % + 2 × 0.1 Ω" }\n'
    )
    assert visit.sensor.range == Interval(-100_000.0, 900_000.0)
    assert visit.cable.conductor_m2 == 0.5e-6
    assert visit.controller.input_resistance_ohm == 250
    assert visit.instruments.ohms is not None
    assert (visit.instruments.ohms.relative, visit.instruments.ohms.absolute) == (0.01, 0.2)


@pytest.mark.parametrize("spelled", ["OL", "ol", "O.L", "0L", "0.L", "OL Mohm", ".OL".lstrip(".")])
def test_an_overload_is_above_whatever_the_meter_shows(spelled: str) -> None:
    """Expected: above, with no figure."""
    more = 'arrangement = "dead-both-free"\nred = "wire.supply"\nblack = "wire.signal"\n'
    assert _value("ohms", spelled, more) == Beyond("above", None, "ohm")


def test_an_overload_with_a_minus_is_below() -> None:
    """Expected: below, with no figure."""
    assert _value("volts", "-OL", LEADS) == Beyond("below", None, "V")


@pytest.mark.parametrize(
    ("spelled", "value"),
    [
        ("0 bar on its stop pin", Beyond("below", 0.0, "Pa")),
        ("0 bar on the stop", Beyond("below", 0.0, "Pa")),
        ("stop pin", Beyond("below", None, "Pa")),
        ("pegged", Beyond("above", None, "Pa")),
        ("pegged at 10 bar", Beyond("above", 1e6, "Pa")),
        ("10 bar, pegged".replace(",", ""), Beyond("above", 1e6, "Pa")),
        ("> 10 bar", Beyond("above", 1e6, "Pa")),
        ("< 0 bar", Beyond("below", 0.0, "Pa")),
        ("3.10 bar", Figure(310_000.0, "Pa", 1000.0)),
    ],
)
def test_a_gauge_may_be_past_its_scale(spelled: str, value: ReadingValue) -> None:
    """Expected: by the words; a bar is 100,000 Pa."""
    assert _value("gauge-pressure", spelled) == value


@pytest.mark.parametrize(
    "spelled", ["2.1..2.6 V jumping", "2.1..2.6 V", "2.1-2.6 V", "2.1–2.6 V, jumping", "2.1 to 2.6 V wandering"]
)
def test_a_reading_that_does_not_stand_still_is_a_spread(spelled: str) -> None:
    """Expected: by the words."""
    assert _value("volts", spelled, LEADS) == Spread(2.1, 2.6, "V")


@pytest.mark.parametrize("spelled", ["2.1..2.6 V over 10 min", "2.1 to 2.6 V over 600 s", "2.1-2.6 V  OVER  10 min"])
def test_what_min_max_held_is_a_spread_with_its_time(spelled: str) -> None:
    """Expected: by the words; ten minutes are 600 s."""
    assert _value("volts", spelled, LEADS) == Spread(2.1, 2.6, "V", over_s=600.0)


@pytest.mark.parametrize("spelled", ["2.1 V over 10 min", "2.1..2.6 V over", "2.1..2.6 V over 10 V", "over 10 min"])
def test_min_max_needs_both_ends_and_a_time(spelled: str) -> None:
    """By the words: one figure is no MIN and MAX, and a time has a unit of time."""
    with pytest.raises(VisitFileError):
        _value("volts", spelled, LEADS)


@pytest.mark.parametrize(
    ("spelled", "value"),
    [
        ("12.4 mA", Figure(0.0124, "A", 0.0001)),
        ("2.50 V", Figure(2.5, "V", 0.01)),
        ("52 %", Figure(0.52, "fraction", 0.01)),
    ],
)
def test_a_raw_signal_is_read_in_volts_milliamperes_or_percent(spelled: str, value: Figure) -> None:
    """Expected: by the words."""
    assert _value("displayed-signal", spelled) == value


@pytest.mark.parametrize(
    ("measure", "spelled", "value"),
    [
        ("displayed-starts", "1204", Figure(1204.0, "1", 1.0)),
        ("displayed-starts", "1204 starts", Figure(1204.0, "1", 1.0)),
        ("starts-per-hour", "12 per hour", Figure(12.0, "1/h", 1.0)),
        ("starts-per-hour", "12.5 /h", Figure(12.5, "1/h", 0.1)),
        ("displayed-hours", "310 h", Figure(1_116_000.0, "s", 3600.0)),
    ],
)
def test_times_are_counted(measure: str, spelled: str, value: Figure) -> None:
    """Expected: by the words; an hour is 3600 s."""
    assert _value(measure, spelled) == value


@pytest.mark.parametrize("spelled", ["1.6", "class 1.6", "cl. 1.6", "1,6", "Class 1.6"])
def test_a_gauge_s_class_is_read_as_the_dial_prints_it(spelled: str) -> None:
    """Expected: by the word."""
    gauge = _visit(f'{SENSOR}[instruments]\ngauge = {{ range = "0..10 bar", grade = "{spelled}" }}\n').instruments.gauge
    assert gauge is not None
    assert gauge.grade == "1.6"


def test_a_gauge_s_table_may_be_written_at_length() -> None:
    """An inline table and a table of its own are one in TOML."""
    long = _visit(f'{SENSOR}[instruments.gauge]\nrange = "0..10 bar"\ngrade = "b"\n')
    assert long == _visit(f'{SENSOR}[instruments]\ngauge = {{ range = "0..10 bar", grade = "B" }}\n')


def test_an_absolute_sensor_has_an_absolute_range() -> None:
    """Expected: 100 psia is 100 times the pound a square inch, by the definitions."""
    visit = _visit('[sensor]\nsignal = "4..20 mA"\nreference = "absolute"\nrange = "0..100 psia"\n')
    assert abs(visit.sensor.range.high - 100 * 0.45359237 * 9.80665 / 0.0254**2) < 1e-6


def test_a_deep_vacuum_is_believed() -> None:
    """-14 psi is above absolute zero at sea level (14.7 psi)."""
    assert isinstance(_value("gauge-pressure", "-14 psi"), Figure)


def test_a_vacuum_that_is_believed_at_the_sea_is_refused_in_the_mountains() -> None:
    """At 4000 m the air has 61.6 kPa (U.S. Standard Atmosphere 1976, from memory): 8.9 psi; the gauge may add 3 psi."""
    with pytest.raises(VisitFileError, match="visit-file-refused"):
        _visit(f'[site]\naltitude = "4000 m"\n{SENSOR}[[reading]]\nmeasure = "gauge-pressure"\nvalue = "-14 psi"\n')


def test_a_pressure_decay_s_value_is_its_fall() -> None:
    """Expected: 5 bar less 4.6 bar, in pascal."""
    text = f'{TWO_WIRE}[[reading]]\nmeasure = "pressure-decay"\nfrom = "5 bar"\nto = "4.6 bar"\nover = "8 h"\n'
    reading = _visit(text).readings[0]
    assert reading.value == Figure(500_000.0 - 460_000.0, "Pa")
    assert reading.over_s == 8 * 3600


def test_an_action_without_a_number_stands_after_the_last_reading() -> None:
    """Expected: by the documented default."""
    text = f'{TWO_WIRE}[[reading]]\nmeasure = "gauge-pressure"\nvalue = "5 bar"\n[[action]]\nremedy = "open-cock"\n'
    assert _visit(text).actions[0].after_reading == 1


def test_everything_but_signal_and_range_may_be_left_out() -> None:
    """Unknown is normal: the least file is a visit."""
    visit = _visit(TWO_WIRE)
    assert visit.controller.scaled is None
    assert visit.place.cock is None
    assert visit.readings == ()


@pytest.mark.parametrize(
    ("arrangement", "red"),
    [
        *((id_, "wire.signal") for id_ in ("sensor-leads-lifted", "all-lifted", "source-at-controller")),
        *((id_, "wire.signal") for id_ in ("spare-at-controller", "dead-both-free", "dead-looped")),
        ("supply-terminal-clear", "wire.supply"),
        ("sensor-unplugged", "sensor.signal"),
        ("connected", "shield"),
        ("dead-both-free", "sensor.signal"),
        ("vented", "controller.signal"),
    ],
)
def test_a_lead_reaches_every_point_that_there_is(arrangement: str, red: str) -> None:
    """Expected: the list of where a wire is lifted, in the manual of the visit file."""
    black = "wire.common" if arrangement == "dead-looped" else "earth"
    source = 'source = "2.5 V"\n' if arrangement == "source-at-controller" else ""
    more = f'arrangement = "{arrangement}"\nred = "{red}"\nblack = "{black}"\n{source}'
    assert _value("volts", "0.02 V", more) == Figure(0.02, "V", 0.01)


@pytest.mark.parametrize(
    ("measure", "value", "id_"),
    [
        ("displayed-signal", "50 psi", "unit-of-another-kind"),
        ("displayed-signal", "1e999 V", "number-out-of-range"),
        ("displayed-starts", "many", "count-unreadable"),
        ("displayed-starts", "-3", "count-unreadable"),
        ("displayed-hertz", "pegged at noon", "number-missing"),
        ("gauge-pressure", "> 10 V", "unit-of-another-kind"),
    ],
)
def test_a_value_that_fits_no_form_is_refused_in_the_words_of_its_measure(measure: str, value: str, id_: str) -> None:
    """Expected: one problem, of the value's own kind."""
    with pytest.raises(VisitFileError) as caught:
        _value(measure, value)
    assert [problem.message.id for problem in caught.value.problems] == [id_]
