"""What a person writes is read as that person means it, or refused with what would do."""

from __future__ import annotations

import pytest

from steadyhead.errors import QuantityError
from steadyhead.quantities import parse, parse_percent, parse_quantity

# Expected values: arithmetic on exact definitions (bar, metre of water by g = 9.80665, inch, degree Fahrenheit), or as
# named beside the case. Each float literal is the correctly rounded exact value: conversions round once.
FIGURES = [
    ("4.3 bar", "pressure", 430000.0),
    ("4,3 bar", "pressure", 430000.0),
    ("4.3bar", "pressure", 430000.0),
    ("4.3\u00a0bar", "pressure", 430000.0),
    ("\u22120.2 bar", "pressure", -20000.0),
    ("-0.2 bar", "pressure", -20000.0),
    ("+0.2 bar", "pressure", 20000.0),
    (".5 bar", "pressure", 50000.0),
    ("0,500 bar", "pressure", 50000.0),
    ("1.500 bar", "pressure", 150000.0),
    ("1e3 Pa", "pressure", 1000.0),
    ("1E-3 bar", "pressure", 100.0),
    ("0.6 MPa", "pressure", 600000.0),
    ("250 kPa", "pressure", 250000.0),
    ("250 KPA", "pressure", 250000.0),
    ("12 mbar", "pressure", 1200.0),
    ("3 bar(g)", "pressure", 300000.0),
    ("3 bar g", "pressure", 300000.0),
    ("10 mH2O", "pressure", 98066.5),
    ("10 m of water", "pressure", 98066.5),
    ("10 mH₂O", "pressure", 98066.5),
    ("1 kg/cm²", "pressure", 98066.5),
    ("1.013 bara", "absolute-pressure", 101300.0),
    ("1013 hPa", "absolute-pressure", 101300.0),
    ("101.3 kPa abs", "absolute-pressure", 101300.0),
    ("30 m", "head", 30.0),
    ("100 ft", "head", 30.48),
    ("100 ft of water", "head", 30.48),
    ("24 VDC", "voltage", 24.0),
    ("15 mV", "voltage", 0.015),
    ("4.1 mA", "current", 0.0041),
    ("250 µA", "current", 0.00025),
    ("250 \u03bcA", "current", 0.00025),
    ("250 uA", "current", 0.00025),
    ("250 ohm", "resistance", 250.0),
    ("250 Ω", "resistance", 250.0),
    ("250 \u2126", "resistance", 250.0),
    ("4.7 kohm", "resistance", 4700.0),
    ("4.7k", "resistance", 4700.0),
    ("4.7K", "resistance", 4700.0),
    ("4k7", "resistance", 4700.0),
    ("2R2", "resistance", 2.2),
    ("1M5", "resistance", 1.5e6),
    ("10 MΩ", "resistance", 10e6),
    ("10 mΩ", "resistance", 0.01),
    ("10 MOHM", "resistance", 10e6),
    ("10 megohms", "resistance", 10e6),
    ("100 Gohm", "resistance", 100e9),
    ("0.5 %", "percent", 0.005),
    ("12 m", "length", 12.0),
    ("12'", "length", 3.6576),
    ("2½ in", "length", 0.0635),
    ("2 ½ in", "length", 0.0635),
    ("¾\u2033", "length", 0.01905),
    ("1¼ in", "length", 0.03175),
    ("0.5 mm2", "area", 0.5e-6),
    ("0.5 mm²", "area", 0.5e-6),
    ("1 gal", "volume", 0.003785411784),  # 231 cubic inches of 25.4 mm, by definition
    ("1 imp gal", "volume", 0.00454609),  # by definition
    ("1000 L", "volume", 1.0),
    ("1 ft3", "volume", 0.028316846592),  # 0.3048 m cubed
    ("60 L/min", "flow", 0.001),
    ("60 LPM", "flow", 0.001),
    ("3.6 m³/h", "flow", 0.001),
    ("20 °C", "temperature", 20.0),
    ("68 °F", "temperature", 20.0),
    ("68 degF", "temperature", 20.0),
    ("293.15 K", "temperature", 20.0),
    ("-40 F", "temperature", -40.0),
    ("2 min", "time", 120.0),
    ("1.5 h", "time", 5400.0),
    ("37.5 Hz", "frequency", 37.5),
    ("5e-324 Pa", "pressure", 5e-324),
]


