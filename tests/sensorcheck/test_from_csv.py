"""A table of points: every spelling that a spreadsheet has, and everything that is wrong with it at once."""

from __future__ import annotations

from contextlib import suppress

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from steadyhead.errors import CheckFileError, FileUnreadableError
from steadyhead.sensorcheck.file import parse_check
from steadyhead.sensorcheck.from_csv import points_from_csv
from steadyhead.visit.record import Interval
from tests.sensorcheck.runs import BOOSTER, HOUSE, PSI

HALF = 0.5 * PSI


def test_units_in_the_head() -> None:
    """Read by eye."""
    text = "reference [psi], signal [V], supply [V], direction, cycle\n0,0.503,5.01,up,1\n40.5,2.14,5.01,up,1\n"
    found = points_from_csv(text, HOUSE).points
    assert [(each.reference_pa, each.signal, each.supply_v) for each in found] == [
        (0.0, 0.503, 5.01), (pytest.approx(40.5 * PSI), 2.14, 5.01),
    ]  # fmt: skip


def test_units_in_the_cells_and_of_more_than_one_kind() -> None:
    """Each cell says its own: 1 bar is 100 kPa by definition."""
    found = points_from_csv("reference,signal\n1 bar,12 mA\n100 kPa,0.012 A\n", BOOSTER).points
    assert [(each.reference_pa, each.signal) for each in found] == [(1e5, 0.012), (1e5, 0.012)]


@pytest.mark.parametrize(
    "text",
    [
        "reference [bar];signal [mA]\n8,02;12,041\n",
        "reference [bar]\tsignal [mA]\n8,02\t12,041\n",
        "reference [bar];signal [mA]\n8.02;12.041\n",
        "\ufeffreference [bar];signal [mA]\r\n\r\n8,02;12,041\r\n\r\n",
        'reference (bar);"signal (mA)"\n"8,02";"12,041"\n',
        "reference [bar], signal [mA]\n8.02, 12.041",
        "Reference [bar],Signal [mA],remark\n8.02,12.041,tapped the gauge\n",
        "signal;reference\n12,041 mA;8,02 bar\n",
    ],
    ids=["semicolons", "tabs", "points", "mark and CRLF", "quotes", "commas", "remark", "units in cells"],
)
def test_the_same_point_in_every_spelling(text: str) -> None:
    """One point, 8.02 bar and 12.041 mA."""
    (point,) = points_from_csv(text, BOOSTER).points
    assert point.reference_pa == pytest.approx(8.02e5)
    assert point.signal == pytest.approx(0.012041)


def test_directions_and_cycles_are_worked_out() -> None:
    """By eye: up to 100, down to 0, up again; the zero in the middle ends the first cycle; 49.9 stands beside 50."""
    text = "reference [psi],shown [psi]\n" + "".join(f"{p},{p}\n" for p in (0, 50, 49.9, 100, 50, 0, 50, 100))
    found = points_from_csv(text, HOUSE).points
    ways = "".join(each.direction[0] for each in found)
    assert ways == "uuuudduu"
    assert [each.cycle for each in found] == [1, 1, 1, 1, 1, 1, 2, 2]


def test_a_table_that_begins_at_the_top_goes_down() -> None:
    """By eye."""
    text = "reference [psi],shown [psi]\n100,100\n50,50\n0,0\n"
    assert [each.direction for each in points_from_csv(text, HOUSE).points] == ["down"] * 3


def test_what_is_given_wins_over_what_would_be_worked_out() -> None:
    """By eye: the second row says down though it is higher; the third says nothing and rose."""
    text = "reference [psi],shown [psi],direction,cycle\n0,0,UP,3\n50,50,down,3\n60,60,,\n"
    found = points_from_csv(text, HOUSE).points
    assert [(each.direction, each.cycle) for each in found] == [("up", 3), ("down", 3), ("up", 4)]


def test_everything_that_is_wrong_is_told_at_once_with_line_and_column() -> None:
    """Counted by eye."""
    text = (
        "reference [psi],signal [V],supply,direction,cycle\n"
        "forty,2.1,5 V,up,1\n"  # 2: no number
        "40,2.1,5,up,1\n"  # 3: no unit
        "40 psi,2.1,5 V,up,1\n"  # 4: unit told twice
        "40,2.1,5 V,across,1\n"  # 5: no such way
        "40,2.1,5 V,up,none\n"  # 6: no number of times
        "40,2.1,5 V,up,1,7\n"  # 7: one cell too many
        ",2.1,5 V,up,1\n"  # 8: no reference
        "40,,5 V,up,1\n"  # 9: says nothing of the sensor
    )
    with pytest.raises(CheckFileError, match="check-file-refused") as caught:
        points_from_csv(text, HOUSE, "mine.csv")
    told = [(each.line, each.key, each.message.id) for each in caught.value.problems]
    assert told == [
        (2, "column 1 (reference)", "csv-unit-twice"),
        (3, "column 3 (supply)", "unit-missing"),
        (4, "column 1 (reference)", "csv-unit-twice"),
        (5, "column 4 (direction)", "word-unknown"),
        (6, "column 5 (cycle)", "value-wrong-type"),
        (7, "", "csv-too-many-cells"),
        (8, "column 1 (reference)", "key-missing"),
        (9, "", "check-point-says-nothing"),
    ]


