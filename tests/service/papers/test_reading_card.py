"""The reading card: its line against the plate's own, its band about it, its pressures round, its terminals named."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from steadyhead.diagnosis.system import System
from steadyhead.documents.paper import Paper, Shown, Table
from steadyhead.service.papers.occasion import of_file
from steadyhead.service.papers.reading_card import MOST_ROWS, round_pressures
from steadyhead.visit import parse_visit
from tests.service.papers.occasions import card_of, system, text_of, worded

PSI = 6894.757293168361  #: exact: 4.4482216152605 N over a square inch of 0.0254 m (NIST SP 811, B.8; from memory)


def table_of(paper: Paper) -> Table:
    """Return the one table of a card."""
    return next(block for block in paper.blocks if isinstance(block, Table))


def figures(paper: Paper, column: int, part: int = 0) -> list[float]:
    """Return the figures of a column, SI."""
    cells = (row[column][part] for row in table_of(paper).rows)
    return [cell.figure.value for cell in cells if isinstance(cell, Shown)]


def test_the_line_of_a_ratiometric_sensor_is_its_plates() -> None:
    """Closed form: 0.5 V at nothing and 4 V more over 100 psi."""
    paper = card_of(system("0.5..4.5 V ratiometric", "0..100 psi", "5 V", "50 psi"))
    pressures, signals = figures(paper, 0), figures(paper, 2)
    assert pressures == pytest.approx([PSI * k * 10 for k in range(11)])
    assert signals == pytest.approx([0.5 + 0.4 * k for k in range(11)])


def test_the_line_of_a_current_loop_is_its_plates_and_ohms_law_gives_the_volts() -> None:
    """Closed form: 4 mA at nothing and 16 mA more over 10 bar; times 250 ohm."""
    paper = card_of(system("4..20 mA", "0..10 bar", "24 V", "5 bar", 'input_resistance = "250 ohm"'))
    assert figures(paper, 2) == pytest.approx([0.004 + 0.0016 * k for k in range(11)])
    assert figures(paper, 4) == pytest.approx([1.0 + 0.4 * k for k in range(11)])


@pytest.mark.parametrize(
    ("signal", "range_", "supply"),
    [
        ("0.5..4.5 V ratiometric", "0..100 psi", "5 V"),
        ("4..20 mA", "0..16 bar", "24 V"),
        ("0..10 V", "0..6 bar", "24 V"),
    ],
)
def test_the_line_lies_within_its_band_and_a_worse_gauge_widens_it(signal: str, range_: str, supply: str) -> None:
    """A property: a healthy loop shows what the plate says, give or take, and a worse gauge allows for more.

    A band of a quarter of the span would tell nothing: no input may clamp the signal that it is made for.
    """
    file = system(signal, range_, supply, "3 bar")
    good, bad = card_of(file), card_of(parse_visit(file.text.replace('grade = "B"', 'accuracy = "8 %"')))
    for low, line, high in zip(figures(good, 3), figures(good, 2), highs(good), strict=True):
        assert low <= line <= high
    span = figures(good, 2)[-1] - figures(good, 2)[0]
    assert all(high - low < 0.25 * span for low, high in zip(figures(good, 3), highs(good), strict=True))
    widths = [[high - low for low, high in zip(figures(card, 3), highs(card), strict=True)] for card in (good, bad)]
    assert all(wide > narrow for narrow, wide in zip(*widths, strict=True))


def highs(paper: Paper) -> list[float]:
    """Return the upper ends of the bands, SI."""
    return figures(paper, 3, part=2)


@given(st.integers(0, 300), st.integers(1, 4000), st.sampled_from(["psi", "bar", "kPa"]))
@settings(max_examples=80)
def test_pressures_are_round_rising_within_the_range_and_fit_the_card(low: int, width: int, unit: str) -> None:
    """The rule of the rows: both ends, and between them whole steps of 1, 2, 2.5 or 5."""
    visit = system("4..20 mA", f"{low / 10}..{(low + width) / 10} {unit}", "24 V", f"{low / 10} {unit}").visit
    loop = System(visit)
    found = round_pressures(loop)
    assert found[0] == pytest.approx(loop.range.low)
    assert found[-1] == pytest.approx(loop.range.high)
    assert all(after > before for before, after in pairwise(found))
    assert 2 <= len(found) <= MOST_ROWS
    steps = {round(after - before, 6) for before, after in pairwise(found[1:-1])}
    assert len(steps) <= 1 or max(steps) == pytest.approx(min(steps), rel=1e-6)


def test_the_card_names_this_panels_own_terminals_and_has_si_beside() -> None:
    """The labels and the unit of the file."""
    file = system("0.5..4.5 V ratiometric", "0..100 psi", "5 V", "50 psi")
    said = text_of(worded(card_of(file), of_file(file, None)))
    assert "AI 1 to 0V, V" in said
    assert "Sensor power, PWR to 0V" in said
    assert "689" in said
    assert "kPa" in said
    assert said.count("Local codes and a licensed person come first.") == 1


def test_a_card_in_kilopascal_has_no_second_column_of_it() -> None:
    """SI stands beside a unit that is none."""
    paper = card_of(system("4..20 mA", "0..1000 kPa", "24 V", "500 kPa"))
    assert len(table_of(paper).columns) == 3


def test_nothing_of_a_visits_readings_stands_on_the_card() -> None:
    """Two files that differ in their reading alone have the same blocks."""
    one, other = (card_of(system("0..10 V", "0..6 bar", "24 V", reading)) for reading in ("2 bar", "5 bar"))
    assert one.blocks == other.blocks