@pytest.mark.parametrize(("text", "dimension", "expected"), FIGURES)
def test_a_figure_is_read_to_the_last_bit(text: str, dimension: str, expected: float) -> None:
    """Expected: exact definitions of the units, worked by hand; equality, since a conversion rounds once."""
    assert parse(text, dimension) == expected


# Expected ids: the rules at the head of the modules; each is a way in which a figure was or may be misread.
REFUSED = [
    ("5", "voltage", "unit-missing"),
    ("0", "pressure", "unit-missing"),
    ("5 spi", "pressure", "unit-unknown"),
    ("5 mpa", "pressure", "unit-unknown"),
    ("5 Mbar", "pressure", "unit-unknown"),
    ("5 m", "resistance", "unit-of-another-kind"),
    ("62 psi", "voltage", "unit-of-another-kind"),
    ("30 m", "pressure", "unit-of-another-kind"),
    ("14.7 psia", "pressure", "pressure-must-be-gauge"),
    ("1 bar abs", "pressure", "pressure-must-be-gauge"),
    ("5 psig", "absolute-pressure", "pressure-must-be-absolute"),
    ("1,500 ohm", "resistance", "number-ambiguous"),
    ("-1,500 ohm", "resistance", "number-ambiguous"),
    ("1,500e3 ohm", "resistance", "number-ambiguous"),
    ("1,500.5 ohm", "resistance", "number-unreadable"),
    ("1.500,5 ohm", "resistance", "number-unreadable"),
    ("1 500 ohm", "resistance", "number-unreadable"),
    ("1\u202f500 ohm", "resistance", "number-unreadable"),
    ("1'500 ohm", "resistance", "unit-unknown"),
    ("1.2.3 V", "voltage", "number-unreadable"),
    ("5. V", "voltage", "number-unreadable"),
    ("1/2 in", "length", "number-unreadable"),
    ("5² bar", "pressure", "number-unreadable"),
    ("9**9**9 bar", "pressure", "number-unreadable"),
    ("nan bar", "pressure", "number-missing"),
    ("inf bar", "pressure", "number-missing"),
    ("\u0665 bar", "pressure", "number-missing"),
    ("\uff15 bar", "pressure", "number-missing"),
    ("--5 V", "voltage", "number-missing"),
    ("\u20135 V", "voltage", "number-missing"),
    (",5 V", "voltage", "number-missing"),
    ("V", "voltage", "number-missing"),
    ("k7", "resistance", "number-missing"),
    ("1e999 bar", "pressure", "number-out-of-range"),
    ("1e308 bar", "pressure", "number-out-of-range"),
    ("1e-400 bar", "pressure", "number-out-of-range"),
    ("1e9999999999 bar", "pressure", "number-out-of-range"),
    ("0e400 bar", "pressure", "number-out-of-range"),
    ("-1 bara", "absolute-pressure", "below-absolute-zero"),
    ("-300 degC", "temperature", "below-absolute-zero"),
    ("-460 degF", "temperature", "below-absolute-zero"),
    ("41 AWG", "area", "wire-gauge-unknown"),
    ("5/0 AWG", "area", "wire-gauge-unknown"),
    ("22.5 AWG", "area", "wire-gauge-unknown"),
    ("AWG", "area", "wire-gauge-unknown"),
    ("22", "area", "unit-missing"),
    ("", "voltage", "quantity-empty"),
    (" \t ", "voltage", "quantity-empty"),
    ("5 V" + " " * 98, "voltage", "quantity-too-long"),
]


@pytest.mark.parametrize(("text", "dimension", "id_"), REFUSED)
def test_what_could_be_misread_is_refused_by_name(text: str, dimension: str, id_: str) -> None:
    """Expected: the refusals listed in the docstring of `steadyhead.quantities`."""
    with pytest.raises(QuantityError, match=f"^{id_} ") as refused:
        parse(text, dimension)
    values = refused.value.message.values
    assert values["dimension"] == dimension
    assert values["must_be"]
    assert "got" in values


def test_a_bare_number_is_told_which_unit_was_expected() -> None:
    """Expected: the rule that a bare number is refused with the unit that was expected."""
    with pytest.raises(QuantityError) as refused:
        parse("62", "pressure")
    assert refused.value.message.values["must_be"] == "a pressure such as '62 psi' or '4.3 bar'"


