"""Why a suspect stands where it stands: the factors of the readings multiply up, and physics says which one tells."""

from __future__ import annotations

from functools import cache
from math import prod

import pytest

from steadyhead.diagnosis.diagnose import diagnose
from steadyhead.diagnosis.reasons import LEAST, Reasons, factor_between, reasons, suspects_of
from steadyhead.diagnosis.system import System
from steadyhead.visit import parse_visit

HEAD = """schema = 1
[sensor]
signal = "0.5..4.5 V ratiometric"
range = "0..100 psi"
[controller]
scaled = "0..100 psi"
"""
GAUGE = '[[reading]]\nmeasure = "gauge-pressure"\nvalue = "48 psi"\n'
DISPLAY = '[[reading]]\nmeasure = "displayed-pressure"\nvalue = "%s psi"\n'
VOLTS = '[[reading]]\nmeasure = "volts"\nred = "controller.signal"\nblack = "controller.common"\nvalue = "%s V"\n'


@cache
def of(text: str, fault: str) -> Reasons:
    """Return the reasons of a suspect."""
    return reasons(System(parse_visit(text).visit), fault)


OHMS = """[[reading]]
measure = "ohms"
arrangement = "dead-both-free"
red = "wire.signal"
black = "wire.common"
value = "150 ohm"
"""
LOW = HEAD + GAUGE + DISPLAY % "15.5" + VOLTS % "1.12"


@pytest.mark.parametrize("fault", ["sensor-zero-shift", "none"])
def test_the_factors_multiply_from_the_odds_before_to_the_odds_now(fault: str) -> None:
    """Arithmetic: odds now are odds before times all factors, where none of them is held at its end."""
    found = of(LOW, fault)
    ends = [found.before, *(r.probability for r in found.readings)]
    if min(ends) > LEAST and max(ends) < 1.0 - LEAST:
        whole = prod(r.factor for r in found.readings)
        assert whole == pytest.approx(factor_between(found.before, found.probability), rel=1e-9)
    assert all(0.0 <= p <= 1.0 for p in ends)


def test_the_last_odds_are_those_of_the_diagnosis_and_the_first_those_of_no_reading() -> None:
    """The diagnosis of the same visit, and of the plate alone."""
    found = of(LOW, "sensor-zero-shift")
    now = {s.fault: s.probability for s in diagnose(parse_visit(LOW).visit).suspects}
    before = {s.fault: s.probability for s in diagnose(parse_visit(HEAD).visit).suspects}
    assert found.probability == pytest.approx(now["sensor-zero-shift"], abs=1e-9)
    assert found.before == pytest.approx(before["sensor-zero-shift"], abs=1e-9)


def test_a_healthy_reading_speaks_for_a_healthy_loop() -> None:
    """At 48 psi the plate's line gives 0.5 + 48/100 x 4 = 2.42 V; the band that is foretold holds it."""
    found = of(HEAD + GAUGE + DISPLAY % "48.0" + VOLTS % "2.42", "none")
    assert found.strongest_for is not None
    told = found.readings[2].foretold
    assert told is not None
    assert told.low is not None
    assert told.high is not None
    assert told.low < 2.42 < told.high


def test_low_volts_speak_against_a_healthy_loop() -> None:
    """1.12 V at 48 psi is 1.3 V from the plate's line, far outside gauge and meter."""
    found = of(LOW, "none")
    assert found.strongest_against is not None
    assert found.probability < 0.001


def test_ohms_between_free_cores_prove_a_path_between_them() -> None:
    """Ohm: no other single fault leaves 150 ohm between two cores that are free at both ends.

    A second fault beside it is no matter of these cores, so that the odds rise to those of the damp alone.
    """
    found = of(HEAD + OHMS, "leakage-signal-common")
    assert found.strongest_for is not None
    assert found.strongest_for.reading == 1
    assert found.strongest_for.factor > 10.0


def test_readings_before_a_repair_are_named_as_unused() -> None:
    """The visit file's own rule: an action divides the readings."""
    text = LOW + '[[action]]\nremedy = "replace-sensor"\nafter_reading = 3\n' + GAUGE + DISPLAY % "48.0"
    found = of(text, "none")
    assert found.unused == (1, 2, 3)
    assert [r.reading for r in found.readings] == [4, 5]


def test_rivals_are_other_suspects_likeliest_first() -> None:
    """The list itself."""
    found = of(LOW, "sensor-zero-shift")
    shares = [rival.probability for rival in found.rivals]
    assert shares == sorted(shares, reverse=True)
    assert "sensor-zero-shift" not in {rival.fault for rival in found.rivals}


def test_what_would_decide_can_be_made_here_and_its_outcomes_share_nothing() -> None:
    """The two bands of each; the rival has another remedy; the shortest stands first."""
    found = of(LOW, "sensor-zero-shift")
    assert found.deciding
    spent = [each.minutes for each in found.deciding]
    assert spent == sorted(spent)
    for each in found.deciding:
        assert each.if_so.fault == "sensor-zero-shift"
        if each.if_so.low is not None and each.if_not.low is not None:
            bands = sorted([(each.if_so.low, each.if_so.high), (each.if_not.low, each.if_not.high)])
            assert bands[0][1] is not None
            assert bands[0][1] < bands[1][0]


def test_a_declined_check_is_no_way_to_decide() -> None:
    """The row in the file."""
    first = of(LOW, "sensor-zero-shift").deciding[0].question
    row = f'[[declined]]\nmeasure = "{first.measure}"\narrangement = "{first.arrangement}"\n'
    row += f'item = "{first.item}"\n' if first.item else ""
    row += f'red = "{first.red}"\nblack = "{first.black}"\n' if first.red else ""
    assert first not in {each.question for each in of(LOW + row, "sensor-zero-shift").deciding}


def test_every_suspect_of_a_system_is_known_once() -> None:
    """Counting; a three-wire loop can have its wires rotated, a two-wire one reversed."""
    three = suspects_of(System(parse_visit(HEAD).visit))
    two = suspects_of(System(parse_visit('schema = 1\n[sensor]\nsignal = "4..20 mA"\nrange = "0..9 bar"\n').visit))
    assert len(three) == len(set(three))
    assert "rotated-left" in three
    assert "reversed" in two
    assert "reversed" not in three