@pytest.mark.parametrize(
    ("text", "problems"),
    [
        ("", ["csv-empty"]),
        ("reference [psi],signal [V]\n", ["csv-empty"]),
        ("40,2.1\n50,2.5\n", ["csv-column-unknown", "csv-column-unknown", "csv-column-missing", "csv-column-missing"]),
        ("reference [spi],signal [V]\n40,2.1\n", ["unit-unknown"]),
        ("reference [psi],signal [mA]\n40,2.1\n", ["unit-of-another-kind"]),
        ("reference [psi],signal [V],refrence\n40,2.1,1\n", ["csv-column-unknown"]),
        ("reference [psi],signal [V],signal [V]\n40,2.1,2.1\n", ["csv-column-twice"]),
        ("reference [psi],signal [V],cycle [s]\n40,2.1,2.1\n", ["csv-column-without-unit"]),
        ("reference [psi],signal [V]\n\"40,2.1\n", ["csv-quotes"]),
        ("reference [psi];signal [V]\n40,5;2.1\n", ["csv-both-signs"]),
        ("reference [psi],signal [V]\n40,5,2,1\n", ["csv-too-many-cells"]),
    ],
    ids=lambda each: each if isinstance(each, str) else "",
)
def test_what_cannot_be_read_is_refused(text: str, problems: list[str]) -> None:
    """One reason each."""
    with pytest.raises(CheckFileError) as caught:
        points_from_csv(text, HOUSE)
    assert [each.message.id for each in caught.value.problems] == problems


def test_a_reading_beyond_the_gauges_scale_is_refused_where_it_stands() -> None:
    """35 bar on a gauge of 0..160 psi (11.03 bar): no gauge shows what is not on it."""
    scale = Interval(0.0, 160.0 * PSI)
    with pytest.raises(CheckFileError) as caught:
        points_from_csv("reference [bar],signal [V]\n3.5,2.4\n35,2.4\n", HOUSE, scale=scale)
    (problem,) = caught.value.problems
    assert (problem.line, problem.key, problem.message.id) == (3, "column 1 (reference)", "reference-off-scale")


def test_what_is_no_text_is_refused() -> None:
    """The visit file's own reader."""
    with pytest.raises(FileUnreadableError, match="text-is-utf-16"):
        points_from_csv("reference".encode("utf-16"), HOUSE)


FEW = settings(max_examples=40, deadline=None)
ROWS = st.lists(
    st.tuples(st.integers(0, 1000), st.integers(0, 4999), st.sampled_from(["up", "down"]), st.integers(1, 9)),
    min_size=1, max_size=12,
)  # fmt: skip


@FEW
@given(ROWS, st.sampled_from([",", ";", "\t"]), st.sampled_from([".", ","]), st.booleans())
def test_a_table_reads_back_as_it_was_written(
    rows: list[tuple[int, int, str, int]], parted_by: str, sign: str, in_head: bool
) -> None:
    """A property: written by the csv library's rules, read back the same, and the same again through a check file."""
    if parted_by == "," and sign == ",":
        sign = "."
    units = (" [psi]", " [V]") if in_head else ("", "")
    cells = ("", "") if in_head else (" psi", " V")
    head = parted_by.join((f"reference{units[0]}", f"signal{units[1]}", "direction", "cycle"))
    lines = [head]
    for pressure, signal, way, cycle in rows:
        figures = (f"{pressure / 10:.1f}{cells[0]}", f"{signal / 1000:.3f}{cells[1]}")
        lines.append(parted_by.join((*(each.replace(".", sign) for each in figures), way, str(cycle))))
    found = points_from_csv("\n".join(lines), HOUSE)
    assert [(each.direction, each.cycle) for each in found.points] == [(way, cycle) for _, _, way, cycle in rows]
    assert [each.signal for each in found.points] == pytest.approx([signal / 1000 for _, signal, _, _ in rows])
    assert [each.reference_pa for each in found.points] == pytest.approx([p / 10 * PSI for p, _, _, _ in rows])
    check = parse_check('schema = 1\n[sensor]\nsignal = "0.5..4.5 V ratiometric"\nrange = "0..100 psi"\n')
    for row in found.rows:
        check = check.with_point(row)
    assert check.run.points == found.points


@FEW
@given(st.text(max_size=300) | st.binary(max_size=300))
def test_nothing_but_a_refusal_comes_of_anything(data: str | bytes) -> None:
    """A property: whatever is thrown at it, it answers in its own words."""
    with suppress(CheckFileError, FileUnreadableError):
        assert points_from_csv(data, HOUSE).points
