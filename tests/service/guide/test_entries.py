"""What technicians type for a reading becomes what the visit file holds."""

from __future__ import annotations

import pytest

from steadyhead.errors import InputError
from steadyhead.service.guide.entries import Entry, entry, value_of
from steadyhead.visit import parse_visit
from steadyhead.visit.record import Beyond, Figure, Spread
from tests.service.guide.talks import PLATE

VISIT = parse_visit(PLATE).visit


@pytest.mark.parametrize(
    ("line", "low", "high"),
    [
        ("2.1..2.6 jumping", 2.1, 2.6),
        ("jumping 2 to 3", 2.0, 3.0),
        ("jumping between 2 and 3", 2.0, 3.0),
        ("2 to 3", 2.0, 3.0),
        ("jumps 2.1-2.6 V", 2.1, 2.6),
        ("from -1 to 3", -1.0, 3.0),
    ],
)
def test_a_figure_that_jumps_is_a_spread(line: str, low: float, high: float) -> None:
    """The two ends that were typed, in volts."""
    value = value_of(entry(line, "volts", VISIT).text, "volts", VISIT)
    assert isinstance(value, Spread)
    assert (value.low, value.high) == (low, high)


@pytest.mark.parametrize(
    ("line", "measure", "value"),
    [
        ("2.41", "volts", 2.41),
        ("-0.3", "volts", -0.3),
        ("\u22120.3", "volts", -0.3),
        ("2,41", "volts", 2.41),
        ("about 2.4", "volts", 2.4),
        ("2.41 volts", "volts", 2.41),
        ("120 mV", "volts", 0.12),
        ("220", "ohms", 220.0),
        ("4.7k", "ohms", 4700.0),
        ("4k7", "ohms", 4700.0),
        ("12", "megohms", 12e6),
        ("7.02", "milliamps", 7.02e-3),
        ("2.4", "displayed-signal", 2.4),
        ("48 %", "displayed-signal", 0.48),
    ],
)
def test_a_figure_is_in_the_unit_asked_for_or_in_its_own(line: str, measure: str, value: float) -> None:
    """The figure itself in SI units."""
    found = value_of(entry(line, measure, VISIT).text, measure, VISIT)
    assert isinstance(found, Figure)
    assert found.value == pytest.approx(value)


@pytest.mark.parametrize(
    ("line", "measure", "side"),
    [
        ("OL", "ohms", "above"),
        ("o.l", "ohms", "above"),
        ("open", "ohms", "above"),
        ("pegged", "gauge-pressure", "above"),
        ("pegged at 160", "gauge-pressure", "above"),
        ("0 on the stop", "gauge-pressure", "below"),
        ("on its stop pin", "gauge-pressure", "below"),
        ("> 60", "megohms", "above"),
    ],
)
def test_a_figure_past_the_scale_is_censored(line: str, measure: str, side: str) -> None:
    """Which side of the scale the words say."""
    value = value_of(entry(line, measure, VISIT).text, measure, VISIT)
    assert isinstance(value, Beyond)
    assert value.side == side


@pytest.mark.parametrize(
    ("line", "why"),
    [
        ("can't", ""),
        ("cant", ""),
        ("no", ""),
        ("cannot, no cock", "no cock"),
        ("can't: moulded plug", "moulded plug"),
        ("no, it is iced up", "it is iced up"),
        ("no cock here", "no cock here"),
        ("don't have one", "don't have one"),
    ],
)
def test_what_cannot_be_done_is_an_answer_with_or_without_a_reason(line: str, why: str) -> None:
    """The reason that was typed."""
    assert entry(line, "volts", VISIT) == Entry("cannot", why)


@pytest.mark.parametrize(
    ("line", "word"),
    [("right", "right"), ("OK", "right"), ("Wrong", "wrong"), ("bad", "wrong"), ("not seen", "not-seen")],
)
def test_a_look_is_told_in_a_word(line: str, word: str) -> None:
    """The three words of the visit file."""
    assert entry(line, "inspection", VISIT) == Entry("value", word)


@pytest.mark.parametrize(
    ("line", "word"),
    [("none", "none"), ("no fault", "none"), ("low signal", "low-signal"), ("LOW", "low-signal"), ("dry", "dry-run")],
)
def test_a_fault_on_the_display_is_told_by_its_word_or_its_beginning(line: str, word: str) -> None:
    """The words of the visit file."""
    assert entry(line, "displayed-fault", VISIT) == Entry("value", word)


@pytest.mark.parametrize("measure", ["inspection", "displayed-fault"])
def test_a_bare_no_to_a_look_could_mean_two_things_and_is_asked_about(measure: str) -> None:
    """It may say that there is no fault, or that nobody can look."""
    with pytest.raises(InputError):
        entry("no", measure, VISIT)


@pytest.mark.parametrize("line", ["", "banana", "2.41 psi", "1.2.3", "5 V 3", "over there 5", "o" * 500, "\x1b[2J"])
def test_what_says_nothing_is_refused(line: str) -> None:
    """No figure in volts among them."""
    with pytest.raises(InputError):
        entry(line, "volts", VISIT)