@pytest.mark.parametrize(
    ("text", "dimension", "nearest"),
    [
        ("5 spi", "pressure", "psi"),
        ("5 mpa", "pressure", "MPa"),
        ("5 kohn", "resistance", "kohm"),
        ("30 m", "pressure", "mH2O"),
        ("2 MIN", "time", "min"),
        ("5 galons per minute", "flow", "gallons per minute"),
    ],
)
def test_the_nearest_spelling_is_offered_first(text: str, dimension: str, nearest: str) -> None:
    """Expected: what a reader would have meant."""
    with pytest.raises(QuantityError) as refused:
        parse(text, dimension)
    offered = refused.value.message.values["nearest"]
    assert isinstance(offered, tuple)
    assert offered[0] == nearest


def test_an_ambiguous_comma_is_answered_with_both_readings() -> None:
    """Expected: 1,500 ohm is 1500 ohm in one country and 1.500 ohm in another."""
    with pytest.raises(QuantityError) as refused:
        parse("1,500 ohm", "resistance")
    assert refused.value.message.values["must_be"] == "'1500 ohm' or '1.500 ohm'"


def test_a_refusal_shows_no_control_signs_of_the_text() -> None:
    """Expected: an escape sequence in a file must not reach a terminal."""
    with pytest.raises(QuantityError) as refused:
        parse("5 \x1b[2Jbar\u202e", "pressure")
    got = refused.value.message.values["got"]
    assert isinstance(got, str)
    assert got.isprintable()


@pytest.mark.parametrize(
    ("text", "dimension", "resolution", "unit"),
    [
        ("1.20 V", "voltage", 0.01, "V"),
        ("62 psi", "pressure", 8896443230521 / 1290320000, "psi"),  # 4.4482216152605 N over (0.0254 m)2
        ("4.10 mA", "current", 1e-5, "mA"),
        ("1.5e3 ohm", "resistance", 100.0, "ohm"),
        ("4k7", "resistance", 100.0, "kohm"),
        ("2½ in", "length", 0.0, "in"),
        ("22 AWG", "area", 0.0, "AWG"),
        ("20.0 degC", "temperature", 0.1, "degC"),
        ("68 °F", "temperature", 5 / 9, "degF"),
        ("14.7 psi", "absolute-pressure", 889644323.0521 / 1290320000 * 1000, "psia"),
    ],
)
def test_the_last_digit_written_tells_the_resolution(text: str, dimension: str, resolution: float, unit: str) -> None:
    """Expected: one count of the last digit, by hand; exact forms have none."""
    found = parse_quantity(text, dimension)
    assert found.resolution == pytest.approx(resolution, rel=1e-15)
    assert found.unit == unit


@pytest.mark.parametrize(
    ("text", "mm"),
    [("22 AWG", 0.6438), ("AWG 22", 0.6438), ("#22 AWG", 0.6438), ("22 ga", 0.6438), ("18 awg", 1.024)],
)
def test_a_wire_gauge_is_an_area(text: str, mm: float) -> None:
    """Expected: diameters of public wire tables (republished copies of ASTM B258), half a unit of the last digit."""
    assert parse(text, "area") == pytest.approx(3.141592653589793 / 4 * (mm * 1e-3) ** 2, rel=2 * 0.0005 / mm)


@pytest.mark.parametrize("pair", [("2/0 AWG", "00 AWG"), ("1/0 AWG", "0 AWG"), ("4/0 AWG", "AWG 0000")])
def test_noughts_may_be_written_or_counted(pair: tuple[str, str]) -> None:
    """Expected: two spellings of one gauge."""
    first, second = (parse(text, "area") for text in pair)
    assert first == second


def test_four_nought_is_460_mil_thick() -> None:
    """Expected: 0.4600 in by definition of the gauge (from memory of ASTM B258)."""
    assert parse("4/0 AWG", "area") == pytest.approx(3.141592653589793 / 4 * (0.46 * 0.0254) ** 2, rel=1e-12)


@pytest.mark.parametrize("text", ["±0.5 %", "+/-0.5 %", "+/- 0.5%", "± 0,5 percent", "0.5 per cent"])
def test_a_percentage_may_have_its_plus_minus(text: str) -> None:
    """Expected: 0.5 in a hundred."""
    assert parse_percent(text) == 0.005


@pytest.mark.parametrize("text", ["±-0.5 V", "0.5", "±", "0.5 % FS"])
def test_what_is_no_percentage_is_refused(text: str) -> None:
    """Expected: a fraction needs to be told of what, and a bare number its unit."""
    with pytest.raises(QuantityError, match=r"^(unit|number)-"):
        parse_percent(text)
